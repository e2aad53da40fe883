// The chain of one candidate: its name, and which part stands at each place.

import type { Candidate, ChainElement } from '../../model/candidate'
import type { Project } from '../../model/project'
import { elementReference } from '../../model/references'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../fields/ChoiceField'
import { TextField } from '../fields/TextField'
import { SpliceFields } from './SpliceFields'

const PLACE_LABELS: Readonly<Record<ChainElement['kind'], string>> = {
  fibre: 'Fibre',
  stub: 'Stub',
  splice: 'Splice',
  gap: 'Gap medium',
  facet: 'Facet',
}

function setReference(element: ChainElement, partId: string): void {
  if (element.kind === 'fibre' || element.kind === 'stub') element.fibreId = partId
  else if (element.kind === 'facet') element.facetId = partId
  else if (element.kind === 'gap') element.mediumId = partId
}

export function ChainFields({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const editCandidate = (recipe: (draft: Candidate) => void) =>
    editProject((draft) => {
      const own = draft.candidates.find((each) => each.id === candidate.id)
      if (own !== undefined) recipe(own)
    })
  return (
    <fieldset className="field-grid">
      <legend>Chain, in the order of the light</legend>
      <TextField
        label="Name"
        text={candidate.name}
        onCommit={(name) =>
          editCandidate((draft) => {
            draft.name = name
          })
        }
      />
      {candidate.chain.map((element) => {
        if (element.kind === 'splice') {
          return <SpliceFields key={element.id} splice={element} candidateId={candidate.id} />
        }
        const reference = elementReference(element)
        if (reference === null) return null
        return (
          <ChoiceField
            key={element.id}
            label={PLACE_LABELS[element.kind]}
            value={reference.partId}
            choices={project[reference.list].map((part) => ({ value: part.id, label: part.name }))}
            onChoose={(partId) =>
              editCandidate((draft) => {
                const place = draft.chain.find((each) => each.id === element.id)
                if (place !== undefined) setReference(place, partId)
              })
            }
          />
        )
      })}
    </fieldset>
  )
}
