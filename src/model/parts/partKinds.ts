// What a part is, in the words of the screen. Converters are two kinds.

import { PART_LISTS, type PartList, type PartLists } from '../project/references'

export const PART_KINDS = ['fibre', 'facet', 'gap medium', 'lensed fibre', 'SSC chip', 'lens'] as const
export type PartKind = (typeof PART_KINDS)[number]

export const KIND_LABELS: Readonly<Record<PartKind, { readonly one: string; readonly many: string }>> = {
  fibre: { one: 'Fibre', many: 'Fibres' },
  facet: { one: 'Facet', many: 'Facets' },
  'gap medium': { one: 'Gap medium', many: 'Gap media' },
  'lensed fibre': { one: 'Lensed fibre', many: 'Lensed fibres' },
  'SSC chip': { one: 'SSC chip', many: 'SSC chips' },
  lens: { one: 'Lens', many: 'Lenses' },
}

const OF_LIST = { fibres: 'fibre', facets: 'facet', media: 'gap medium', lenses: 'lens' } as const

export type AnyPart = PartLists[PartList][number]

function partKind(list: PartList, part: AnyPart): PartKind {
  if (list !== 'converters') return OF_LIST[list]
  return 'kind' in part && part.kind === 'taper chip' ? 'SSC chip' : 'lensed fibre'
}

/** A part by the list that it is in. Ids are free within a list only. */
export interface PartRef {
  readonly list: PartList
  readonly id: string
}

export const refKey = ({ list, id }: PartRef): string => `${list}:${id}`

export interface ListedPart extends PartRef {
  readonly kind: PartKind
  readonly part: AnyPart
}

/** All parts by kind, in the order of the kinds. */
export function listedParts(lists: PartLists): readonly ListedPart[] {
  const all = PART_LISTS.flatMap((list) =>
    lists[list].map((part): ListedPart => ({ list, id: part.id, kind: partKind(list, part), part })),
  )
  return PART_KINDS.flatMap((kind) => all.filter((each) => each.kind === kind))
}
