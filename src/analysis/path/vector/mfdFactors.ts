// How the diameters of a mode change with wavelength, as factors that are 1 at the project's own.

import { coreValue } from '../../../model/quantity/quantity'
import type { ModeOverWavelength } from '../../../model/schema/modeOverWavelength'
import type { ChainContext } from './elementModels'
import { type Reader, readerOf } from './valueReaders'

interface MfdFactors {
  readonly x: Reader
  readonly y: Reader
}

interface Point {
  readonly wavelengthUm: number
  readonly x: number
  readonly y: number
}

function pointsOf(law: Extract<ModeOverWavelength, { kind: 'points' }>): readonly Point[] {
  return law.points
    .map((point) => ({
      wavelengthUm: coreValue(point.wavelength, 'wavelength'),
      x: coreValue(point.mfdX, 'mfd'),
      y: coreValue(point.mfdY, 'mfd'),
    }))
    .sort((a, b) => a.wavelengthUm - b.wavelengthUm)
}

/** On the straight lines through the points; beyond them, on the last line. */
function between(points: readonly Point[], axis: 'x' | 'y', wavelengthUm: number): number {
  const above = points.findIndex((point) => point.wavelengthUm >= wavelengthUm)
  const at = above < 0 ? points.length - 1 : Math.max(1, above)
  const [from, to] = [points[at - 1], points[at]]
  if (from === undefined || to === undefined) return 1
  const share = (wavelengthUm - from.wavelengthUm) / (to.wavelengthUm - from.wavelengthUm)
  return from[axis] + share * (to[axis] - from[axis])
}

/** Factors of both diameters; null where the part states no law. */
export function mfdFactors(context: ChainContext, law: ModeOverWavelength | undefined): MfdFactors | null {
  if (law === undefined) return null
  const { wavelengthUm, wavelength } = context
  if (law.kind === 'power law') {
    const exponent = coreValue(law.exponent, 'exponent')
    const factor = readerOf([wavelength], (v) => (wavelength(v) / wavelengthUm) ** exponent)
    return { x: factor, y: factor }
  }
  const points = pointsOf(law)
  const along = (axis: 'x' | 'y'): Reader => {
    const here = between(points, axis, wavelengthUm)
    return readerOf([wavelength], (v) => between(points, axis, wavelength(v)) / here)
  }
  return { x: along('x'), y: along('y') }
}

/** Wavelengths that the law's data cover, um; null for a law without limits. */
export function coveredBand(law: ModeOverWavelength): readonly [fromUm: number, toUm: number] | null {
  if (law.kind === 'power law') return null
  const points = pointsOf(law)
  return [points[0]?.wavelengthUm ?? 0, points.at(-1)?.wavelengthUm ?? 0]
}
