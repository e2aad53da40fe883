// Best-Gaussian MFD of a step-index core, read from an interpolant of w/a against V instead of being solved anew.

import type { Path } from '../../../model/issue'
import { fixedText } from '../../../numerics/numberText'
import { type ChebyshevSeries, chebyshevSeries, chebyshevValue } from '../../../numerics/polynomial/chebyshev'
import { stepIndexMode, V_RANGE } from '../../../optics/index'
import { sampledRange } from '../../results/sampledRange'
import type { ChainContext } from './elementModels'
import { constantReader, type Reader, readerOf } from './valueReaders'

/** Error of w/a that the table keeps over the whole sampled range, as a share of the width. */
const TABLED_MFD_ERROR = 1e-8
const POINT_COUNTS = [12, 24, 48, 96, 192] as const

/** w/a of the best Gaussian, which depends on V alone: any small NA does. */
function widthPerRadius(V: number): number {
  const na = 0.01
  const { bestGaussianMfdUm } = stepIndexMode({ coreRadiusUm: 1, na, wavelengthUm: (2 * Math.PI * na) / V })
  return bestGaussianMfdUm / 2
}

/** The last tables made: a spectrum or a run asks for the same ones again after every edit of something else. */
const REMEMBERED_TABLES = 16
const remembered = new Map<string, ChebyshevSeries>()

function tableOver(from: number, to: number): ChebyshevSeries {
  const key = `${from} ${to}`
  const known = remembered.get(key)
  if (known !== undefined) return known
  let table = chebyshevSeries(widthPerRadius, from, to, POINT_COUNTS[0])
  for (const count of POINT_COUNTS.slice(1)) {
    if (table.error < TABLED_MFD_ERROR) break
    table = chebyshevSeries(widthPerRadius, from, to, count)
  }
  if (remembered.size >= REMEMBERED_TABLES) remembered.clear()
  remembered.set(key, table)
  return table
}

/**
 * Reader of the MFD for a core whose diameter and NA are sampled; the table covers every sample that can occur, also with
 * the tolerances as wide as the context says. Samples that leave the range of the mode solver are reported, and the
 * candidate is then not computed; where only widened tolerances leave it, such a sample has no mode and reads NaN.
 */
export function tabledMfd(
  context: ChainContext,
  path: Path,
  name: string,
  diameterUm: Reader,
  na: Reader,
): Reader {
  const perV = Math.PI / context.wavelengthUm
  const [bandFrom, bandTo] = context.bandUm
  const vRange = (widening: number) => {
    const ranges = context.readers.variables.map((variable) => sampledRange(variable, widening))
    return ([0, 1] as const).map((end) => {
      const values = Float64Array.from(ranges, (range) => range[end])
      return perV * diameterUm(values) * na(values)
    })
  }
  const [sampledFrom = 0, sampledTo = 0] = vRange(1)
  if (sampledFrom < V_RANGE[0] || sampledTo > V_RANGE[1]) {
    context.report({
      path,
      code: 'range',
      message: `the tolerances of ${name} vary V from ${fixedText(sampledFrom, 2)} to ${fixedText(sampledTo, 2)}; must stay within ${V_RANGE[0]} to ${V_RANGE[1]}`,
      fix: 'Narrow the tolerance of the core diameter or the numerical aperture.',
    })
    return constantReader(1)
  }
  const oneWavelength = bandFrom === bandTo
  if (oneWavelength && sampledTo - sampledFrom < 1e-9) {
    const width = widthPerRadius(sampledFrom)
    return readerOf([diameterUm], (v) => width * diameterUm(v))
  }
  const [wideFrom = sampledFrom, wideTo = sampledTo] = vRange(context.widening)
  const from = Math.max(V_RANGE[0], (wideFrom * context.wavelengthUm) / bandTo)
  const to = Math.min(V_RANGE[1], (wideTo * context.wavelengthUm) / bandFrom)
  const table = tableOver(from, to)
  const mfd = (diameter: number, aperture: number, wavelengthUm: number) => {
    const V = (Math.PI * diameter * aperture) / wavelengthUm
    return V >= from && V <= to ? chebyshevValue(table, V) * diameter : Number.NaN
  }
  const of = [diameterUm, na, context.wavelength] as const
  const one = readerOf(of, (v) => mfd(diameterUm(v), na(v), context.wavelength(v)))
  return Object.assign(one, {
    inColumns: {
      of,
      fill: (
        [diameters, apertures, wavelengths]: readonly Float64Array[],
        count: number,
        out: Float64Array,
      ) => {
        if (diameters === undefined || apertures === undefined || wavelengths === undefined) return
        for (let i = 0; i < count; i++) {
          out[i] = mfd(diameters[i] as number, apertures[i] as number, wavelengths[i] as number)
        }
      },
    },
  })
}
