// A measured lot compared with the prediction of its design: whether both agree, and which tolerances would explain the difference.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { mix32 } from '../../numerics/random/randomWords'
import { type Steps, within } from '../../numerics/steps'
import { type LotLayout, lotDraw, lotFeatures } from './lotLayout'
import { type LotSimulator, type LotTolerance, lotSimulator } from './lotSimulator'
import { type PosteriorFactor, posteriorFactors, referenceSteps } from './tolerancePosterior'

export interface MeasuredLot extends LotLayout {
  readonly lossDb: ArrayLike<number>
}

export interface ExplainedTolerance extends LotTolerance, PosteriorFactor {}

export interface LotExplanation {
  /** Losses of simulated lots with the stated tolerances, measurement scatter included, dB; some thousands. */
  readonly predictedDb: Float64Array
  readonly meanDifferenceDb: number
  /** Greatest difference of the cumulative shares, and how often simulated lots of this size differ as much. */
  readonly distance: number
  readonly probability: number
  readonly agrees: boolean
  /** Most informed first. */
  readonly tolerances: readonly ExplainedTolerance[]
  /** Tolerances with too little effect on the loss to be estimated from a lot. */
  readonly heldCount: number
  readonly simulatedLots: number
  /** Channels per assembly of the design, where the lot has another number. */
  readonly otherChannels: number | null
}

/** Lots of the test of agreement, and fewer where the fields of every assembly are summed. */
const AGREEMENT_LOTS = 199
const FEW_AGREEMENT_LOTS = 59
/** Lots differ by chance as much in so many cases, or the prediction is rejected. */
const SIGNIFICANCE = 0.05
const EFFORT = { assemblies: 40_000, fewest: 300, most: 1200 } as const

const agreementLots = ({ isDirect }: LotSimulator) => (isDirect ? FEW_AGREEMENT_LOTS : AGREEMENT_LOTS)

/** Lots from which the tolerances are estimated. */
const referenceLots = ({ isDirect }: LotSimulator, { assemblies }: MeasuredLot) =>
  isDirect
    ? EFFORT.fewest
    : Math.round(Math.min(EFFORT.most, Math.max(EFFORT.fewest, EFFORT.assemblies / assemblies)))

const KEPT_PREDICTED = 4000
const SCREENED_ASSEMBLIES = 64
/** Doubling a tolerance must move losses by this share of what the strongest one does. */
const WORTH_FITTING = 0.08
const MOST_FITTED = 8

/** The explanation as steps that pause often; each yields the share of the work done. */
export function* explainLotSteps(
  project: Project,
  candidateId: string,
  lot: MeasuredLot,
): Steps<Result<LotExplanation>> {
  const made = lotSimulator(project, candidateId, mix32(project.seed ^ 0x1b873593))
  if (!made.ok) return made
  const simulator = made.value
  const draw = lotDraw(simulator, lot, mix32(project.seed ^ 0x2c1b3c6d))
  const predicted = yield* within(0, 0.25, predictedSteps(simulator, draw))
  const agreement = agreementOf(lot.lossDb, predicted)
  const fitted = yield* within(0.25, 0.3, screenedSteps(simulator))
  const lots = referenceLots(simulator, lot)
  const factors = new Float64Array(simulator.tolerances.length)
  const table = yield* within(
    0.3,
    1,
    referenceSteps(fitted.length, lots, project.seed, (n, own) => {
      factors.fill(1)
      fitted.forEach((slot, j) => {
        factors[slot] = own[j] ?? 1
      })
      return lotFeatures(draw(agreementLots(simulator) + n, factors), lot)
    }),
  )
  const posterior = posteriorFactors(table, lotFeatures(lot.lossDb, lot))
  const tolerances = fitted.flatMap((slot, j): readonly ExplainedTolerance[] => {
    const [tolerance, factor] = [simulator.tolerances[slot], posterior[j]]
    return tolerance === undefined || factor === undefined ? [] : [{ ...tolerance, ...factor }]
  })
  return success({
    ...agreement,
    tolerances: tolerances.sort((a, b) => a.priorShare - b.priorShare),
    heldCount: simulator.tolerances.length - fitted.length,
    simulatedLots: lots,
    otherChannels: simulator.channels === lot.channels ? null : simulator.channels,
  })
}

function* predictedSteps(
  simulator: LotSimulator,
  draw: (lot: number, factors: Float64Array) => Float64Array,
): Steps<readonly Float64Array[]> {
  const stated = new Float64Array(simulator.tolerances.length).fill(1)
  const count = agreementLots(simulator)
  const lots: Float64Array[] = []
  for (let n = 0; n < count; n++) {
    lots.push(draw(n, stated))
    yield (n + 1) / count
  }
  return lots
}

/** Places of the tolerances that move the loss, the strongest first. */
function* screenedSteps({ tolerances, channels, simulate }: LotSimulator): Steps<readonly number[]> {
  const factors = new Float64Array(tolerances.length).fill(1)
  const out = new Float64Array(channels)
  const losses = () =>
    Array.from({ length: SCREENED_ASSEMBLIES }, (_, n) => {
      simulate(n, factors, out)
      return Float64Array.from(out)
    })
  const before = losses()
  const effects: number[] = []
  for (let j = 0; j < tolerances.length; j++) {
    factors[j] = 2
    const after = losses()
    factors[j] = 1
    effects.push(
      Math.sqrt(
        after.reduce(
          (sum, row, n) => sum + row.reduce((part, loss, c) => part + (loss - (before[n]?.[c] ?? 0)) ** 2, 0),
          0,
        ),
      ),
    )
    yield (j + 1) / tolerances.length
  }
  const greatest = Math.max(...effects, 0)
  return effects
    .map((_, j) => j)
    .filter((j) => greatest > 0 && (effects[j] ?? 0) >= WORTH_FITTING * greatest)
    .sort((a, b) => (effects[b] ?? 0) - (effects[a] ?? 0))
    .slice(0, MOST_FITTED)
}

/**
 * Distance of Kolmogorov and Smirnov of the lot from all simulated lots together, compared with that of each simulated lot: channels of an
 * assembly depend on one another, so the tabulated distribution of the distance does not hold. Monte Carlo test:
 * p = (1 + number as far off) / (lots + 1), G. A. Barnard, J. R. Stat. Soc. B 25 (1963) 294 (from memory).
 */
function agreementOf(lossDb: ArrayLike<number>, lots: readonly Float64Array[]) {
  const pooled = Float64Array.from(lots.flatMap((lot) => [...lot])).sort()
  const distance = distanceFrom(pooled, lossDb)
  const asFar = lots.filter((lot) => distanceFrom(pooled, lot) >= distance).length
  const probability = (1 + asFar) / (lots.length + 1)
  const mean = (values: ArrayLike<number>) => {
    let sum = 0
    for (let i = 0; i < values.length; i++) sum += values[i] ?? 0
    return sum / values.length
  }
  const step = Math.max(1, Math.floor(pooled.length / KEPT_PREDICTED))
  return {
    predictedDb: pooled.filter((_, i) => i % step === Math.floor(step / 2)),
    meanDifferenceDb: mean(lossDb) - mean(pooled),
    distance,
    probability,
    agrees: probability >= SIGNIFICANCE,
  }
}

function distanceFrom(sorted: Float64Array, values: ArrayLike<number>): number {
  const own = Float64Array.from(values).sort()
  let [at, greatest] = [0, 0]
  own.forEach((value, i) => {
    while (at < sorted.length && (sorted[at] ?? 0) <= value) at++
    const share = at / sorted.length
    greatest = Math.max(greatest, Math.abs(share - i / own.length), Math.abs(share - (i + 1) / own.length))
  })
  return greatest
}
