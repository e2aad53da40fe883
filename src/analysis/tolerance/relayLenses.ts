// Which two lenses of the project a new relay starts with, and how far apart: of the few pairs whose magnifications fit best the one
// that loses least once its distances are settled, and rather one that keeps the beam parallel between the lenses.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { matchingFactor } from '../../optics/index'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { staysParallel } from '../path/faces/parallelBeam'
import { settledCandidate } from './bestSettings'

/** Lengths of the section between the lenses that are tried, longest first. */
export const STRETCHES_MM = [5, 3, 2, 1, 0.5] as const
/** Pairs that are settled and compared by their loss; the others only by their focal lengths. */
const TRIED = 3

type Relay = Extract<Candidate['chain'][number], { kind: 'relay' }>

/** The candidate with a relay of it changed: the one of that id, else every one. */
function withRelay(
  candidate: Candidate,
  relayId: string | undefined,
  changed: (relay: Relay) => Relay,
): Candidate {
  const chain = candidate.chain.map((element) =>
    element.kind === 'relay' && element.id === (relayId ?? element.id) ? changed(element) : element,
  )
  return { ...candidate, chain }
}

function compiledIn(project: Project, candidate: Candidate): CompiledCandidate | null {
  // A changed design replaces the one that has its id.
  const others = project.candidates.filter(({ id }) => id !== candidate.id)
  const rest = others.slice(0, LIMITS.candidates - 1)
  const result = compileCandidate({ ...project, candidates: [...rest, candidate] }, candidate.id)
  return result.ok ? result.value : null
}

/** Foci of the relay of that id, else of the first; null where there is none. */
function fociOf({ joins, nominal }: CompiledCandidate, relayId: string | undefined) {
  const own = joins.find(
    ({ relay }) => relay !== undefined && (relayId === undefined || relay(nominal).elementId === relayId),
  )
  return own?.relayFoci?.(nominal) ?? null
}

/** How far a pair's magnification, f2 over f1, is from the one that fits the two modes; a logarithm, 0 is best. */
function misfit(compiled: CompiledCandidate, relayId: string | undefined): number {
  const foci = fociOf(compiled, relayId)
  if (foci === null) return Number.MAX_VALUE
  return Math.abs(Math.log(foci.focal2Um / foci.focal1Um / matchingFactor(foci.modes)))
}

/** Whether the beam stays parallel over the stretch of every relay. */
function isParallel({ joins, nominal }: CompiledCandidate): boolean {
  const relays = joins.flatMap((join) => join.relay?.(nominal) ?? [])
  return relays.every(staysParallel)
}

interface Pair {
  readonly trial: Candidate
  readonly compiled: CompiledCandidate
  readonly misfit: number
}

/** Every pair of the project's lenses in the relay of the candidate, the best fit first. */
function pairsOf(project: Project, candidate: Candidate, relayId?: string): readonly Pair[] {
  const pairs = project.lenses.flatMap((lens1) =>
    project.lenses.flatMap((lens2) => {
      const trial = withRelay(candidate, relayId, (relay) => ({
        ...relay,
        lens1Id: lens1.id,
        lens2Id: lens2.id,
      }))
      const compiled = compiledIn(project, trial)
      return compiled === null ? [] : [{ trial, compiled, misfit: misfit(compiled, relayId) }]
    }),
  )
  return pairs.toSorted((a, b) => a.misfit - b.misfit)
}

/**
 * The relay of that id as it is inserted: with the two lenses that suit it best, the longest section between them over which the beam
 * can be parallel, and at its best setting; null where there is none of that id.
 */
export function fittingRelay(project: Project, candidate: Candidate, relayId: string): Relay | null {
  const tries = STRETCHES_MM.map((mm) =>
    withRelay(candidate, relayId, (relay) => ({
      ...relay,
      stretch: { ...relay.stretch, value: mm, unit: 'mm' },
    })),
  )
  const longest = tries.find((trial) => {
    const [best] = pairsOf(project, trial, relayId)
    // Wherever its end face is.
    return best !== undefined && fociOf(best.compiled, relayId)?.parallelUm != null
  })
  // Once more from there: the aberration of real lenses is searched about where the first search began.
  const { chain } = settledCandidate(project, withFittingLenses(project, longest ?? candidate, relayId))
  return chain.find((each): each is Relay => each.kind === 'relay' && each.id === relayId) ?? null
}

/** The candidate at its best setting, its relay with the two lenses that suit it best; as it is where none can be computed. */
export function withFittingLenses(project: Project, candidate: Candidate, relayId?: string): Candidate {
  if (!candidate.chain.some(({ kind }) => kind === 'relay')) return settledCandidate(project, candidate)
  const settled = pairsOf(project, candidate, relayId)
    .slice(0, TRIED)
    .flatMap(({ trial }) => {
      const best = settledCandidate(project, trial)
      const compiled = compiledIn(project, best)
      if (compiled === null) return []
      return [{ best, parallel: isParallel(compiled), lossDb: compiled.lossDb(compiled.nominal) }]
    })
  const [first] = settled.toSorted((a, b) => Number(b.parallel) - Number(a.parallel) || a.lossDb - b.lossDb)
  return first?.best ?? settledCandidate(project, candidate)
}
