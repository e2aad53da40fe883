// A stress test fitted by a law of time. Each series has its own initial loss and rate, by least squares:
//   loss_i(t) = a_i + b_i g(t)
// The mean rate has its interval from the assemblies, since channels of one assembly drift together; one further channel adds the
// spread of all rates, which includes what the noise of the readings adds to each. Balanced series make this the mixed-effects fit.
// Source: two-stage analysis of growth curves, N. M. Laird and J. H. Ware, Biometrics 38 (1982) 963 (from memory).

import type { StressTest } from '../../model/measurements/stressSeries'
import type { DriftLaw } from '../../model/words/lifetime'
import { InputError } from '../../numerics/inputError'
import { mean, standardDeviation, studentT } from '../../numerics/statistics'
import { lawAt } from './laws'

export interface DriftFit {
  readonly law: DriftLaw
  /** Mean rate, dB for each unit of the law's function, and its standard error. */
  readonly rateDb: number
  readonly rateStandardDb: number
  readonly degreesOfFreedom: number
  /** Standard deviation of the rate of one channel; null where a single series cannot say. */
  readonly rateSpreadDb: number | null
  /** Rms residual of the readings, all series together, dB; null where every series has two readings only. */
  readonly residualDb: number | null
  readonly assemblies: number
  readonly series: number
}

const COVERAGE = 0.95

interface Line {
  readonly assembly: string
  readonly rate: number
  /** Loss at the start. */
  readonly startDb: number
  /** Sum of squares that is left, its degrees of freedom, and that of the law's function about its mean. */
  readonly left: number
  readonly free: number
  readonly squares: number
}

/** The straight line of one series over the law's function; null where that does not vary. */
export function seriesLine(test: StressTest, at: number, law: DriftLaw): Line | null {
  const series = test.series[at]
  if (series === undefined) return null
  const { assembly, exposure, lossDb } = series
  const g = exposure.map((each) => lawAt(law, each, test.firstStep))
  const [middle, level] = [mean(g), mean(lossDb)]
  const squares = g.reduce((sum, each) => sum + (each - middle) ** 2, 0)
  if (!(squares > 0)) return null
  const rate =
    g.reduce((sum, each, i) => sum + (each - middle) * ((lossDb[i] as number) - level), 0) / squares
  const left = g.reduce(
    (sum, each, i) => sum + ((lossDb[i] as number) - level - rate * (each - middle)) ** 2,
    0,
  )
  return { assembly, rate, startDb: level - rate * middle, left, free: g.length - 2, squares }
}

/** The fit. InputError where no series has two exposures, and where a single one has fewer than three readings. */
export function fitDrift(test: StressTest, law: DriftLaw): DriftFit {
  const lines = test.series.flatMap((_, at) => seriesLine(test, at, law) ?? [])
  const free = lines.reduce((sum, line) => sum + line.free, 0)
  const left = lines.reduce((sum, line) => sum + line.left, 0)
  const rates = lines.map(({ rate }) => rate)
  const byAssembly = new Map<string, number[]>()
  for (const { assembly, rate } of lines)
    byAssembly.set(assembly, [...(byAssembly.get(assembly) ?? []), rate])
  const assemblies = byAssembly.size
  const common = {
    law,
    residualDb: free > 0 ? Math.sqrt(left / free) : null,
    assemblies,
    series: lines.length,
  }
  const [only] = lines
  if (only === undefined) throw new InputError('number of channels measured at two exposures', 0, '1 or more')
  if (lines.length === 1) {
    if (only.free < 1)
      throw new InputError(
        'the stress test',
        'of one channel at two exposures',
        'one with three exposures or two assemblies',
      )
    return {
      ...common,
      rateDb: only.rate,
      rateStandardDb: Math.sqrt(only.left / only.free / only.squares),
      degreesOfFreedom: only.free,
      rateSpreadDb: null,
    }
  }
  const units = assemblies > 1 ? [...byAssembly.values()].map(mean) : rates
  const rateDb = mean(units)
  return {
    ...common,
    rateDb,
    rateStandardDb: standardDeviation(units) / Math.sqrt(units.length),
    degreesOfFreedom: units.length - 1,
    rateSpreadDb: standardDeviation(rates),
  }
}

export interface DriftAt {
  readonly meanDb: number
  /** Half widths of the 95 % intervals: of the mean, and of one further channel. */
  readonly meanPlusMinusDb: number
  readonly onePlusMinusDb: number
}

/** The drift since the start at an exposure of the test, in its unit. */
export function driftAt(fit: DriftFit, exposure: number, firstStep: number): DriftAt {
  const g = lawAt(fit.law, exposure, firstStep)
  const t = studentT(COVERAGE, fit.degreesOfFreedom)
  return {
    meanDb: fit.rateDb * g,
    meanPlusMinusDb: t * fit.rateStandardDb * g,
    onePlusMinusDb: t * Math.hypot(fit.rateStandardDb, fit.rateSpreadDb ?? 0) * g,
  }
}
