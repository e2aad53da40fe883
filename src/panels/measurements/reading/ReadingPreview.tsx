// The readings as a picture before anything is fitted to them.

import { useMemo } from 'react'
import { imageFigure, rasterFigure } from '../../../figures/measure/images'
import { readingsFigure } from '../../../figures/measure/scans'
import type { Preview, Reading } from '../../../measure/index'
import { FigureView } from '../../../ui/figures/FigureView'
import { CORE_UNIT_NAMES, degrees } from '../measurementText'

const HEIGHT_PX = 340

function tableTitles(reading: Extract<Reading, { kind: 'table' }>) {
  const coordinate = reading.columns.find(
    ({ role }) => role === 'angle' || role === 'position' || role === 'length',
  )
  const signal = reading.columns.find(({ role }) => role === 'power' || role === 'loss')
  const x =
    coordinate?.coreUnit === 'rad'
      ? 'Angle, °'
      : `${coordinate?.role === 'length' ? 'Length' : 'Position'}, µm`
  const unit = CORE_UNIT_NAMES[signal?.coreUnit ?? 'none']
  const y = signal?.role === 'loss' ? 'Loss, dB' : unit === 'µW' ? 'Power, µW' : 'Relative power'
  return { x, y, inDegrees: coordinate?.coreUnit === 'rad' }
}

function previewFigure(reading: Reading) {
  if (reading.kind === 'image') {
    const unit = reading.pixelUm === null ? 'pixels' : 'µm'
    const sentence = `The image, ${reading.width} × ${reading.height} pixels.`
    return imageFigure(reading.view, null, { unit, value: 'counts', sentence, signed: false })
  }
  if (reading.kind === 'list') {
    const titles = { x: 'Reading', y: reading.quantity }
    return readingsFigure([reading.preview], titles, `${reading.rowsRead} readings.`)
  }
  if (reading.kind === 'lot') {
    const { losses, assemblies, channels } = reading.counts
    const sentence = `${losses} losses of ${assemblies} ${assemblies === 1 ? 'assembly' : 'assemblies'}, ${channels} ${channels === 1 ? 'channel' : 'channels'}.`
    return readingsFigure([reading.preview], { x: 'Row', y: 'Loss, dB' }, sentence)
  }
  const [first] = reading.previews
  if (first === undefined) return null
  const sentence = `${reading.rowsRead} rows, as read.`
  if (first.power !== null) {
    const points = { x: first.x, y: first.y, value: first.power }
    return rasterFigure(points, null, { unit: 'µm', value: 'power', sentence, signed: false })
  }
  const { inDegrees, ...titles } = tableTitles(reading)
  const signals = reading.previews.map((preview: Preview, i) => ({
    label: preview.label || `signal ${i + 1}`,
    x: inDegrees ? preview.x.map(degrees) : preview.x,
    y: preview.y,
  }))
  return readingsFigure(signals, titles, sentence)
}

export function ReadingPreview({ reading }: { readonly reading: Reading }) {
  const figure = useMemo(() => previewFigure(reading), [reading])
  if (figure === null) return <p className="quiet">No readings yet.</p>
  return <FigureView figure={figure} heightPx={HEIGHT_PX} />
}
