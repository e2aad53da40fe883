// What the interface must do, as it is agreed before any part is chosen.

export const LIGHT_DIRECTIONS = ['fibre to chip', 'chip to fibre', 'both'] as const
export type LightDirection = (typeof LIGHT_DIRECTIONS)[number]

/** Which figure of the budget has to stay within a loss limit. */
export const LOSS_BASES = ['percentile', 'nominal', 'RSS', 'worst case'] as const
export type LossBasis = (typeof LOSS_BASES)[number]

export const CHANNEL_SCOPES = ['one', 'all'] as const
