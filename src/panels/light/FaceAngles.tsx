// Return loss against the angle of a face, with the angle that the required return loss needs.

import { type ReactNode, useMemo } from 'react'
import { type FaceAngleSide, faceAngleCurve } from '../../analysis/light/faceAngleCurve'
import type { Evaluation, JointView } from '../../analysis/results/evaluation'
import { returnLossText } from '../../analysis/verdicts/lightVerdicts'
import { faceAngleFigure } from '../../figures/light/faceAngle'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { FigureView } from '../../ui/figures/FigureView'

const DEG = 180 / Math.PI
/** No end face is polished steeper (common practice, no source). */
const STEEPEST_DEG = 15
/** Smaller modes are spoken of as small (common practice, no source). */
const SMALL_MFD_UM = 6

function sideText(side: FaceAngleSide, wantedDb: number, trustDb: number): string {
  const name = side.side === 'near' ? 'The fibre-side mode' : 'The chip-side mode'
  const mode = `${name} of ${fixedText(side.mfdUm, 1)} µm`
  const wanted = Math.min(wantedDb, trustDb)
  const deg = side.wantedRad * DEG
  const critical = side.criticalRad === null ? Number.POSITIVE_INFINITY : side.criticalRad * DEG
  const limit =
    deg >= critical
      ? `, but total internal reflection begins at ${fixedText(critical, 1)}°`
      : deg > STEEPEST_DEG
        ? ', steeper than usual polishing angles'
        : ''
  if (side.wantedRad === 0) {
    return `${mode} needs no angle for ${wanted} dB: its flat face already gives ${returnLossText(side.lossesDb[0] ?? 0)}.`
  }
  const takes = `${mode} requires ${fixedText(deg, 1)}° for ${wanted} dB${limit}.`
  if (side.usualDb >= wanted) return takes
  const why = side.mfdUm < SMALL_MFD_UM ? ', because a small mode has a wide acceptance angle' : ''
  return `${takes} The usual 8° is not enough: ${fixedText(side.usualDb, 1)} dB${why}.`
}

const LENSED =
  'The lensed fibre has no flat end face, so no face angle changes its return loss: that follows from tip radius and mode.'

export function FaceAngles({
  project,
  evaluation,
  view,
  heightPx,
  children,
}: {
  readonly project: Project
  readonly evaluation: Evaluation
  readonly view: JointView
  readonly heightPx: number
  /** What else is known of the faces. */
  readonly children: ReactNode
}) {
  const curve = useMemo(() => faceAngleCurve(project, evaluation, view), [project, evaluation, view])
  if (curve === null) return null
  if (curve.sides.length === 0 && curve.lensed) return <p>{LENSED}</p>
  if (curve.sides.length === 0) {
    return <p>Waveguide and gap medium have the same index on both sides: no face reflects, at any angle.</p>
  }
  return (
    <div className="light-sides">
      <FigureView figure={faceAngleFigure(curve)} heightPx={heightPx} />
      <div>
        <ul>
          {curve.sides.map((side) => (
            <li key={side.side}>{sideText(side, curve.wantedDb, curve.trustDb)}</li>
          ))}
          {curve.lensed && <li>{LENSED}</li>}
        </ul>
        {!curve.isRequired && (
          <p className="quiet">
            No return loss is required: angles are given for {curve.wantedDb} dB (common practice, no source).
          </p>
        )}
        {children}
        <p className="quiet">
          For each side: the reflectance of the flat face, times the overlap of its mode with its mirror image
          tilted by twice the angle (D. Marcuse, 1975).
        </p>
      </div>
    </div>
  )
}
