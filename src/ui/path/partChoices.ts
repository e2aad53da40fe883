// Which parts an element of the path is made of, and which of the project's parts fit in their place.

import { elementReferences, type PartList } from '../../model/project/references'
import type { ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { editChain } from '../../store/elementEdits'

const FIELD_LABELS: Readonly<Record<string, string>> = {
  fibreId: 'Fibre',
  facetId: 'Facet',
  mediumId: 'Gap medium',
  converterId: 'SSC chip',
  lens1Id: 'Lens 1',
  lens2Id: 'Lens 2',
}

interface PartChoice {
  readonly field: string
  readonly label: string
  readonly partId: string
  readonly options: readonly { readonly value: string; readonly label: string }[]
}

function optionsOf(project: Project, list: PartList, element: ChainElement) {
  const fits = (part: { readonly kind?: unknown }) => list !== 'converters' || part.kind === element.kind
  const parts: readonly { readonly id: string; readonly name: string; readonly kind?: unknown }[] =
    project[list]
  return parts.filter(fits).map((part) => ({ value: part.id, label: part.name }))
}

/** The parts of an element with what fits in their place; the lens on a fibre's end is chosen with the fibre's end. */
export function partChoices(project: Project, element: ChainElement): readonly PartChoice[] {
  return elementReferences(element)
    .filter(({ field }) => field !== 'tipId')
    .map(({ list, field, partId }) => ({
      field,
      label: element.kind === 'stub' ? 'Stub' : (FIELD_LABELS[field] ?? field),
      partId,
      options: optionsOf(project, list, element),
    }))
}

export function replacePart(designId: string, elementId: string, field: string, partId: string): void {
  editChain(designId, (chain) => {
    const own = byId(chain, elementId)
    if (own !== undefined && field in own) (own as unknown as Record<string, string>)[field] = partId
  })
}
