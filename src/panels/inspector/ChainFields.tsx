// The chain of one candidate in the order of the light: which part stands at each place, and what may go in between.

import type { ValidityNote } from '../../analysis/results/evaluation'
import {
  gapToRelay,
  insertStub,
  insertTaperChip,
  relayToGap,
  removeGuide,
} from '../../model/designs/chainEdits'
import { jointNames, ofJoint } from '../../model/designs/jointNames'
import { elementReferences, type PartList } from '../../model/project/references'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editChain } from '../../store/elementEdits'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { TextField } from '../../ui/fields/TextField'
import { SpliceFields } from './SpliceFields'
import { StubFields } from './StubFields'
import './chain.css'

const KIND_NAMES: Readonly<Record<ChainElement['kind'], string>> = {
  fibre: 'Fibre',
  stub: 'Stub',
  splice: 'Splice',
  gap: 'Gap',
  relay: 'Relay',
  'taper chip': 'Taper chip',
  facet: 'Facet',
}

const FIELD_LABELS: Readonly<Record<string, string>> = {
  fibreId: 'Fibre',
  facetId: 'Facet',
  mediumId: 'Medium',
  converterId: 'Taper chip',
  lens1Id: 'Lens 1',
  lens2Id: 'Lens 2',
}

const CLEAVED = ''

function setReference(element: ChainElement, field: string, partId: string): void {
  if (field in element) (element as unknown as Record<string, string>)[field] = partId
}

function choicesOf(project: Project, list: PartList, element: ChainElement) {
  const fits = (part: { readonly kind?: unknown }) => list !== 'converters' || part.kind === element.kind
  const parts: readonly { readonly id: string; readonly name: string; readonly kind?: unknown }[] =
    project[list]
  return parts.filter(fits).map((part) => ({ value: part.id, label: part.name }))
}

interface ElementProps {
  readonly project: Project
  readonly candidate: Candidate
  readonly element: ChainElement
  readonly at: number
}

function EndFace({ project, candidate, element }: ElementProps) {
  if (element.kind !== 'fibre' && element.kind !== 'stub') return null
  const tips = project.converters.filter((each) => each.kind === 'lensed tip')
  if (tips.length === 0 && element.tipId === undefined) return null
  return (
    <ChoiceField
      label={`End face of the ${element.kind}`}
      value={element.tipId ?? CLEAVED}
      choices={[
        { value: CLEAVED, label: 'cleaved or polished flat' },
        ...tips.map((tip) => ({ value: tip.id, label: tip.name })),
      ]}
      onChoose={(tipId) =>
        editChain(candidate.id, (chain) => {
          const own = chain.find((each) => each.id === element.id)
          if (own?.kind === 'fibre' || own?.kind === 'stub') own.tipId = tipId === CLEAVED ? undefined : tipId
        })
      }
    />
  )
}

function ChainActions({ project, candidate, element, at }: ElementProps) {
  const edit = (recipe: (chain: ChainElement[]) => void) => editChain(candidate.id, recipe)
  const chip = project.converters.find((each) => each.kind === 'taper chip')
  const gas = project.media.find((each) => each.state === 'gas')
  const [lens1, lens2] = project.lenses
  const isGuide = at % 2 === 0 && element.kind !== 'facet'
  const fibreId = (project.fibres[1] ?? project.fibres[0])?.id ?? ''
  const filling = project.media.find((each) => each.state === 'adhesive') ?? project.media[0]
  return (
    <span className="chain-actions">
      {(element.kind === 'fibre' || element.kind === 'stub') && (
        <button type="button" onClick={() => edit((chain) => insertStub(chain, at, fibreId))}>
          Splice a stub on
        </button>
      )}
      {isGuide && chip !== undefined && filling !== undefined && (
        <button
          type="button"
          onClick={() => edit((chain) => insertTaperChip(chain, at, chip.id, filling.id))}
        >
          Insert a taper chip
        </button>
      )}
      {(element.kind === 'stub' || element.kind === 'taper chip') && (
        <button type="button" onClick={() => edit((chain) => removeGuide(chain, at))}>
          Take the {element.kind} out
        </button>
      )}
      {element.kind === 'gap' && lens1 !== undefined && gas !== undefined && (
        <button
          type="button"
          onClick={() => edit((chain) => gapToRelay(chain, at, gas.id, lens1.id, (lens2 ?? lens1).id))}
        >
          Put two lenses in
        </button>
      )}
      {element.kind === 'relay' && (
        <button type="button" onClick={() => edit((chain) => relayToGap(chain, at))}>
          Take the lenses out
        </button>
      )}
    </span>
  )
}

export function ChainFields({
  project,
  candidate,
  notes,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly notes: readonly ValidityNote[]
}) {
  const names = jointNames(candidate.chain)
  return (
    <fieldset className="chain">
      <legend>Chain, in the order of the light</legend>
      <div className="field-grid">
        <div className="name-field">
          <TextField
            label="Name"
            text={candidate.name}
            onCommit={(name) =>
              editProject((draft) => {
                const own = draft.candidates.find((each) => each.id === candidate.id)
                if (own !== undefined) own.name = name
              })
            }
          />
        </div>
      </div>
      <ol>
        {candidate.chain.map((element, at) => (
          <li key={element.id}>
            <span className="chain-kind">{ofJoint(KIND_NAMES[element.kind], names.get(element.id))}</span>
            <div className="chain-fields">
              {element.kind === 'splice' && (
                <SpliceFields
                  splice={element}
                  candidateId={candidate.id}
                  notes={notes.filter((note) => note.elementId === element.id)}
                />
              )}
              {elementReferences(element)
                .filter(({ field }) => field !== 'tipId')
                .map(({ list, field, partId }) => (
                  <ChoiceField
                    key={field}
                    label={
                      element.kind === 'stub'
                        ? 'Stub'
                        : ofJoint(FIELD_LABELS[field] ?? field, names.get(element.id))
                    }
                    value={partId}
                    choices={choicesOf(project, list, element)}
                    onChoose={(chosen) =>
                      editChain(candidate.id, (chain) => {
                        const own = chain.find((each) => each.id === element.id)
                        if (own !== undefined) setReference(own, field, chosen)
                      })
                    }
                  />
                ))}
              {element.kind === 'stub' && <StubFields stub={element} candidateId={candidate.id} />}
              <EndFace project={project} candidate={candidate} element={element} at={at} />
            </div>
            <ChainActions project={project} candidate={candidate} element={element} at={at} />
          </li>
        ))}
      </ol>
    </fieldset>
  )
}
