// What comes back: every face of the chain, the angle of the faces, the fringes between them, their coatings.

import type { Evaluation } from '../../analysis/evaluation'
import type { Candidate, ChainElement } from '../../model/candidate'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import { useFreshRuns } from '../../store/runs'
import { CoatingFields } from './CoatingFields'
import { FaceAngles } from './FaceAngles'
import { ReflectionTable } from './ReflectionTable'
import { RippleView } from './RippleView'
import './light.css'

/** Faces this near to each other in angle, rad, count as parallel in words. */
const PARALLEL_RAD = 0.05

function lean(element: ChainElement | undefined): readonly [near: number, far: number] {
  if (element?.kind !== 'gap' && element?.kind !== 'relay') return [0, 0]
  return [coreValue(element.nearFaceAngle, 'faceAngle'), coreValue(element.farFaceAngle, 'faceAngle')]
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
  const elementOf = (id: string) => candidate.chain.find((element) => element.id === id)
  return (
    <section aria-label="Reflections" className="light">
      <ReflectionTable evaluation={evaluation} />
      <p className="quiet">
        A face reflects; what of it couples back is the mode against its own image, turned by twice the angle.
        Scatter, tails that are not Gaussian and what lies behind the facet are not counted.
      </p>
      {evaluation.joints.map((view) => {
        const [near, far] = lean(elementOf(view.elementId))
        const ripple = evaluation.ripples.find((each) => each.elementId === view.elementId)
        return (
          <div key={view.elementId}>
            <FaceAngles project={project} evaluation={evaluation} view={view} />
            {ripple !== undefined && (
              <RippleView
                project={project}
                candidateId={candidate.id}
                ripple={ripple}
                oblique={near !== 0 && Math.abs(near - far) < PARALLEL_RAD}
                run={run}
              />
            )}
          </div>
        )
      })}
      {candidate.chain.map((element) => {
        if (element.kind !== 'gap' && element.kind !== 'relay') return null
        const find = (draft: Project) => {
          const own = draft.candidates
            .find((each) => each.id === candidate.id)
            ?.chain.find((each) => each.id === element.id)
          return own?.kind === 'gap' || own?.kind === 'relay' ? own : undefined
        }
        return (
          <div key={element.id}>
            <CoatingFields label="Near face" side="nearCoating" coating={element.nearCoating} find={find} />
            <CoatingFields label="Far face" side="farCoating" coating={element.farCoating} find={find} />
          </div>
        )
      })}
    </section>
  )
}
