// The fibre array: one fibre in front of every channel of the chip.

/** What the position of the whole array is optimised for, on power. */
export const ARRAY_AIMS = ['sum of all', 'worst channel', 'outer two'] as const

export type ArrayAim = (typeof ARRAY_AIMS)[number]

/** As they are shown; files keep the words above. */
export const AIM_NAMES: Readonly<Record<ArrayAim, string>> = {
  'sum of all': 'total power',
  'worst channel': 'worst channel',
  'outer two': 'outer two',
}
