// Faults that no single field shows: ids that occur twice and ids that point nowhere.

import type { ChainElement } from './candidate'
import type { Issue, Path } from './issue'
import { pathText } from './issue'
import type { Project } from './project'

export const PART_LISTS = ['fibres', 'facets', 'media', 'converters', 'lenses'] as const
export type PartList = (typeof PART_LISTS)[number]

/** The part that a chain element points to: which list, and under which field of the element. */
export function elementReference(
  element: ChainElement,
): { list: PartList; field: string; partId: string } | null {
  switch (element.kind) {
    case 'fibre':
    case 'stub':
      return { list: 'fibres', field: 'fibreId', partId: element.fibreId }
    case 'facet':
      return { list: 'facets', field: 'facetId', partId: element.facetId }
    case 'gap':
      return { list: 'media', field: 'mediumId', partId: element.mediumId }
    case 'splice':
      return null
  }
}

/** Names of the candidates whose chain uses the part. */
export function candidatesUsing(project: Project, list: PartList, partId: string): readonly string[] {
  return project.candidates
    .filter((candidate) =>
      candidate.chain.some((element) => {
        const reference = elementReference(element)
        return reference?.list === list && reference.partId === partId
      }),
    )
    .map((candidate) => candidate.name)
}

function duplicateIds(entries: readonly { readonly id: string }[], path: Path): readonly Issue[] {
  const seen = new Set<string>()
  return entries.flatMap((entry, at) => {
    if (!seen.has(entry.id)) {
      seen.add(entry.id)
      return []
    }
    const where = [...path, at, 'id']
    return [
      {
        path: where,
        code: 'reference' as const,
        message: `${pathText(where)} is "${entry.id}", which an earlier entry of ${pathText(path)} has too; ids must differ`,
      },
    ]
  })
}

/** Every duplicate and every dangling id of a project that already fits the schema. */
export function referenceIssues(project: Project): readonly Issue[] {
  const lists = [...PART_LISTS, 'candidates' as const, 'measurements' as const].flatMap((list) =>
    duplicateIds(project[list], [list]),
  )
  const chains = project.candidates.flatMap((candidate, at) => [
    ...duplicateIds(candidate.chain, ['candidates', at, 'chain']),
    ...duplicateIds(candidate.userLines, ['candidates', at, 'userLines']),
    ...candidate.chain.flatMap((element, place): Issue[] => {
      const reference = elementReference(element)
      if (reference === null) return []
      if (project[reference.list].some((part) => part.id === reference.partId)) return []
      const path = ['candidates', at, 'chain', place, reference.field]
      const known = project[reference.list].map((part) => part.id).join(', ') || 'none'
      return [
        {
          path,
          code: 'reference',
          message: `${pathText(path)} is "${reference.partId}", which is not among ${reference.list}; known: ${known}`,
        },
      ]
    }),
  ])
  return [...lists, ...chains]
}
