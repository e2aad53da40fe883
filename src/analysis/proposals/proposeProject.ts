// From the brief to a project with a design of every family that applies, each at its best settings, best one first.

import { heldByStation } from '../../model/designs/stationTolerances'
import { addParts } from '../../model/parts/addParts'
import { emptyProject } from '../../model/project/emptyProject'
import { leadingLoss } from '../../model/project/lossCriteria'
import { PART_LISTS, type PartLists } from '../../model/project/references'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { freeId, freeName } from '../../model/words/freeName'
import { InputError } from '../../numerics/inputError'
import { refusalText } from '../../numerics/refusalText'
import type { Steps } from '../../numerics/steps'
import { tryEvaluate } from '../budget/evaluateCandidate'
import { compareCandidates } from '../compare/compareCandidates'
import { settledCandidate } from '../tolerance/bestSettings'
import { surroundings } from './assembly'
import { type Brief, facetOf, fibreOf, platformOf, requirementsOf, type SolvedFacet } from './brief'
import { FAMILIES, type Family, type FamilyId } from './families'
import { type Ground, groundOf, type Parts, siteOf } from './ground'
import { rankDesigns } from './ranking'

export interface FamilyOutcome {
  readonly familyId: FamilyId
  readonly label: string
  /** Null where the family does not apply. */
  readonly candidateId: string | null
  /** What was chosen, or why the family does not apply. */
  readonly text: string
}

export interface Proposal {
  readonly project: Project
  readonly outcomes: readonly FamilyOutcome[]
}

/** A design of a family, with the parts that the project lacks for it. */
export interface NewDesign {
  readonly candidate: Candidate
  readonly parts: Parts
}

function inputPitch(chain: readonly ChainElement[], lists: Parts) {
  const chip = chain.find((each) => each.kind === 'taper chip')
  const found = lists.converters?.find(({ id }) => chip?.kind === 'taper chip' && id === chip.converterId)
  return found?.kind === 'taper chip' ? found.inputPitch : undefined
}

/** The project's parts and the new ones, as lists to compute with. */
function together(own: PartLists, parts: Parts): PartLists {
  return Object.fromEntries(
    PART_LISTS.map((list) => [list, [...own[list], ...(parts[list] ?? [])]]),
  ) as unknown as PartLists
}

/** A design of the family for the ground, at its best settings; or the reason why there is none. */
function designOf(family: Family, ground: Ground, id: string): NewDesign | { readonly reason: string } {
  try {
    return drafted(family, ground, id)
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    return { reason: `A value of the fibre, the facet or a part is out of range: ${refusalText(error)}.` }
  }
}

function drafted(family: Family, ground: Ground, id: string): NewDesign | { readonly reason: string } {
  const site = siteOf(ground)
  if (site === null)
    return {
      reason: `${ground.fibre.name} guides no mode at this wavelength.`,
    }
  const draft = family.draft(site)
  if ('reason' in draft) return draft
  const missing = <T extends { readonly id: string }>(own: readonly T[], part: T): readonly T[] =>
    own.some((each) => each.id === part.id) ? [] : [part]
  const parts: Parts = {
    ...draft.parts,
    fibres: [...missing(ground.own.fibres, ground.fibre), ...(draft.parts.fibres ?? [])],
    facets: [...missing(ground.own.facets, ground.facet), ...(draft.parts.facets ?? [])],
  }
  const lists = together(ground.own, parts)
  const chain = heldByStation(draft.chain, ground.requirements)
  const candidate: Candidate = {
    id,
    name: family.label,
    remark: draft.choice,
    chain: [...chain],
    userLines: [],
    ...surroundings(chain, ground.requirements, inputPitch(chain, lists)),
  }
  const trial = {
    ...emptyProject(),
    requirements: ground.requirements,
    ...lists,
  } as Project
  return { candidate: settledCandidate(trial, candidate), parts }
}

/** A further design of a family for an open project, from its own parts where they suit and the catalogue where not. */
export function newDesign(project: Project, family: Family): NewDesign | { readonly reason: string } {
  const found = designOf(family, groundOf(project), freeId('design', project.candidates))
  if ('reason' in found) return found
  const { candidate, parts } = found
  return {
    parts,
    candidate: {
      ...candidate,
      name: freeName(candidate.name, project.candidates),
    },
  }
}

/** Writes a new design and its parts into a draft of the project. */
export function writeDesign(draft: Project, { candidate, parts }: NewDesign): void {
  addParts(draft, parts)
  draft.candidates.push(structuredClone(candidate))
}

/** The project for a brief, family by family. The same brief gives the same project. */
export function* proposeSteps(brief: Brief, solved: SolvedFacet | null = null): Steps<Proposal> {
  const project: Project = {
    ...emptyProject(),
    name: brief.name,
    requirements: requirementsOf(brief),
  }
  const fixed = {
    requirements: project.requirements,
    fibre: fibreOf(brief),
    facet: facetOf(brief, solved),
    widerIds: platformOf(brief.platformId)?.widerIds ?? [],
  }
  const outcomes: FamilyOutcome[] = []
  for (const [at, family] of FAMILIES.entries()) {
    yield at / FAMILIES.length
    const found = designOf(family, { ...fixed, own: project }, family.id)
    const applies = !('reason' in found)
    if (applies) writeDesign(project, found)
    outcomes.push({
      familyId: family.id,
      label: family.label,
      candidateId: applies ? found.candidate.id : null,
      text: applies ? (found.candidate.remark ?? '') : found.reason,
    })
  }
  const comparison = compareCandidates(project, tryEvaluate)
  const order = rankDesigns(comparison, leadingLoss(project.requirements).basis)
  const candidates = order.flatMap(({ at }) => project.candidates[at] ?? [])
  return { project: { ...project, candidates }, outcomes }
}
