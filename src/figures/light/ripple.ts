// Ripple of a gap: the loss as the gap changes, and how the ripple fades as it opens.

import type { RippleCurve } from '../../analysis/light/rippleCurve'
import { fixedText } from '../../numerics/numberText'
import { along, lossAxis } from '../axes'
import { type Chart, chart, type RuleSeries } from '../chart'
import type { Figure } from '../figure'

const presentGap = (at: number): RuleSeries => ({
  kind: 'rule',
  axis: 'x',
  at,
  label: 'current gap',
  dash: 'dot',
  weight: 'fine',
})

/** Loss against the gap over a few periods, with the single pass of the budget. */
export function rippleFigure(curve: RippleCurve): Figure<Chart> {
  const x = curve.gapsUm
  const [least, most] = [Math.min(...curve.lossesDb), Math.max(...curve.lossesDb)]
  return {
    id: 'ripple',
    sentence: `Loss varies from ${fixedText(least, 2)} to ${fixedText(most, 2)} dB as the gap changes by ${fixedText((x.at(-1) ?? 0) - (x[0] ?? 0), 2)} µm.`,
    picture: chart(along('Gap', 'µm', x, 3), lossAxis('Insertion loss', curve.lossesDb, curve.singleDb), [
      { kind: 'line', name: 'single pass', x, y: curve.singleDb, tone: 'ink', dash: 'dash', weight: 'fine' },
      { kind: 'line', name: 'with round trips', x, y: curve.lossesDb, tone: 'accent' },
      presentGap(curve.gapUm),
    ]),
    table: {
      columns: [
        { label: 'Gap', unit: 'µm' },
        { label: 'With round trips', unit: 'dB' },
        { label: 'Single pass', unit: 'dB' },
      ],
      rows: Array.from(x, (gap, i) => [gap, curve.lossesDb[i] ?? 0, curve.singleDb[i] ?? 0]),
    },
  }
}

/** Peak-to-peak ripple against the gap. */
export function rippleFadeFigure(curve: RippleCurve): Figure<Chart> {
  const x = curve.fadeGapsUm
  return {
    id: 'ripple-fade',
    sentence: `Peak-to-peak ripple falls from ${fixedText(curve.fadeDb[0] ?? 0, 2)} dB at contact to ${fixedText(curve.fadeDb.at(-1) ?? 0, 2)} dB at ${fixedText(x.at(-1) ?? 0, 0)} µm, because the light diverges and shifts with each round trip.`,
    picture: chart(
      along('Gap', 'µm', x, 1),
      { ...lossAxis('Ripple, peak to peak', [0], curve.fadeDb), from: 0, digits: 3 },
      [{ kind: 'line', name: '', x, y: curve.fadeDb, tone: 'accent' }, presentGap(curve.gapUm)],
    ),
    table: {
      columns: [
        { label: 'Gap', unit: 'µm' },
        { label: 'Ripple', unit: 'dB' },
      ],
      rows: Array.from(x, (gap, i) => [gap, curve.fadeDb[i] ?? 0]),
    },
  }
}
