// What comes back: every face of the chain, the angle of the faces, the fringes between them, their coatings.

import type { Evaluation } from '../../analysis/results/evaluation'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate, ChainElement, ElementOf } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useFreshRuns } from '../../store/runs'
import { AngledFaces } from './AngledFaces'
import { CoatingFields } from './CoatingFields'
import { FaceAngles } from './FaceAngles'
import { ReflectionTable } from './ReflectionTable'
import { RippleView } from './RippleView'
import './light.css'

/** Faces this near to each other in angle, rad, count as parallel in words. */
const PARALLEL_RAD = 0.05

type Join = ElementOf<'gap'> | ElementOf<'relay'>

const isJoin = (element: ChainElement): element is Join => element.kind === 'gap' || element.kind === 'relay'

function leanAlike(join: Join): boolean {
  const near = coreValue(join.nearFaceAngle, 'faceAngle')
  return near !== 0 && Math.abs(near - coreValue(join.farFaceAngle, 'faceAngle')) < PARALLEL_RAD
}

export function ReflectionsPanel({
  project,
  candidate,
  evaluation,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
}) {
  const run = useFreshRuns('yield', project).get(candidate.id) ?? null
  const joins = candidate.chain.filter(isJoin)
  return (
    <section aria-label="Reflections" className="light">
      <ReflectionTable evaluation={evaluation} />
      <p className="quiet">
        Back-reflection of a face: its reflectance times the overlap of the mode with its mirror image, tilted
        by twice the face angle. Scatter and reflections behind the facet are not included.
      </p>
      {joins.map((join, at) => {
        const view = evaluation.joints.find((each) => each.elementId === join.id)
        const ripple = evaluation.ripples.find((each) => each.elementId === join.id)
        const place = joins.length > 1 ? `, joint ${at + 1}` : ''
        const find = (draft: Project) =>
          draft.candidates
            .find((each) => each.id === candidate.id)
            ?.chain.filter(isJoin)
            .find((each) => each.id === join.id)
        return (
          <div key={join.id} className="depth-columns">
            {place !== '' && <h2 className="depth-whole">Joint {at + 1}</h2>}
            {view !== undefined && (
              <div>
                <FaceAngles project={project} evaluation={evaluation} view={view} />
                <AngledFaces join={join} view={view} />
              </div>
            )}
            <div>
              {ripple !== undefined && (
                <RippleView
                  project={project}
                  candidateId={candidate.id}
                  ripple={ripple}
                  oblique={leanAlike(join)}
                  run={run}
                />
              )}
              <h3>Coatings</h3>
              <CoatingFields
                label={`Fibre-side face${place}`}
                side="nearCoating"
                coating={join.nearCoating}
                find={find}
              />
              <CoatingFields
                label={`Chip-side face${place}`}
                side="farCoating"
                coating={join.farCoating}
                find={find}
              />
            </div>
          </div>
        )
      })}
    </section>
  )
}
