/** Lowest of the channels' own yields: at least the yield of all channels, which must pass together. One name on every screen. */
export const WORST_SINGLE_CHANNEL = 'Lowest single-channel yield'
