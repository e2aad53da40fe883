// Which parts an element is made of, chosen from those of the project.

import type { ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { editChain } from '../../store/elementEdits'
import { Combobox } from '../../ui/controls/Combobox'
import { partChoices, replacePart } from '../../ui/path/partChoices'

const CLEAVED = ''

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
          const own = byId(chain, element.id)
          if (own?.kind === 'fibre' || own?.kind === 'stub') own.tipId = tipId === CLEAVED ? undefined : tipId
        })
      }
    />
  )
}

export function PartPickers({ project, designId, element }: OfElement) {
  return (
    <>
      {partChoices(project, element).map(({ field, label, partId, options }) => (
        <Combobox
          key={field}
          label={label}
          value={partId}
          options={options}
          onChoose={(chosen) => replacePart(designId, element.id, field, chosen)}
        />
      ))}
      <EndFace project={project} designId={designId} element={element} />
    </>
  )
}
