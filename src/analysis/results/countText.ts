/** A count with its thousands set apart: `100 000`. */
export function countText(count: number): string {
  return count.toLocaleString('en').replaceAll(',', '\u202f')
}

/** Least of the channels' own yields: at least the yield of all channels, which must pass together. One name on every screen. */
export const WORST_SINGLE_CHANNEL = 'Worst single channel within the limit, others ignored'
