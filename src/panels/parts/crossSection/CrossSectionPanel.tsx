// From the drawn guide to the mode it shows: editor, solution, sweep.

import { useState } from 'react'
import { newCrossSection } from '../../../model/parts/newCrossSection'
import { coreValue } from '../../../model/quantity/quantity'
import type { FacetEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { answers, startModeRun, useModeRun } from '../../../store/modeRuns'
import { editProject } from '../../../store/workbench'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { ModeRunLine } from './ModeRunLine'
import { ModeView } from './ModeView'
import { SectionDrawing } from './SectionDrawing'
import { SectionFields } from './SectionFields'
import { SweepPanel } from './SweepPanel'
import './crossSection.css'

const GRIDS = [
  { value: '100x76', label: '100 x 76, quick', x: 100, y: 76 },
  { value: '200x150', label: '200 x 150', x: 200, y: 150 },
  { value: '300x220', label: '300 x 220, slow', x: 300, y: 220 },
] as const
const USUAL_GRID = GRIDS[1]
const NO_FIBRE = ''

export function CrossSectionPanel({
  project,
  facet,
}: {
  readonly project: Project
  readonly facet: FacetEntry
}) {
  const [fibreId, setFibreId] = useState(project.fibres[0]?.id ?? NO_FIBRE)
  const [gridName, setGridName] = useState<string>(USUAL_GRID.value)
  const run = useModeRun('solve', facet.id)
  const section = facet.crossSection
  const findFacet = (draft: Project) => draft.facets.find((each) => each.id === facet.id)
  if (section === undefined) {
    const describe = () =>
      editProject((draft) => {
        const own = findFacet(draft)
        if (own === undefined) return
        const width = own.tipWidth ?? own.guideWidth
        own.crossSection = newCrossSection(
          coreValue(width, 'guideSize'),
          coreValue(own.guideHeight, 'guideSize'),
        )
      })
    return (
      <p>
        <button type="button" onClick={describe}>
          Describe the cross-section of {facet.name}
        </button>{' '}
        <span className="quiet">
          From it the mode is solved; until then the stated diameters stand alone.
        </span>
      </p>
    )
  }
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  const grid = GRIDS.find((each) => each.value === gridName) ?? USUAL_GRID
  const request = {
    section,
    wavelengthUm,
    fibre: project.fibres.find((each) => each.id === fibreId) ?? null,
    cells: { x: grid.x, y: grid.y },
  }
  const drop = () =>
    editProject((draft) => {
      const own = findFacet(draft)
      if (own !== undefined) own.crossSection = undefined
    })
  return (
    <section className="guide-section" aria-label={`Cross-section of ${facet.name}`}>
      <SectionDrawing section={section} facet={facet} wavelengthUm={wavelengthUm} />
      <SectionFields section={section} find={(draft) => findFacet(draft)?.crossSection} />
      <div className="run-settings">
        <ChoiceField
          label="Coupled to"
          value={fibreId}
          choices={[
            { value: NO_FIBRE, label: 'no fibre' },
            ...project.fibres.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChoose={setFibreId}
        />
        <ChoiceField label="Cells of the grid" value={gridName} choices={GRIDS} onChoose={setGridName} />
      </div>
      <ModeRunLine
        kind="solve"
        facetId={facet.id}
        label="Solve the mode"
        onStart={() => void startModeRun('solve', facet.id, request)}
      />
      {run.finished !== null && (
        <ModeView
          facet={facet}
          section={run.finished.request.section}
          mode={run.finished.result}
          stale={!answers(run, request)}
        />
      )}
      <SweepPanel facet={facet} request={request} section={section} />
      <p className="part-actions">
        <button type="button" onClick={drop}>
          Drop the cross-section of {facet.name}
        </button>
      </p>
    </section>
  )
}
