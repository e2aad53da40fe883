// Index of a core without walls through its peak: along the surface and in depth.

import type { CoreProfiles } from '../../analysis/crossSection/coreProfile'
import { fixedText } from '../../numerics/numberText'
import { along } from '../axes'
import type { Chart } from '../chart'
import type { Figure } from '../figure'

/** Share of the step that is left free above and below it. */
const MARGIN = 0.08

export function coreProfileFigure(id: string, name: string, profiles: CoreProfiles): Figure<Chart> {
  const { alongX, alongY, peakIndex, hostIndex } = profiles
  const all = [...alongX.index, ...alongY.index]
  const [least, most] = [Math.min(...all), Math.max(...all)]
  const margin = MARGIN * Math.max(most - least, 1e-6)
  const rows = Math.max(alongX.atUm.length, alongY.atUm.length)
  return {
    id,
    sentence: `Index of ${name} through its peak: ${fixedText(peakIndex, 5)}, ${fixedText(peakIndex - hostIndex, 5)} above the surrounding glass.`,
    picture: {
      kind: 'chart',
      x: along('Distance from the peak', 'µm', [...alongX.atUm, ...alongY.atUm], 3),
      panes: [
        {
          y: { title: 'Refractive index', unit: '', from: least - margin, to: most + margin, digits: 5 },
          share: 1,
          series: [
            { kind: 'line', name: 'along x', x: alongX.atUm, y: alongX.index, tone: 'accent' },
            { kind: 'line', name: 'along y', x: alongY.atUm, y: alongY.index, tone: 'ink', dash: 'dash' },
          ],
        },
      ],
    },
    table: {
      columns: [
        { label: 'Along x', unit: 'µm', digits: 3 },
        { label: 'Index along x', digits: 6 },
        { label: 'Along y', unit: 'µm', digits: 3 },
        { label: 'Index along y', digits: 6 },
      ],
      rows: Array.from({ length: rows }, (_, i) => [
        alongX.atUm[i] ?? '',
        alongX.index[i] ?? '',
        alongY.atUm[i] ?? '',
        alongY.index[i] ?? '',
      ]),
    },
  }
}
