// A raster of the probe over the unknown mode: its axes, and the map with what the fit leaves over.

import { useMemo } from 'react'
import { rasterFigure } from '../../../figures/measure/images'
import type { MeasurementResult, RasterOutcome } from '../../../measure/index'
import { fixedText, unbroken } from '../../../numerics/numberText'
import { FactTable, Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { degrees } from '../measurementText'
import { MfdTable } from './MfdTable'

const HEIGHT_PX = 330

export function RasterView({ result }: { readonly result: MeasurementResult & RasterOutcome }) {
  const raster = result.result
  const figures = useMemo(() => {
    const { xUm, yUm, power, residual } = result.points
    const ellipse = {
      centreX: raster.centreXUm,
      centreY: raster.centreYUm,
      major: raster.majorUm,
      minor: raster.minorUm,
      azimuthRad: raster.azimuthRad,
    }
    const left = residual.map((value) => (100 * value) / raster.peakPower)
    return [
      rasterFigure({ x: xUm, y: yUm, value: power }, ellipse, {
        unit: 'µm',
        value: 'power',
        sentence: 'Power against both stage positions; the dashed ellipse is the unknown mode at 1/e².',
        signed: false,
      }),
      rasterFigure({ x: xUm, y: yUm, value: left }, null, {
        unit: 'µm',
        value: 'residual, %',
        sentence: 'Residual of the Gaussian fit, % of peak.',
        signed: true,
      }),
    ]
  }, [result.points, raster])
  return (
    <>
      <div className="result-columns">
        <MfdTable mfds={result.mfds} />
        <div>
          <p className="gaussian">{unbroken(result.gaussianity.sentence)}</p>
          <Warnings messages={raster.warnings} />
          <FactTable
            caption="Raster"
            rows={[
              ['Azimuth of the major axis', `${fixedText(degrees(raster.azimuthRad), 2)}°`],
              ['Centre x', `${fixedText(raster.centreXUm, 3)} µm`],
              ['Centre y', `${fixedText(raster.centreYUm, 3)} µm`],
            ]}
          />
        </div>
      </div>
      <div className="plots">
        {figures.map((figure) => (
          <FigureView key={figure.sentence} figure={figure} heightPx={HEIGHT_PX} />
        ))}
      </div>
    </>
  )
}
