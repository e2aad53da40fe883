// What a question depends on, as text. An evaluation and a simulation of one design come to its numbers in different ways, which may differ
// in the last digits: they ask the same question.

import { rounded, roundedTo } from '../../../numerics/numberText'

const DIGITS = 12
/** Decimals of a coordinate, um and rad: what a subtraction leaves beyond them is rounding error. */
const DECIMALS = 12

/** Coordinates, um and rad. */
export const placesText = (values: readonly number[]): string =>
  values.map((value) => rounded(roundedTo(value, DECIMALS), DIGITS)).join(' ')

/** Plain data. */
export const dataText = (data: unknown): string =>
  JSON.stringify(data, (_, value: unknown) => (typeof value === 'number' ? rounded(value, DIGITS) : value))
