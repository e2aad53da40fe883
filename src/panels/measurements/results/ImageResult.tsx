// A near-field image: second moments and the best-fit Gaussian, with line cuts and the residual map.

import { useMemo } from 'react'
import { imageFigure } from '../../../figures/measure/images'
import { fitFigure } from '../../../figures/measure/scans'
import { type ImageOutcome, type MeasurementResult, petermann1Over2 } from '../../../measure/index'
import { fixedText, plainText, unbroken } from '../../../numerics/numberText'
import { FactTable, Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { degrees } from '../measurementText'
import { MfdTable } from './MfdTable'

const HEIGHT_PX = 330

/** How far D4σ lies above the standard's diameter for step-index modes of two guides. */
function petermannSentence(): string {
  const above = (v: number) => `${fixedText(100 * (petermann1Over2(v) - 1), 1)} % at V = ${fixedText(v, 1)}`
  return `D4σ is the Petermann I diameter. Fibre standards define the mode-field diameter as Petermann II: for a step-index mode, D4σ is larger by ${above(2)} and by ${above(1.6)}; for a Gaussian they are equal.`
}

function useFigures(result: ImageOutcome) {
  return useMemo(() => {
    const { fit, view, cuts } = result
    const ellipse = {
      centreX: fit.centreXUm,
      centreY: fit.centreYUm,
      major: fit.majorUm,
      minor: fit.minorUm,
      azimuthRad: fit.azimuthRad,
    }
    const percent = { ...fit.residualMap, values: fit.residualMap.values.map((value) => 100 * value) }
    const maps = [
      imageFigure(view, ellipse, {
        unit: 'µm',
        value: 'counts',
        sentence: `Image; dashed ellipse: fitted Gaussian at 1/e², ${fixedText(fit.majorUm, 2)} × ${fixedText(fit.minorUm, 2)} µm.`,
        signed: false,
      }),
      imageFigure(percent, ellipse, {
        unit: 'µm',
        value: 'residual, %',
        sentence: 'Residual of the Gaussian fit, % of peak.',
        signed: true,
      }),
    ]
    const lines = cuts.map((cut) => ({
      label: cut.axis,
      figure: fitFigure(
        {
          label: cut.axis,
          x: cut.positionUm,
          y: cut.measured,
          fitted: cut.fitted,
          residual: cut.measured.map((value, i) => 100 * (value - (cut.fitted[i] ?? 0))),
        },
        { x: `Along the ${cut.axis} axis, µm`, y: 'Relative intensity', residual: 'Residual, %' },
        `Cut along the ${cut.axis} axis, measured and fitted; lower plot: residual.`,
      ),
    }))
    return { maps, lines }
  }, [result])
}

export function ImageResult({ result }: { readonly result: MeasurementResult & ImageOutcome }) {
  const { moments, fit } = result
  const { maps, lines } = useFigures(result)
  const sentence = useMemo(petermannSentence, [])
  return (
    <>
      <div className="result-columns">
        <div>
          <MfdTable mfds={result.mfds} />
          <p className="quiet">{sentence}</p>
        </div>
        <div>
          <p className="gaussian">{unbroken(result.gaussianity.sentence)}</p>
          <Warnings messages={moments.warnings} />
          <FactTable
            caption="Image results"
            rows={[
              ['Azimuth of the major axis, D4σ', `${fixedText(degrees(moments.azimuthRad), 2)}°`],
              ['Azimuth, Gaussian fit', `${fixedText(degrees(fit.azimuthRad), 2)}°`],
              ['Minor-to-major ratio', fixedText(moments.ellipticity, 3)],
              ...result.knifeEdges.map(
                ({ axis, width }) =>
                  [`Knife edge ${width.clip} %, ${axis} axis`, `${fixedText(width.mfdUm, 3)} µm`] as const,
              ),
              ['Background', `${plainText(moments.background, 4)} counts`],
              ['Noise', `${plainText(moments.backgroundNoise, 3)} counts`],
              ['Peak above background', `${plainText(moments.peak, 4)} counts`],
              ['Saturated pixels', String(moments.saturatedCount)],
            ]}
          />
        </div>
      </div>
      <div className="plots">
        {maps.map((figure) => (
          <FigureView key={figure.sentence} figure={figure} heightPx={HEIGHT_PX} />
        ))}
        {lines.map(({ label, figure }) => (
          <FigureView key={label} figure={figure} heightPx={HEIGHT_PX} />
        ))}
      </div>
    </>
  )
}
