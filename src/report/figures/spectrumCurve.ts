// Loss over wavelength, single passes and with the round trips of the gaps.

import type { Spectrum } from '../../analysis/light/spectrum'
import type { FigureBlock } from '../document/blocks'
import { lossCell } from '../document/cells'
import { chart, label, line, polyline } from './chart'
import { figure, plotted } from './figure'

/** Room about the curves, dB, where they are flat. */
const LEAST_ROOM_DB = 0.05

export function spectrumCurve(spectrum: Spectrum): FigureBlock {
  const nm = spectrum.wavelengthsUm.map((um) => 1000 * um)
  const all = [...spectrum.lossesDb, ...spectrum.rippledDb]
  const [least, most] = [Math.min(...all), Math.max(...all)]
  const room = Math.max(LEAST_ROOM_DB, 0.1 * (most - least))
  const designNm = 1000 * spectrum.designUm
  const drawing = chart(
    {
      x: { from: nm[0] ?? 0, to: nm.at(-1) ?? 1, title: 'Wavelength, nm' },
      y: { from: least - room, to: most + room, title: 'Loss of the chain, dB' },
    },
    (places) => [
      polyline(nm, spectrum.rippledDb, places, 'chart-curve-3'),
      polyline(nm, spectrum.lossesDb, places, 'chart-curve'),
      line(places.x(designNm), places.topPx, places.x(designNm), places.bottomPx, 'chart-mark'),
      label(places.x(designNm) + 4, places.topPx + 14, 'design', 'start'),
    ],
  )
  const range = (from: number, to: number) => `${lossCell(from).text} to ${lossCell(to).text} dB`
  return figure(
    'spectrum',
    `Over the band, single pass (full line) ${range(spectrum.leastDb, spectrum.worstDb)}; with the round trips of the gaps as they stand (dotted) ${range(spectrum.rippledLeastDb, spectrum.rippledWorstDb)}.`,
    drawing,
    [
      { label: 'Wavelength', unit: 'nm' },
      { label: 'Single pass', unit: 'dB' },
      { label: 'With round trips', unit: 'dB' },
    ],
    Array.from(nm, (at, i) => [
      plotted(at),
      plotted(spectrum.lossesDb[i] ?? 0),
      plotted(spectrum.rippledDb[i] ?? 0),
    ]),
  )
}
