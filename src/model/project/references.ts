// Faults that no single field shows: ids that occur twice and ids that point nowhere.

import type { Issue, Path } from '../issue'
import { pathText } from '../issue'
import type { ChainElement } from '../schema/candidate'
import type { Design, Project } from '../schema/project'

export const PART_LISTS = ['fibres', 'facets', 'media', 'converters', 'lenses'] as const
export type PartList = (typeof PART_LISTS)[number]
export type PartLists = { readonly [L in PartList]: readonly Project[L][number][] }

interface ElementReference {
  readonly list: PartList
  /** The field of the element that holds the id. */
  readonly field: string
  readonly partId: string
}

/** The parts that a chain element points to. */
export function elementReferences(element: ChainElement): readonly ElementReference[] {
  switch (element.kind) {
    case 'fibre':
    case 'stub': {
      const fibre = { list: 'fibres', field: 'fibreId', partId: element.fibreId } as const
      const { tipId } = element
      return tipId === undefined ? [fibre] : [fibre, { list: 'converters', field: 'tipId', partId: tipId }]
    }
    case 'facet':
      return [{ list: 'facets', field: 'facetId', partId: element.facetId }]
    case 'gap':
      return [{ list: 'media', field: 'mediumId', partId: element.mediumId }]
    case 'relay':
      return [
        { list: 'lenses', field: 'lens1Id', partId: element.lens1Id },
        { list: 'lenses', field: 'lens2Id', partId: element.lens2Id },
        { list: 'media', field: 'mediumId', partId: element.mediumId },
      ]
    case 'taper chip':
      return [{ list: 'converters', field: 'converterId', partId: element.converterId }]
    case 'splice':
      return []
  }
}

/** The candidates whose chain uses the part. */
export function usersOf(
  project: Project,
  list: PartList,
  partId: string,
): readonly Project['candidates'][number][] {
  return project.candidates.filter((candidate) =>
    candidate.chain.some((element) =>
      elementReferences(element).some((reference) => reference.list === list && reference.partId === partId),
    ),
  )
}

/** Name of the part that makes an element; empty where it has none. */
export function partName(project: Project, element: ChainElement): string {
  const [own] = elementReferences(element)
  if (own === undefined) return ''
  return project[own.list].find(({ id }) => id === own.partId)?.name ?? ''
}

/** Their names. */
export function candidatesUsing(project: Project, list: PartList, partId: string): readonly string[] {
  return usersOf(project, list, partId).map((candidate) => candidate.name)
}

/** Every entry whose id an earlier one has. */
export function duplicateIds(entries: readonly { readonly id: string }[], path: Path): readonly Issue[] {
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
        message: `${pathText(where)} is "${entry.id}", already used by an earlier entry of ${pathText(path)}; ids must differ`,
      },
    ]
  })
}

/** Ids of each list, gathered when first asked for. */
function partIds(project: PartLists): (list: PartList) => ReadonlySet<string> {
  const sets = new Map<PartList, ReadonlySet<string>>()
  return (list) => {
    const ids = sets.get(list) ?? new Set(project[list].map((part) => part.id))
    sets.set(list, ids)
    return ids
  }
}

function danglingIssue(
  project: PartLists,
  ids: ReadonlySet<string>,
  { list, partId }: ElementReference,
  path: Path,
): readonly Issue[] {
  if (ids.has(partId)) return []
  const known = project[list].map((part) => part.id).join(', ') || 'none'
  return [
    {
      path,
      code: 'reference',
      message: `${pathText(path)} is "${partId}", which is not among ${list}; known: ${known}`,
    },
  ]
}

/** Every id of a chain that points to no part. */
export function chainReferenceIssues(
  project: PartLists,
  chain: readonly ChainElement[],
  path: Path,
  idsOf = partIds(project),
): readonly Issue[] {
  return chain.flatMap((element, position) =>
    elementReferences(element).flatMap((reference) =>
      danglingIssue(project, idsOf(reference.list), reference, [...path, position, reference.field]),
    ),
  )
}

/** Every duplicate and every dangling id of a project that already fits the schema. */
export function referenceIssues(project: Project): readonly Issue[] {
  const revisions = project.revisions ?? []
  return [
    ...duplicateIds(project.measurements, ['measurements']),
    ...duplicateIds(revisions, ['revisions']),
    ...designReferenceIssues(project, []),
    ...revisions.flatMap(({ design }, at) => designReferenceIssues(design, ['revisions', at, 'design'])),
  ]
}

/** The same of a design alone, which fits the schema too. */
export function designReferenceIssues(design: Design, path: Path = []): readonly Issue[] {
  const idsOf = partIds(design)
  const lists = [...PART_LISTS, 'candidates' as const].flatMap((list) =>
    duplicateIds(design[list], [...path, list]),
  )
  const chains = design.candidates.flatMap((candidate, at) => [
    ...duplicateIds(candidate.chain, [...path, 'candidates', at, 'chain']),
    ...duplicateIds(candidate.userLines, [...path, 'candidates', at, 'userLines']),
    ...chainReferenceIssues(design, candidate.chain, [...path, 'candidates', at, 'chain'], idsOf),
  ])
  return [...lists, ...chains]
}
