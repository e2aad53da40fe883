// The cross-section of the waveguide at a facet or an end of a chip in four views: its geometry, its solved mode, a sweep, and, of a facet, the taper behind it.

import { coreValue } from '../../../model/quantity/quantity'
import type { FacetEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { nmOf } from '../../../numerics/numberText'
import { answers, startModeRun, useModeRun } from '../../../store/modeRuns'
import { editProject } from '../../../store/workbench'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { ModeRunLine } from './ModeRunLine'
import { ModeView } from './ModeView'
import { SectionDrawing } from './SectionDrawing'
import { SectionFields } from './SectionFields'
import { SweepPanel } from './SweepPanel'
import type { SectionOwner } from './sectionOwner'
import { TaperPanel } from './TaperPanel'
import './crossSection.css'

const GRIDS = [
  { value: '100x76', label: '100 × 76, fast', x: 100, y: 76 },
  { value: '200x150', label: '200 × 150', x: 200, y: 150 },
  { value: '300x220', label: '300 × 220, slow', x: 300, y: 220 },
] as const
const USUAL_GRID = GRIDS[1]
const NO_FIBRE = ''

export type SectionTab = 'cross-section' | 'mode' | 'sweep' | 'taper'

/** What the mode is solved for, in addition to the cross-section itself. */
export interface SolveChoice {
  readonly fibreId: string
  readonly grid: string
}

export function CrossSectionPanel({
  project,
  owner,
  facet = null,
  view,
  choice,
  onChoice,
  onDefined,
}: {
  readonly project: Project
  readonly owner: SectionOwner
  /** The owner where it is one: it alone has a taper. */
  readonly facet?: FacetEntry | null
  readonly view: SectionTab
  readonly choice: SolveChoice
  readonly onChoice: (choice: SolveChoice) => void
  readonly onDefined: () => void
}) {
  const run = useModeRun('solve', owner.id)
  const section = owner.crossSection
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  if (section === undefined) {
    const define = () => {
      editProject((draft) => owner.setSection(draft, owner.firstSection(wavelengthUm)))
      onDefined()
    }
    return (
      <div className="parts-empty">
        <p>Define the cross-section to solve for the mode; until then the entered MFDs are used.</p>
        <button type="button" className="primary" onClick={define}>
          Define cross-section
        </button>
      </div>
    )
  }
  const grid = GRIDS.find((each) => each.value === choice.grid) ?? USUAL_GRID
  const request = {
    section,
    wavelengthUm,
    fibre: byId(project.fibres, choice.fibreId) ?? null,
    cells: { x: grid.x, y: grid.y },
  }
  const settings = (
    <div className="run-settings">
      <ChoiceField
        label="Couple to fibre"
        value={choice.fibreId}
        choices={[
          { value: NO_FIBRE, label: 'none' },
          ...project.fibres.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChoose={(fibreId) => onChoice({ ...choice, fibreId })}
      />
      <ChoiceField
        label="Grid"
        value={choice.grid}
        choices={GRIDS}
        onChoose={(chosen) => onChoice({ ...choice, grid: chosen })}
      />
    </div>
  )
  if (view === 'cross-section') {
    return (
      <section className="guide-section" aria-label={`Cross-section of ${owner.name}`}>
        <SectionDrawing section={section} owner={owner} wavelengthUm={wavelengthUm} />
        <SectionFields
          owner={owner.id}
          section={section}
          wavelengthUm={wavelengthUm}
          find={owner.sectionIn}
        />
        <button
          type="button"
          className="subtle"
          onClick={() => editProject((draft) => owner.setSection(draft, undefined))}
        >
          Remove cross-section
        </button>
      </section>
    )
  }
  if (view === 'sweep') {
    return (
      <div className="guide-section">
        {settings}
        <SweepPanel owner={owner} request={request} section={section} />
      </div>
    )
  }
  if (view === 'taper' && facet !== null) {
    return (
      <div className="guide-section">
        <TaperPanel facet={facet} request={request} section={section} />
      </div>
    )
  }
  return (
    <div className="guide-section">
      {settings}
      <ModeRunLine
        kind="solve"
        facetId={owner.id}
        label="Solve the mode"
        onStart={() => void startModeRun('solve', owner.id, request)}
      />
      {run.finished === null ? (
        <p className="quiet">
          Solves for the mode of the cross-section at {nmOf(wavelengthUm)} nm: MFDs, effective index,
          substrate leakage and the coupling loss to the fibre.
        </p>
      ) : (
        <ModeView
          owner={owner}
          section={run.finished.request.section}
          mode={run.finished.result}
          stale={!answers(run, request)}
        />
      )}
    </div>
  )
}
