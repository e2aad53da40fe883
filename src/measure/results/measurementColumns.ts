// Kept readings as numbers again, with the calibration that the measurement states.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { ReadingColumn } from '../../model/schema/measurement'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'

export interface Signal {
  readonly label: string
  readonly axis: 'x' | 'y' | null
  readonly values: Float64Array
}

interface Calibration {
  readonly factor: number
  readonly standard: number
}

/** A scale factor with its relative standard uncertainty. */
export function scaleOf(scale: Quantity): Calibration {
  const factor = coreValue(scale, 'scaleFactor')
  return { factor, standard: coreStandard(scale, 'scaleFactor') / factor }
}

/** A detector without data is linear, without uncertainty. */
export function detectorOf(exponent: Quantity | undefined): Calibration {
  if (exponent === undefined) return { factor: 1, standard: 0 }
  return {
    factor: coreValue(exponent, 'detectorExponent'),
    standard: coreStandard(exponent, 'detectorExponent'),
  }
}

/** The first column of a role, times `factor`. InputError where the measurement has none. */
export function coordinateOf(
  columns: readonly ReadingColumn[],
  role: ReadingColumn['role'],
  factor = 1,
): Float64Array {
  const column = columns.find((each) => each.role === role)
  if (column === undefined) throw new InputError(`number of ${role} columns`, 0, '1 or more')
  const values = unpackNumbers(column.values)
  return factor === 1 ? values : values.map((value) => value * factor)
}

/**
 * A detector that reads power^e is undone by the power 1/e; readings below zero, which noise leaves about a dark level,
 * keep their sign.
 */
export function withoutExponent(values: Float64Array, detector: number): Float64Array {
  return detector === 1 ? values : values.map((value) => Math.sign(value) * Math.abs(value) ** (1 / detector))
}

/** Every power column, as the power itself. */
export function signalsOf(columns: readonly ReadingColumn[], detector = 1): readonly Signal[] {
  const powers = columns.filter((column) => column.role === 'power')
  if (powers.length === 0) throw new InputError('number of power columns', 0, '1 or more')
  return powers.map((column, i) => {
    return {
      label: column.label || (powers.length === 1 ? 'power' : `power ${i + 1}`),
      axis: axisOf(column.label),
      values: withoutExponent(unpackNumbers(column.values), detector),
    }
  })
}

/** "P along x", "Px", "power_y". */
function axisOf(label: string): 'x' | 'y' | null {
  const match = /(?:^|[\s_(-])p?_?([xy])(?:$|[\s_),-])/i.exec(label)
  const axis = match?.[1]?.toLowerCase()
  return axis === 'x' || axis === 'y' ? axis : null
}
