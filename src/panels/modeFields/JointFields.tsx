// The fields of one joint: both modes at the far face as pictures, phases and cuts, and the loss they make.

import { useMemo } from 'react'
import type { FieldPictures, ModePicture } from '../../analysis/field/fieldPictures'
import type { JointFieldView } from '../../analysis/results/evaluation'
import { modeCutFigure, modeIntensityFigure, modePhaseFigure } from '../../figures/field/modePictures'
import { fixedText } from '../../numerics/numberText'
import { type GaussianJoint, lossDb } from '../../optics/index'
import { Views } from '../../ui/controls/Views'
import { FigureView } from '../../ui/figures/FigureView'
import { Progress } from '../../ui/jobs/Progress'
import { useFieldJob } from '../../ui/jobs/useFieldJob'
import { LossTable } from './LossTable'

const SHOWN = [
  { id: 'intensity', label: 'Intensity' },
  { id: 'phase', label: 'Phase' },
  { id: 'cuts', label: 'Cuts' },
] as const
type Shown = (typeof SHOWN)[number]['id']

const sizeText = ({ widthXUm, widthYUm }: ModePicture) =>
  `${fixedText(widthXUm, 2)} × ${fixedText(widthYUm, 2)} µm (D4σ)`

interface Picturing {
  readonly pictures: FieldPictures
  readonly field: JointFieldView
  readonly shown: Shown
  readonly heightPx: number
}

function FieldFigures({ pictures, field, shown, heightPx }: Picturing) {
  const figures = useMemo(() => {
    const modes = [
      { side: 'Emitted mode at the chip-side face', name: field.nearName, picture: pictures.arriving },
      { side: 'Receiving mode', name: field.farName, picture: pictures.receiving },
    ] as const
    if (shown === 'cuts') {
      return (['x', 'y'] as const).map((axis) =>
        modeCutFigure(
          axis,
          modes.map(({ picture }, at) => ({
            name: at === 0 ? 'emitted' : 'receiving',
            cut: axis === 'x' ? picture.cutX : picture.cutY,
          })),
          `Cuts along ${axis} through both axes. Dotted: the Gaussian modes.`,
        ),
      )
    }
    return modes.map(({ side, name, picture }) =>
      shown === 'intensity'
        ? modeIntensityFigure(
            `intensity of ${side}`,
            picture.field,
            `${side} (${name}): ${sizeText(picture)}, contours every 3 dB; ${fixedText(lossDb(picture.gaussianOverlap), 3)} dB mismatch with the Gaussian mode.`,
          )
        : modePhaseFigure(
            `phase of ${side}`,
            picture.field,
            `${side} (${name}): phase relative to its axis, where the intensity is within 30 dB of its peak.`,
          ),
    )
  }, [pictures, field.nearName, field.farName, shown])
  return (
    <div className="plots">
      {figures.map((figure) => (
        <FigureView key={figure.sentence} figure={figure} heightPx={heightPx} />
      ))}
    </div>
  )
}

function lossView({ losses }: FieldPictures) {
  return (
    <>
      <LossTable losses={losses} />
      <p className="quiet">
        The Gaussian loss is paraxial. The budget uses the exact fields; the difference in the paraxial row is
        due to the mode shape, the remainder to non-paraxial diffraction across the gap.
      </p>
    </>
  )
}

export function JointFields({
  name,
  joint,
  field,
  heightPx,
}: {
  readonly name: string
  readonly joint: GaussianJoint
  readonly field: JointFieldView
  /** Of each picture. */
  readonly heightPx: number
}) {
  const { answer, message, progress, busy } = useFieldJob('pictures', { spec: field.spec, joint })
  return (
    <div aria-busy={busy}>
      <Progress label="Computing the fields" share={progress} />
      {message !== '' && <p className="complaint">{message}</p>}
      {answer !== null && (
        <Views
          label={`Views of ${name}`}
          views={[
            { id: 'loss', label: 'Loss', view: () => lossView(answer) },
            ...SHOWN.map(({ id, label }) => ({
              id,
              label,
              view: () => (
                <FieldFigures key={id} pictures={answer} field={field} shown={id} heightPx={heightPx} />
              ),
            })),
          ]}
        />
      )}
    </div>
  )
}
