// How the mode of a fibre, a facet or an end of an SSC chip is modelled: as a Gaussian, or by a computed or imported field.

import { useId, useState } from 'react'
import { coreValue } from '../../../model/quantity/quantity'
import type { FacetShape, FibreShape, ImportedShape } from '../../../model/schema/modeShape'
import type { FibreEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { useSolvedFields, wantedKey } from '../../../store/solvedFields'
import { editProject } from '../../../store/workbench'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { Progress } from '../../../ui/jobs/Progress'
import type { SectionOwner } from '../crossSection/sectionOwner'
import { ImportField } from './ImportField'
import { IndexProfileField } from './IndexProfileField'
import { firstProfile } from './profileText'
import './modeShape.css'

type Shape = FibreShape | FacetShape
type Kind = Shape['kind']

const LABELS: Readonly<Record<Kind, string>> = {
  gaussian: 'Gaussian',
  core: 'exact mode of the core',
  'index profile': 'mode of an index profile',
  'cross-section': 'mode of the cross-section',
  imported: 'imported field',
}

function Choices({
  label,
  kinds,
  shape,
  wavelengthUm,
  project,
  onChoose,
  onImport,
}: {
  readonly label: string
  readonly kinds: readonly Kind[]
  readonly shape: Shape | undefined
  readonly wavelengthUm: number
  readonly project: Project
  readonly onChoose: (kind: Exclude<Kind, 'imported'>) => void
  readonly onImport: (shape: ImportedShape) => void
}) {
  /** True while a field is to be brought and the shape is still the old one. */
  const [importing, setImporting] = useState(false)
  const value = importing ? 'imported' : (shape?.kind ?? 'gaussian')
  return (
    <>
      <ChoiceField
        label={label}
        value={value}
        choices={kinds.map((kind) => ({ value: kind, label: LABELS[kind] }))}
        onChoose={(chosen) => {
          const kind = kinds.find((each) => each === chosen)
          setImporting(kind === 'imported' && shape?.kind !== 'imported')
          if (kind !== undefined && kind !== 'imported') onChoose(kind)
        }}
      />
      {value === 'imported' && (
        <ImportField
          shape={shape?.kind === 'imported' ? shape : null}
          project={project}
          wavelengthUm={wavelengthUm}
          onImport={(imported) => {
            setImporting(false)
            onImport(imported)
          }}
        />
      )}
    </>
  )
}

const wavelengthOf = (project: Project) => coreValue(project.requirements.wavelength, 'wavelength')

export function FibreShapeFields({
  project,
  fibre,
  named = false,
}: {
  readonly project: Project
  readonly fibre: FibreEntry
  /** True where nothing around the field names the part. */
  readonly named?: boolean
}) {
  const set = (modeShape: FibreShape | undefined) =>
    editProject((draft) => {
      const own = byId(draft.fibres, fibre.id)
      if (own !== undefined) own.modeShape = modeShape
    })
  const kinds: readonly Kind[] =
    fibre.mode.kind === 'core'
      ? ['gaussian', 'core', 'index profile', 'imported']
      : ['gaussian', 'index profile', 'imported']
  const { modeShape } = fibre
  return (
    <div className="mode-shape" data-part={fibre.id}>
      <Choices
        label={named ? `Mode shape of ${fibre.name}` : 'Mode shape'}
        kinds={kinds}
        shape={modeShape}
        wavelengthUm={wavelengthOf(project)}
        project={project}
        onChoose={(kind) => {
          if (kind === 'core') set({ kind })
          else if (kind === 'index profile') set(firstProfile(fibre))
          else set(undefined)
        }}
        onImport={set}
      />
      {modeShape?.kind === 'index profile' && (
        <IndexProfileField
          owner={fibre.id}
          profile={modeShape}
          wavelengthUm={wavelengthOf(project)}
          onCommit={set}
        />
      )}
    </div>
  )
}

/** Of a facet, or of an end of an SSC chip. */
export function SolvedShapeFields({
  project,
  owner,
  label = 'Mode shape',
}: {
  readonly project: Project
  readonly owner: SectionOwner
  readonly label?: string
}) {
  const set = (modeShape: FacetShape | undefined) => editProject((draft) => owner.setShape(draft, modeShape))
  const { modeShape, crossSection } = owner
  const solved = useSolvedFields()
  const key = wantedKey(owner, project)
  const refusal = key === null ? undefined : solved.refusals.get(key)
  const hint = useId()
  return (
    <div className="mode-shape" data-part={owner.id}>
      <Choices
        label={label}
        kinds={['gaussian', 'cross-section', 'imported']}
        shape={modeShape}
        wavelengthUm={wavelengthOf(project)}
        project={project}
        onChoose={(kind) => set(kind === 'cross-section' ? { kind } : undefined)}
        onImport={set}
      />
      {modeShape?.kind === 'cross-section' && crossSection === undefined && (
        <p className="complaint" id={hint}>
          {owner.name} has no cross-section yet. Define it in Parts.
        </p>
      )}
      {key !== null && !solved.fields.has(key) && refusal === undefined && (
        <Progress label="Solving the cross-section" share={solved.progress ?? 0} />
      )}
      {refusal !== undefined && <p className="complaint">No mode: {refusal}</p>}
    </div>
  )
}
