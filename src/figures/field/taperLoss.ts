// Loss of an on-chip taper against the width of its tip at one length, and against the length for one tip.

import type { TaperPoint } from '../../analysis/crossSection/taperChain'
import { along, lossAxis } from '../axes'
import type { Chart, RuleSeries } from '../chart'
import type { Figure } from '../figure'

interface TaperLine {
  readonly id: string
  readonly name: string
  readonly points: readonly TaperPoint[]
  readonly now: number
}

/** One line of losses; the upright line is the taper as it is. Widths and lengths in um. */
export function taperLossFigure({ id, name, points, now }: TaperLine, sentence: string): Figure<Chart> {
  const at = points.map((point) => point.at)
  const lossDb = points.map((point) => point.lossDb)
  const present: RuleSeries = {
    kind: 'rule',
    axis: 'x',
    at: now,
    dash: 'dot',
    weight: 'fine',
    label: 'current',
  }
  return {
    id,
    sentence,
    picture: {
      kind: 'chart',
      x: along(name, 'µm', [...at, now], 4),
      panes: [
        {
          y: lossAxis('Taper loss', [0], lossDb),
          share: 1,
          series: [
            { kind: 'line', name: 'taper loss', x: at, y: lossDb, dots: true, tone: 'accent' },
            present,
          ],
        },
      ],
    },
    table: {
      columns: [
        { label: name, unit: 'µm' },
        { label: 'Taper loss', unit: 'dB' },
      ],
      rows: points.map((point) => [point.at, point.lossDb]),
    },
  }
}
