// Result of a run through the sequence: yield by step, cost per good part, where scrap occurs, which step to improve.

import { ProjectError } from '../../model/project/projectError'
import type { AssemblySequence } from '../../model/schema/build/assembly'
import type { Project } from '../../model/schema/project'
import type { StepKind } from '../../model/words/assembly'
import { InputError } from '../../numerics/inputError'
import { wilsonInterval } from '../../numerics/proportion'
import { type Steps, within } from '../../numerics/steps'
import { fitsMiss } from '../tolerance/exactCorner'
import { tallyQuantile } from '../yield/tally'
import { CONFIDENCE } from '../yield/yieldResult'
import { EFFORT } from './assemblyEffort'
import { type CompiledSequence, compileSequence, type StepFactor } from './compileSequence'
import { addSequenceTallies, emptySequenceTally, type SequenceTally, sequenceRange } from './runSequence'

const MOST_SAMPLES = 10_000_000
/** Factor that a trial applies to the spreads of a step, its handling scrap and the uncertainty of its check. */
const TRIAL_FACTOR = 0.5

interface StepResult {
  readonly id: string
  readonly name: string
  readonly kind: StepKind
  /** Shares of all assemblies that are started. */
  readonly reached: number
  readonly spoiled: number
  readonly rejected: number
  /** Repeats that its check asks for, per assembly started. */
  readonly repeated: number
  /** Per good part: time at the step with what its repeats cost, and what fails at it. */
  readonly timeCost: number
  readonly scrapCost: number
  /** Gain from halving the spreads and the handling scrap of the step: yield, and cost per good part; null where no part is good. */
  readonly yieldGain: number
  readonly costGain: number | null
}

export interface AssemblyResult {
  readonly candidateId: string
  /** Channels of one assembly, which must all pass; losses are those of the worst one. */
  readonly channels: number
  readonly samples: number
  readonly seed: number
  readonly limitDb: number
  readonly yield: number
  readonly yieldInterval: { readonly low: number; readonly high: number }
  /** Assemblies that pass all steps but exceed the loss limit. */
  readonly escaped: number
  /** Time and scrap per good part; null where none is good. */
  readonly costPerGood: number | null
  readonly minutesPerGood: number | null
  /** Loss of the finished ones, dB; null where none is. */
  readonly p50Db: number | null
  readonly p95Db: number | null
  readonly steps: readonly StepResult[]
}

/** Cost and minutes of all assemblies of a tally. */
function spent({ steps, costPerHour }: AssemblySequence, tally: SequenceTally) {
  const each = steps.map((step, s) => {
    const minutes = (tally.done[s] as number) * step.minutes
    const scrapped = (tally.spoiled[s] as number) + (tally.rejected[s] as number)
    const reworkCost = (tally.repeated[s] as number) * (step.rework?.cost ?? 0)
    return {
      minutes,
      timeCost: (minutes / 60) * costPerHour + reworkCost,
      scrapCost: scrapped * step.scrapCost,
    }
  })
  const sum = (of: (one: (typeof each)[number]) => number) => each.reduce((total, one) => total + of(one), 0)
  return {
    each,
    cost: sum(({ timeCost, scrapCost }) => timeCost + scrapCost),
    minutes: sum(({ minutes }) => minutes),
  }
}

const perGood = (amount: number, good: number): number | null => (good > 0 ? amount / good : null)

/** Direct sums take longer than a fit: so many times fewer assemblies. */
const FEWER_BY_DIRECT_SUMS = 8

/** Assemblies of a run, of each trial and between two pauses. */
function effortOf({ part }: CompiledSequence) {
  const { samples, trial, pauseAfter } = EFFORT[part.channels > 1 ? 'row' : 'channel']
  const fewer = fitsMiss(part.compiled) ? FEWER_BY_DIRECT_SUMS : 1
  return {
    samples,
    trial: trial / fewer,
    pauseAfter: pauseAfter / fewer,
    ofAsked: (asked: number) => Math.ceil(asked / fewer),
  }
}

/** Steps of a tally. */
function* tallySteps(compiled: CompiledSequence, samples: number, seed: number): Steps<SequenceTally> {
  const { pauseAfter } = effortOf(compiled)
  let tally = emptySequenceTally(compiled.steps.length)
  for (let from = 0; from < samples; from += pauseAfter) {
    const to = Math.min(samples, from + pauseAfter)
    tally = addSequenceTallies(tally, sequenceRange(compiled, seed, from, to))
    yield to / samples
  }
  return tally
}

function compiledOr(project: Project, id: string, sequence: AssemblySequence, factor?: StepFactor) {
  const result = compileSequence(project, id, sequence, factor)
  if (!result.ok) throw new ProjectError(result.issues)
  return result.value
}

export interface AssemblyOptions {
  readonly samples?: number
  readonly seed?: number
}

/**
 * A run in steps that report its progress. The same project, sequence, samples and seed give the same result. Where the fit of a joint
 * misses its target, the fields are summed directly, on an eighth of the samples.
 * @throws ProjectError that lists every reason why the design cannot be computed
 * @throws InputError for a number of samples out of range
 */
export function* assemblySteps(
  project: Project,
  candidateId: string,
  sequence: AssemblySequence,
  options: AssemblyOptions = {},
): Steps<AssemblyResult> {
  const compiled = compiledOr(project, candidateId, sequence)
  const effort = effortOf(compiled)
  const { samples: asked = effort.samples, seed = project.seed } = options
  if (!Number.isInteger(asked) || asked < 1 || asked > MOST_SAMPLES) {
    throw new InputError('samples', asked, `a whole number, 1 to ${MOST_SAMPLES}`)
  }
  const samples = effort.ofAsked(asked)
  const trials = Math.min(samples, effort.trial)
  const work = samples + (sequence.steps.length + 1) * trials
  const share = (done: number) => (samples + done * trials) / work
  const tally = yield* within(0, share(0), tallySteps(compiled, samples, seed))
  const before = yield* within(share(0), share(1), tallySteps(compiled, trials, seed))
  const costBefore = perGood(spent(sequence, before).cost, before.good)
  const gains: { readonly yieldGain: number; readonly costGain: number | null }[] = []
  for (let at = 0; at < sequence.steps.length; at++) {
    const better = compiledOr(project, candidateId, sequence, (step) => (step === at ? TRIAL_FACTOR : 1))
    const after = yield* within(share(at + 1), share(at + 2), tallySteps(better, trials, seed))
    const costAfter = perGood(spent(sequence, after).cost, after.good)
    gains.push({
      yieldGain: (after.good - before.good) / trials,
      costGain: costBefore === null || costAfter === null ? null : costBefore - costAfter,
    })
  }
  return finishedRun(candidateId, compiled, tally, seed, gains)
}

function finishedRun(
  candidateId: string,
  { sequence, part: { limitDb, channels } }: CompiledSequence,
  tally: SequenceTally,
  seed: number,
  gains: readonly { readonly yieldGain: number; readonly costGain: number | null }[],
): AssemblyResult {
  const { samples, good, finished } = tally
  const { each, cost, minutes } = spent(sequence, tally)
  // The part of a yield run's tally that quantiles need.
  const losses = { counts: tally.counts, samples: finished, leastDb: 0, greatestDb: Number.POSITIVE_INFINITY }
  const quantile = (share: number) =>
    finished === 0 ? null : tallyQuantile({ ...losses, passed: 0, worst: [], blocks: [] }, share)
  return {
    candidateId,
    channels,
    samples,
    seed,
    limitDb,
    yield: good / samples,
    yieldInterval: wilsonInterval(good, samples, CONFIDENCE),
    escaped: (finished - good) / samples,
    costPerGood: perGood(cost, good),
    minutesPerGood: perGood(minutes, good),
    p50Db: quantile(0.5),
    p95Db: quantile(0.95),
    steps: sequence.steps.map(({ id, name, kind }, s) => ({
      id,
      name,
      kind,
      reached: (tally.reached[s] as number) / samples,
      spoiled: (tally.spoiled[s] as number) / samples,
      rejected: (tally.rejected[s] as number) / samples,
      repeated: (tally.repeated[s] as number) / samples,
      timeCost: perGood(each[s]?.timeCost ?? 0, good) ?? 0,
      scrapCost: perGood(each[s]?.scrapCost ?? 0, good) ?? 0,
      yieldGain: gains[s]?.yieldGain ?? 0,
      costGain: gains[s]?.costGain ?? null,
    })),
  }
}
