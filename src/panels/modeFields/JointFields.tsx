// The fields of one joint: both modes at the far face as pictures, phases and cuts, and the loss they make.

import { useMemo, useState } from 'react'
import type { FieldPictures, ModePicture } from '../../analysis/field/fieldPictures'
import type { JointFieldView } from '../../analysis/results/evaluation'
import { modeCutFigure, modeIntensityFigure, modePhaseFigure } from '../../figures/field/modePictures'
import { fixedText } from '../../numerics/numberText'
import { type GaussianJoint, lossDb } from '../../optics/index'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { FigureView } from '../../ui/figures/FigureView'
import { Progress } from '../../ui/jobs/Progress'
import { useFieldJob } from '../../ui/jobs/useFieldJob'
import { LossTable } from './LossTable'

const HEIGHT_PX = 300
const SHOWN = ['intensity', 'phase', 'cuts'] as const
type Shown = (typeof SHOWN)[number]

const sizeText = ({ widthXUm, widthYUm }: ModePicture) =>
  `${fixedText(widthXUm, 2)} × ${fixedText(widthYUm, 2)} µm (D4σ)`

function useFigures(pictures: FieldPictures | null, field: JointFieldView, shown: Shown) {
  return useMemo(() => {
    if (pictures === null) return []
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
          `Cuts along ${axis} through both axes. Dotted: Gaussians of the closed form.`,
        ),
      )
    }
    return modes.map(({ side, name, picture }) =>
      shown === 'intensity'
        ? modeIntensityFigure(
            `intensity of ${side}`,
            picture.field,
            `${side} (${name}): ${sizeText(picture)}, contours every 3 dB; ${fixedText(lossDb(picture.gaussianOverlap), 3)} dB mismatch with the Gaussian of the closed form.`,
          )
        : modePhaseFigure(
            `phase of ${side}`,
            picture.field,
            `${side} (${name}): phase relative to its axis, where the intensity is within 30 dB of its peak.`,
          ),
    )
  }, [pictures, field.nearName, field.farName, shown])
}

export function JointFields({
  joint,
  field,
}: {
  readonly joint: GaussianJoint
  readonly field: JointFieldView
}) {
  const [shown, setShown] = useState<Shown>('intensity')
  const { answer, message, progress } = useFieldJob('pictures', { spec: field.spec, joint })
  const figures = useFigures(answer, field, shown)
  return (
    <div aria-busy={progress !== null}>
      <Progress label="Computing the fields" share={progress} />
      {message !== '' && <p className="complaint">{message}</p>}
      {answer !== null && (
        <>
          <LossTable losses={answer.losses} />
          <p className="quiet">
            The closed form is paraxial. The budget uses the exact fields; the paraxial difference is due to
            the mode shape, the remainder to non-paraxial diffraction across the gap.
          </p>
          <ChoiceField
            label="Show"
            value={shown}
            choices={SHOWN.map((value) => ({ value, label: value }))}
            onChoose={(value) => setShown(SHOWN.find((each) => each === value) ?? 'intensity')}
          />
          <div className="plots">
            {figures.map((figure) => (
              <FigureView key={figure.sentence} figure={figure} heightPx={HEIGHT_PX} />
            ))}
          </div>
        </>
      )}
    </div>
  )
}
