// Which two lenses of the project a new relay starts with: of the few pairs whose magnifications fit best the one that
// loses least once its distances are settled, and rather one that keeps the beam parallel between the lenses.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { matchingFactor } from '../../optics/index'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { staysParallel } from '../path/faces/parallelBeam'
import { settledCandidate } from './bestSettings'

/** Pairs that are settled and compared by their loss; the others only by their focal lengths. */
const TRIED = 3

function withLenses(candidate: Candidate, lens1Id: string, lens2Id: string): Candidate {
  const chain = candidate.chain.map((element) =>
    element.kind === 'relay' ? { ...element, lens1Id, lens2Id } : element,
  )
  return { ...candidate, chain }
}

function compiledIn(project: Project, candidate: Candidate): CompiledCandidate | null {
  const rest = project.candidates.slice(0, LIMITS.candidates - 1)
  const result = compileCandidate({ ...project, candidates: [...rest, candidate] }, candidate.id)
  return result.ok ? result.value : null
}

/** How far a pair's magnification, f2 over f1, is from the one that fits the two modes; a logarithm, 0 is best. */
function misfit({ joins, nominal }: CompiledCandidate): number {
  for (const { relayFoci } of joins) {
    if (relayFoci === undefined) continue
    const { focal1Um, focal2Um, modes } = relayFoci(nominal)
    return Math.abs(Math.log(focal2Um / focal1Um / matchingFactor(modes)))
  }
  return Number.MAX_VALUE
}

/** Whether the beam stays parallel over the stretch of every relay. */
function isParallel({ joins, nominal }: CompiledCandidate): boolean {
  const relays = joins.flatMap((join) => join.relay?.(nominal) ?? [])
  return relays.every(staysParallel)
}

/** The candidate at its best setting, its relay with the two lenses that suit it best; as it is where none can be computed. */
export function withFittingLenses(project: Project, candidate: Candidate): Candidate {
  if (!candidate.chain.some(({ kind }) => kind === 'relay')) return settledCandidate(project, candidate)
  const pairs = project.lenses.flatMap((lens1) =>
    project.lenses.flatMap((lens2) => {
      const trial = withLenses(candidate, lens1.id, lens2.id)
      const compiled = compiledIn(project, trial)
      return compiled === null ? [] : [{ trial, misfit: misfit(compiled) }]
    }),
  )
  const settled = pairs
    .toSorted((a, b) => a.misfit - b.misfit)
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
