// What the Parts page shows: which shelf, which part in detail, which are picked for an action, and the filters.
// No part of the project. Parts are named by `refKey`, and may be gone from the project.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { addParts } from '../model/parts/addParts'
import { type ListedPart, listedParts, type PartKind, type PartRef, refKey } from '../model/parts/partKinds'
import { matchesSearch } from '../model/parts/partSearch'
import { suitsWavelength } from '../model/parts/partWavelengths'
import type { PartList, PartLists } from '../model/project/references'
import { registerDetail } from './address/details'
import { editProject } from './workbench'

interface PartsView {
  readonly shelf: 'project' | 'catalogue'
  readonly chosen: string
  readonly picked: readonly string[]
  /** Which view of a facet, and of an SSC chip. */
  readonly facetTab: string
  readonly chipTab: string
  readonly search: string
  readonly kind: PartKind | ''
  /** Only parts meant for this wavelength; null for all. */
  readonly wavelengthUm: number | null
}

export const NO_FILTERS = { search: '', kind: '', wavelengthUm: null } as const

export const partsView = createStore<PartsView>()(() => ({
  shelf: 'project',
  chosen: '',
  picked: [],
  facetTab: 'facet',
  chipTab: 'chip',
  ...NO_FILTERS,
}))

export function usePartsView<T>(select: (state: PartsView) => T): T {
  return useStore(partsView, select)
}

type Filters = Pick<PartsView, 'search' | 'kind' | 'wavelengthUm'>

/** The parts that pass the filters, by kind. */
export function filteredParts(lists: PartLists, filters: Filters): readonly ListedPart[] {
  const { search, kind, wavelengthUm } = filters
  return listedParts(lists).filter(
    (each) =>
      (kind === '' || each.kind === kind) &&
      (search.trim() === '' || matchesSearch(each.part, search)) &&
      (wavelengthUm === null || suitsWavelength(each.part, wavelengthUm)),
  )
}

export function choosePart(chosen: string): void {
  partsView.setState({ chosen })
}

export function pickParts(picked: readonly string[]): void {
  partsView.setState({ picked })
}

/** Adds the part by `add` as one undo step and shows it. */
export function addAndShow(
  list: PartList,
  add: (draft: Parameters<Parameters<typeof editProject>[0]>[0]) => void,
): PartRef | null {
  let ref: PartRef | null = null
  editProject((draft) => {
    const before = draft[list].length
    add(draft)
    const added = draft[list].at(-1)
    if (draft[list].length > before && added !== undefined) ref = { list, id: added.id }
  })
  if (ref !== null) choosePart(refKey(ref))
  return ref
}

/** Copies an entry of the catalogue into the project and shows it; null where the project has no room. */
export function copyFromCatalogue({ list, part }: ListedPart): PartRef | null {
  return addAndShow(list, (draft) => {
    addParts(draft, { [list]: [part] })
  })
}

/** The view of the chosen part, where it has several and shows another than the first. */
function tabOf({ chosen, facetTab, chipTab }: PartsView): string | null {
  if (chosen.startsWith('facets:') && facetTab !== 'facet') return facetTab
  return chosen.startsWith('converters:') && chipTab !== 'chip' ? chipTab : null
}

// In the address a part is named by its key; the view of a facet or an SSC chip is its tab.
registerDetail('parts', {
  read: () => {
    const state = partsView.getState()
    if (state.chosen === '') return {}
    const tab = tabOf(state)
    return { item: state.chosen, ...(tab !== null && { tab }) }
  },
  show: ({ item, tab }) =>
    partsView.setState({ chosen: item ?? '', facetTab: tab ?? 'facet', chipTab: tab ?? 'chip' }),
  watch: (tell) => {
    partsView.subscribe((state, before) => {
      if (state.chosen !== before.chosen || tabOf(state) !== tabOf(before)) tell()
    })
  },
})
