// Which parts an element is made of, chosen from those of the project.

import { elementReferences, type PartList } from '../../model/project/references'
import type { ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editChain } from '../../store/elementEdits'
import { Combobox } from '../../ui/controls/Combobox'

const FIELD_LABELS: Readonly<Record<string, string>> = {
  fibreId: 'Fibre',
  facetId: 'Facet',
  mediumId: 'Gap medium',
  converterId: 'SSC chip',
  lens1Id: 'Lens 1',
  lens2Id: 'Lens 2',
}
const CLEAVED = ''

function setReference(element: ChainElement, field: string, partId: string): void {
  if (field in element) (element as unknown as Record<string, string>)[field] = partId
}

function optionsOf(project: Project, list: PartList, element: ChainElement) {
  const fits = (part: { readonly kind?: unknown }) => list !== 'converters' || part.kind === element.kind
  const parts: readonly { readonly id: string; readonly name: string; readonly kind?: unknown }[] =
    project[list]
  return parts.filter(fits).map((part) => ({ value: part.id, label: part.name }))
}

interface OfElement {
  readonly project: Project
  readonly designId: string
  readonly element: ChainElement
}

function EndFace({ project, designId, element }: OfElement) {
  if (element.kind !== 'fibre' && element.kind !== 'stub') return null
  const tips = project.converters.filter((each) => each.kind === 'lensed tip')
  if (tips.length === 0 && element.tipId === undefined) return null
  return (
    <Combobox
      label="Fibre end"
      value={element.tipId ?? CLEAVED}
      options={[
        { value: CLEAVED, label: 'cleaved or flat-polished' },
        ...tips.map((tip) => ({ value: tip.id, label: tip.name })),
      ]}
      onChoose={(tipId) =>
        editChain(designId, (chain) => {
          const own = chain.find((each) => each.id === element.id)
          if (own?.kind === 'fibre' || own?.kind === 'stub') own.tipId = tipId === CLEAVED ? undefined : tipId
        })
      }
    />
  )
}

export function PartPickers({ project, designId, element }: OfElement) {
  return (
    <>
      {elementReferences(element)
        .filter(({ field }) => field !== 'tipId')
        .map(({ list, field, partId }) => (
          <Combobox
            key={field}
            label={element.kind === 'stub' ? 'Stub' : (FIELD_LABELS[field] ?? field)}
            value={partId}
            options={optionsOf(project, list, element)}
            onChoose={(chosen) =>
              editChain(designId, (chain) => {
                const own = chain.find((each) => each.id === element.id)
                if (own !== undefined) setReference(own, field, chosen)
              })
            }
          />
        ))}
      <EndFace project={project} designId={designId} element={element} />
    </>
  )
}
