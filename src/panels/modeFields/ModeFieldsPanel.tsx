// The mode fields of a design: what each mode is taken to be, the pictures, and the loss by fields against Gaussians.

import type { ReactNode } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { JointFields } from './JointFields'
import { LensFigures } from './LensFigures'
import './modeFields.css'

/** Shapes, names, views, sentences and tools around the pictures of a joint. */
const AROUND_PX = 315
const LEAST_PX = 300

export function ModeFieldsPanel({
  project,
  design,
  evaluation,
  shapes,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly evaluation: Evaluation
  /** The fields that choose what each mode of the path is taken to be. */
  readonly shapes: ReactNode
}) {
  const views = evaluation.joints
  const [room, roomPx] = useRoom()
  const pictured = views.filter(({ field }) => field !== undefined && !('refusal' in field.loss)).length
  const picturePx = figurePx((roomPx ?? 0) / Math.max(1, pictured), AROUND_PX, LEAST_PX)
  return (
    <section aria-label="Mode fields" className="mode-fields">
      {room}
      <h2>Mode fields</h2>
      {shapes}
      {evaluation.relays.length > 0 && (
        <>
          <p className="quiet">Mode shapes apply to gaps and abrupt splices; relays use Gaussian modes.</p>
          <LensFigures project={project} design={design} />
        </>
      )}
      {views.some((view) => view.isImage !== true) && views.every((view) => view.field === undefined) && (
        <p>
          All modes of this design are Gaussian. Choose a mode shape above: the budget then uses the fields of
          the joint and shows the non-Gaussian correction as a line.
        </p>
      )}
      {views.map(({ elementId, joint, field }, at) => {
        if (field === undefined) return null
        return (
          <section key={elementId} aria-label={`Fields of joint ${at + 1}`}>
            {views.length > 1 && <h3>Joint {at + 1}</h3>}
            {'refusal' in field.loss ? (
              <p className="complaint">The fields cannot be used: {field.loss.refusal}.</p>
            ) : (
              <JointFields name={`joint ${at + 1}`} joint={joint} field={field} heightPx={picturePx} />
            )}
          </section>
        )
      })}
    </section>
  )
}
