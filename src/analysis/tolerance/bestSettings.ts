// The optimum of a candidate: gaps, offsets and tilts are searched together; pinned ones stay unchanged.
// Offsets and tilts cost a quadratic form, so a few rounds over them end exactly; distances of a relay have several
// dips, so the first is scanned and the second follows it at every step.

import type { Path } from '../../model/issue'
import { setCoreValue } from '../../model/quantity/coreQuantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import { unitFactor } from '../../model/quantity/units'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { SettingName } from '../../model/words/candidate'
import { rounded } from '../../numerics/numberText'
import { finish, type Steps } from '../../numerics/steps'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/valueReaders'
import {
  followed,
  GAP_SCAN,
  imageSearch,
  type Reach,
  type Search,
  scanned,
  TOLERANCE,
  trialLoss,
  vertex,
} from './settingSearch'

interface BestSetting {
  readonly elementId: string
  readonly name: SettingName
  readonly label: string
  readonly rule: RuleName
  readonly path: Path
  readonly pinned: boolean
  /** Core units. */
  readonly now: number
  readonly best: number
}

export interface BestSettings {
  readonly settings: readonly BestSetting[]
  readonly nowDb: number
  readonly bestDb: number
}

interface Knob {
  readonly elementId: string
  readonly name: SettingName
  readonly slot: number
  readonly pinned: boolean
}

const KNOBS: Readonly<Partial<Record<ChainElement['kind'], readonly SettingName[]>>> = {
  gap: ['gap', 'offsetX', 'offsetY', 'tiltX', 'tiltY'],
  relay: ['frontGap', 'backGap', 'offsetX', 'offsetY', 'tiltX', 'tiltY'],
}

const ROUNDS = 4
/** Gains below this are rounding, and the setting stays as entered. */
const WORTH_DB = 1e-6
/** A setting is written to this many digits. */
export const SETTLED_DIGITS = 7
const OFFSET_STEP_UM = 0.1
const TILT_STEP_RAD = 0.002

function knobsOf(compiled: CompiledCandidate): readonly Knob[] {
  return compiled.candidate.chain.flatMap((element, at) => {
    const names = KNOBS[element.kind] ?? []
    if (element.kind !== 'gap' && element.kind !== 'relay') return []
    if (element.typedLoss !== undefined) return []
    return names.flatMap((name): readonly Knob[] => {
      const slot = compiled.variables.findIndex(({ path }) => path.at(-1) === name && path.at(-2) === at)
      if (slot < 0) return []
      return [{ elementId: element.id, name, slot, pinned: element.pinned?.includes(name) ?? false }]
    })
  })
}

function distanceSearch(
  compiled: CompiledCandidate,
  knobs: readonly Knob[],
  within: Reach,
): readonly Search[] {
  const searches: Search[] = []
  const free = (name: SettingName, elementId?: string) =>
    knobs.filter(
      (knob) =>
        knob.name === name &&
        !knob.pinned &&
        !foundByStation(compiled, knob) &&
        (elementId === undefined || knob.elementId === elementId),
    )
  for (const { slot } of free('gap')) {
    const least = compiled.leastGapsUm.get(slot) ?? 0
    const reach = Math.max(200, 3 * (compiled.nominal[slot] as number))
    searches.push(scanned(compiled, slot, least, least + reach, GAP_SCAN, TOLERANCE[within]))
  }
  for (const join of compiled.joins) {
    const view = join.relay?.(compiled.nominal)
    if (view === undefined) continue
    const { elementId } = view
    const [back] = free('backGap', elementId)
    const follow: Search =
      back === undefined ? () => {} : imageSearch(compiled, elementId, back.slot, TOLERANCE[within])
    searches.push(follow)
    const [front] = free('frontGap', elementId)
    if (front === undefined || join.relayFoci === undefined) continue
    const foci = join.relayFoci
    searches.push((v) => {
      const { frontUm, parallelUm } = foci(v)
      followed(compiled, front.slot, parallelUm ?? [0, 2 * frontUm], follow, within)(v)
    })
  }
  return searches
}

/** Distances of a relay that the station finds itself, because an adjacent member is aligned along the light. */
function foundByStation({ candidate }: CompiledCandidate, { elementId, name }: Knob): boolean {
  const relay = candidate.chain.find(({ id }) => id === elementId)
  if (relay?.kind !== 'relay') return false
  const along = (aligned: readonly string[] | undefined) => aligned?.includes('offsetZ') === true
  if (name === 'backGap') return along(relay.lens2.aligned)
  return name === 'frontGap' && (along(relay.lens1.aligned) || along(relay.aligned))
}

/** Across the light; none while a relay lies on its axis, where every step to one side loses what the same step to the other does. */
function acrossSearch(compiled: CompiledCandidate, { elementId, name, slot }: Knob): Search {
  const search = vertex(compiled, slot, name.startsWith('tilt') ? TILT_STEP_RAD : OFFSET_STEP_UM)
  const relay = compiled.joins.find((join) => join.relay?.(compiled.nominal).elementId === elementId)
  return (v) => {
    if (relay?.isInLine?.(v) !== true) search(v)
  }
}

/** Moves every free setting of `v` to the optimum of the chain. The rest of `v` is unchanged. */
export function settleAtBest(compiled: CompiledCandidate, v: Values, within: Reach = 'everywhere'): void {
  finish(settleSteps(compiled, v, within))
}

function* settleSteps(compiled: CompiledCandidate, v: Values, within: Reach): Steps<void> {
  const knobs = knobsOf(compiled)
  const distances = distanceSearch(compiled, knobs, within)
  const across = knobs
    .filter(({ name, pinned }) => !pinned && (name.startsWith('offset') || name.startsWith('tilt')))
    .map((knob) => acrossSearch(compiled, knob))
  const searches = [...across, ...distances]
  // A search is repeated only where others have gained since it ended: it would find its own end again.
  const endedDb = new Map<Search, number>()
  let before = Number.MAX_VALUE
  let now = trialLoss(compiled, v)
  for (let round = 0; round < (within === 'nearby' ? 1 : ROUNDS); round++) {
    for (const [i, search] of searches.entries()) {
      yield (round + i / searches.length) / ROUNDS
      const ended = endedDb.get(search)
      if (ended !== undefined && ended - now < WORTH_DB) continue
      search(v)
      now = trialLoss(compiled, v)
      endedDb.set(search, now)
    }
    if (before - now < WORTH_DB) return
    before = now
  }
}

/** The best value to a fiftieth of the step that its field has: 0.01 um of a gap, 0.002 degrees; not below `least`. */
function nearest(ruleName: RuleName, now: number, best: number, least = -Number.MAX_VALUE): number {
  const { dimension, unit, step } = RULES[ruleName]
  const grain = (step * (unitFactor(dimension, unit) ?? 1)) / 50
  if (now >= least && Math.abs(best - now) < grain) return now
  const nearby = Math.round(best / grain)
  return rounded((nearby * grain < least ? Math.ceil(least / grain) : nearby) * grain, 10)
}

/** The present and the best value of every setting of the chain, and what the best would gain. */
export function bestSettings(compiled: CompiledCandidate): BestSettings {
  return finish(bestSettingSteps(compiled))
}

/** The same in steps. */
export function* bestSettingSteps(compiled: CompiledCandidate): Steps<BestSettings> {
  const v = Float64Array.from(compiled.nominal)
  const nowDb = compiled.lossDb(v)
  yield* settleSteps(compiled, v, 'everywhere')
  const bestDb = compiled.lossDb(v)
  const gaining = nowDb - bestDb >= WORTH_DB
  const settings = knobsOf(compiled).flatMap(({ elementId, name, slot, pinned }): readonly BestSetting[] => {
    const variable = compiled.variables[slot]
    if (variable === undefined) return []
    const { nominal: now, label, rule, path } = variable
    const least = compiled.leastGapsUm.get(slot)
    // A gap below contact cannot be set; contact can, and loses the same.
    const unreachable = least !== undefined && now < least && !pinned
    const best = gaining || unreachable ? nearest(rule, now, v[slot] ?? now, least) : now
    return [{ elementId, name, label, rule, path, pinned, now, best }]
  })
  // A gain below the resolution of the fields cannot be set.
  const gained = settings.some(({ now, best, pinned }) => !pinned && best !== now)
  return { settings, nowDb, bestDb: gained ? bestDb : nowDb }
}

/** The candidate as the project would hold it with every free setting at its best; as it is where it cannot be computed. */
export function settledCandidate(project: Project, candidate: Candidate): Candidate {
  // A changed design replaces the one that has its id.
  const others = project.candidates.filter(({ id }) => id !== candidate.id)
  const trial = { ...project, candidates: [...others, structuredClone(candidate)] }
  const compiled = compileCandidate(trial, candidate.id)
  if (!compiled.ok) return candidate
  for (const { path, rule, best, pinned } of bestSettings(compiled.value).settings) {
    const quantity = quantityAt(trial, path)
    if (quantity !== undefined && !pinned) setCoreValue(quantity, rule, best, SETTLED_DIGITS)
  }
  return trial.candidates.at(-1) ?? candidate
}
