// Back-reflection: every face of the path; of the joint that is selected the angle of its faces, the ripple between them,
// their coatings.

import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { coreValue } from '../../model/quantity/quantity'
import type { ChainElement, ElementOf } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { useFreshRuns } from '../../store/runs'
import { useSelection } from '../../store/selection'
import { selectElement } from '../../store/view'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { AngledFaces } from './AngledFaces'
import { CoatingFields } from './CoatingFields'
import { FaceAngles } from './FaceAngles'
import { ReflectionTable } from './ReflectionTable'
import { RippleView } from './RippleView'
import './light.css'

/** Faces this near to each other in angle, rad, are treated as parallel in words. */
const PARALLEL_RAD = 0.05
/** What is above and below the figure of the face angle, and those of the ripple. */
const ANGLES_AROUND_PX = 170
const RIPPLE_AROUND_PX = 330

type Join = ElementOf<'gap'> | ElementOf<'relay'>

const isJoin = (element: ChainElement): element is Join => element.kind === 'gap' || element.kind === 'relay'

function leanAlike(join: Join): boolean {
  const near = coreValue(join.nearFaceAngle, 'faceAngle')
  return near !== 0 && Math.abs(near - coreValue(join.farFaceAngle, 'faceAngle')) < PARALLEL_RAD
}

export function ReflectionsPanel({ project, design, evaluation }: EvaluatedDesign) {
  const run = useFreshRuns('yield', project).get(design.id) ?? null
  const selection = useSelection(design)
  const [room, roomPx] = useRoom()
  const joins = design.chain.filter(isJoin)
  const join = joins.find(({ id }) => id === selection.id) ?? joins.at(-1)
  const table: ViewChoice = {
    id: 'return-loss',
    label: 'Return loss',
    view: () => (
      <div className="table-beside">
        <ReflectionTable evaluation={evaluation} />
        <div>
          <p className="quiet">
            Back-reflection of a face: its reflectance times the overlap of the mode with its mirror image,
            tilted by twice the face angle. Scatter and reflections behind the facet are not included.
          </p>
        </div>
      </div>
    ),
  }
  const ofJoin = (own: Join): readonly ViewChoice[] => {
    const view = evaluation.joints.find((each) => each.elementId === own.id)
    const ripple = evaluation.ripples.find((each) => each.elementId === own.id)
    const where = joins.length > 1 ? `, joint ${joins.indexOf(own) + 1}` : ''
    const find = (draft: Project) => byId(byId(draft.candidates, design.id)?.chain.filter(isJoin), own.id)
    const angles: ViewChoice = {
      id: 'angles',
      label: 'Face angles',
      view: () =>
        view !== undefined && (
          <FaceAngles
            project={project}
            evaluation={evaluation}
            view={view}
            heightPx={figurePx(roomPx, ANGLES_AROUND_PX)}
          >
            <AngledFaces join={own} view={view} />
          </FaceAngles>
        ),
    }
    const fringes: ViewChoice = {
      id: 'ripple',
      label: 'Ripple',
      view: () =>
        ripple !== undefined && (
          <RippleView
            project={project}
            candidateId={design.id}
            ripple={ripple}
            oblique={leanAlike(own)}
            run={run}
            heightPx={figurePx(roomPx, RIPPLE_AROUND_PX, 180)}
          />
        ),
    }
    const coatings: ViewChoice = {
      id: 'coatings',
      label: 'Coatings',
      view: () => (
        <div className="depth-columns">
          <CoatingFields
            label={`Fibre-side face${where}`}
            side="nearCoating"
            coating={own.nearCoating}
            find={find}
          />
          <CoatingFields
            label={`Chip-side face${where}`}
            side="farCoating"
            coating={own.farCoating}
            find={find}
          />
        </div>
      ),
    }
    return [...(view === undefined ? [] : [angles]), ...(ripple === undefined ? [] : [fringes]), coatings]
  }
  return (
    <section aria-label="Reflections" className="light views-below">
      {room}
      <Views
        label="Views of the reflections"
        views={join === undefined ? [table] : [table, ...ofJoin(join)]}
        tools={
          joins.length > 1 && (
            <fieldset className="segmented" aria-label="Joint">
              {joins.map(({ id }, at) => (
                <button
                  key={id}
                  type="button"
                  aria-pressed={id === join?.id}
                  onClick={() => selectElement(id)}
                >
                  Joint {at + 1}
                </button>
              ))}
            </fieldset>
          )
        }
      />
    </section>
  )
}
