// The lenses of a relay as they are: wavefronts and spots, side by side.

import { useMemo } from 'react'
import { relayPictures } from '../../analysis/light/relayPictures'
import { spotFigure, wavefrontFigure } from '../../figures/field/lensPictures'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { FigureView } from '../../ui/figures/FigureView'

const HEIGHT_PX = 300

export function LensFigures({ project, design }: { readonly project: Project; readonly design: Candidate }) {
  const relays = useMemo(
    () =>
      relayPictures(project, design.id).map(({ elementId, wavefronts, spots }) => ({
        elementId,
        figures: [
          ...wavefronts.map((picture) =>
            wavefrontFigure(
              `wavefront ${elementId} lens ${picture.lens}`,
              picture,
              picture.lens === 1 ? 'the fibre-side mode' : 'the chip-side mode',
            ),
          ),
          spotFigure(`spots ${elementId}`, spots),
        ],
      })),
    [project, design],
  )
  return (
    <>
      {relays.map(({ elementId, figures }) => (
        <section key={elementId} aria-label="Lenses of the relay">
          <h3>Lenses of the relay</h3>
          <div className="plots">
            {figures.map((figure) => (
              <FigureView key={figure.id} figure={figure} heightPx={HEIGHT_PX} />
            ))}
          </div>
        </section>
      ))}
    </>
  )
}
