// The two ends of an SSC chip, by the names of their fields.

import type { TaperChipEntry } from '../schema/parts'

export const CHIP_SIDES = ['input', 'output'] as const
export type ChipSide = (typeof CHIP_SIDES)[number]

export const END_FIELDS = {
  input: { end: 'inputEnd', mfdX: 'inputMfdX', mfdY: 'inputMfdY' },
  output: { end: 'outputEnd', mfdX: 'outputMfdX', mfdY: 'outputMfdY' },
} as const satisfies Readonly<Record<ChipSide, Readonly<Record<string, keyof TaperChipEntry>>>>

/** How messages and screens name an end. */
export const endName = ({ name }: TaperChipEntry, side: ChipSide): string => `${name}, ${side} end`
