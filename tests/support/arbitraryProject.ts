// Projects of every kind that a file may hold: what the schemas allow, with ids that are unique and point somewhere.

import type fc from 'fast-check'
import type { Candidate, ChainElement } from '../../src/model/schema/candidate'
import { measurementSchema } from '../../src/model/schema/measurement'
import { type Design, type Project, projectSchema, revisionSchema } from '../../src/model/schema/project'
import { PROJECT_FORMAT, PROJECT_VERSION } from '../../src/model/words/projectFile'
import { arbitraryOf } from './arbitrarySchema'

const LISTS = ['fibres', 'facets', 'media', 'converters', 'lenses', 'candidates'] as const

/** Ids as the app gives them, in place of the generated ones. */
function numbered<T extends { id: string }>(stem: string, entries: readonly T[]): T[] {
  return entries.map((entry, at) => ({ ...entry, id: `${stem}-${at + 1}` }))
}

const REFERENCES = {
  fibreId: 'fibres',
  tipId: 'converters',
  facetId: 'facets',
  mediumId: 'media',
  lens1Id: 'lenses',
  lens2Id: 'lenses',
  converterId: 'converters',
} as const satisfies Readonly<Record<string, (typeof LISTS)[number]>>

/** Points every reference to the first part of its list; null where there is none. */
function pointed(element: ChainElement, design: Design): ChainElement | null {
  const copy: Record<string, unknown> = { ...element }
  for (const [field, list] of Object.entries(REFERENCES)) {
    if (copy[field] === undefined) continue
    const part = design[list][0]
    if (part === undefined) return null
    copy[field] = part.id
  }
  return copy as unknown as ChainElement
}

function linkedCandidate(candidate: Candidate, design: Design): Candidate {
  const chain = candidate.chain.flatMap((element) => pointed(element, design) ?? [])
  return {
    ...candidate,
    chain: numbered('element', chain),
    userLines: numbered('line', candidate.userLines),
  }
}

function linked<T extends Design>(drawn: T): T {
  const design = { ...drawn }
  for (const list of LISTS)
    Object.assign(design, { [list]: numbered(list, design[list] as readonly { id: string }[]) })
  return { ...design, candidates: design.candidates.map((each) => linkedCandidate(each, design)) }
}

/** Every field that the schema knows, in every one of its forms, a few entries a list. */
export const projects: fc.Arbitrary<Project> = (arbitraryOf(projectSchema) as fc.Arbitrary<Project>).map(
  (drawn) => ({
    ...linked(drawn),
    format: PROJECT_FORMAT,
    version: PROJECT_VERSION,
    measurements: numbered('measurement', drawn.measurements),
    ...(drawn.revisions === undefined
      ? {}
      : {
          revisions: numbered('revision', drawn.revisions).map((revision) => ({
            ...revision,
            design: linked(revision.design),
          })),
        }),
  }),
)

export const measurements = arbitraryOf(measurementSchema) as fc.Arbitrary<Project['measurements'][number]>
export const revisions = (
  arbitraryOf(revisionSchema) as fc.Arbitrary<NonNullable<Project['revisions']>[number]>
).map((revision) => ({ ...revision, design: linked(revision.design) }))
