// Measured losses of a lot over the predicted distribution: as bars with a curve, and quantile against quantile.

import { fixedText } from '../../numerics/numberText'
import { quantile } from '../../numerics/statistics'
import { extent, LEAST_LOSS_SPAN_DB, spanning } from '../axes'
import { type Axis, type Chart, chart, type Series } from '../chart'
import type { Figure } from '../figure'

const ROOM = 1.08
const FEWEST_BINS = 8
const MOST_BINS = 40

/** Losses of both, in dB; `predicted` is empty where nothing is compared. */
interface LossDistributions {
  readonly measured: ArrayLike<number>
  readonly predicted: ArrayLike<number>
  readonly limitDb: number
}

function sharesOf(values: ArrayLike<number>, from: number, step: number, bins: number): readonly number[] {
  const counts = new Array<number>(bins).fill(0)
  for (let i = 0; i < values.length; i++) {
    const at = Math.min(bins - 1, Math.max(0, Math.floor(((values[i] ?? 0) - from) / step)))
    counts[at] = (counts[at] ?? 0) + 100 / values.length
  }
  return counts
}

export function lossDistributionFigure({ measured, predicted, limitDb }: LossDistributions): Figure<Chart> {
  const isCompared = predicted.length > 0
  const ends = isCompared ? [quantile(predicted, 0.001), quantile(predicted, 0.999)] : []
  const [least, most] = extent(measured, ends)
  const span = Math.max(most - least, LEAST_LOSS_SPAN_DB)
  const bins = Math.min(MOST_BINS, Math.max(FEWEST_BINS, Math.ceil(Math.sqrt(measured.length))))
  const step = span / bins
  const at = Array.from({ length: bins }, (_, i) => least + (i + 0.5) * step)
  const bars = sharesOf(measured, least, step, bins)
  const curve = isCompared ? sharesOf(predicted, least, step, bins) : []
  const predictedLine: Series = {
    kind: 'line',
    name: 'predicted',
    x: at,
    y: curve,
    tone: 'accent',
    weight: 'strong',
  }
  return {
    id: 'lot-losses',
    sentence: `${measured.length} measured losses: P50 ${fixedText(quantile(measured, 0.5), 2)} dB, P95 ${fixedText(quantile(measured, 0.95), 2)} dB${isCompared ? `; predicted P50 ${fixedText(quantile(predicted, 0.5), 2)} dB, P95 ${fixedText(quantile(predicted, 0.95), 2)} dB` : ''}.`,
    picture: chart(
      {
        title: 'Insertion loss',
        unit: 'dB',
        from: Math.min(least, limitDb),
        to: Math.max(least + span, limitDb * 1.03),
        digits: 3,
      },
      {
        title: 'Losses per bin',
        unit: '%',
        from: 0,
        to: Math.max(...bars, ...curve, 1e-9) * ROOM,
        digits: 2,
      },
      [
        {
          kind: 'bars',
          name: 'measured',
          at,
          from: at.map(() => 0),
          to: bars,
          thickness: step,
          tone: 'soft',
        },
        ...(isCompared ? [predictedLine] : []),
        { kind: 'rule', axis: 'x', at: limitDb, label: 'limit', dash: 'solid', weight: 'strong' },
      ],
    ),
    table: {
      columns: [
        { label: 'From', unit: 'dB', digits: 3 },
        { label: 'To', unit: 'dB', digits: 3 },
        { label: 'Measured', unit: '%', digits: 2 },
        ...(isCompared ? [{ label: 'Predicted', unit: '%', digits: 2 }] : []),
      ],
      rows: at.map((middle, i) => [
        middle - step / 2,
        middle + step / 2,
        bars[i] ?? 0,
        ...(isCompared ? [curve[i] ?? 0] : []),
      ]),
    },
  }
}

/** Enough points to see a tail. */
const SHOWN_QUANTILES = 200

/** A lot that fills less of the predicted range than this is drawn over its own range. */
const NARROW = 0.5

/** The axis of the measured quantiles: over both ranges, but for a lot far narrower than predicted over its own, within them. */
function quantileAxis(predicted: readonly number[], measured: readonly number[]): Axis {
  const axisOf = (...values: readonly (readonly number[])[]) =>
    spanning('Measured loss', 'dB', values, { leastSpan: LEAST_LOSS_SPAN_DB, digits: 3 })
  const [least, most] = extent(predicted)
  const own = axisOf(measured)
  const isNarrow = own.from >= least && own.to <= most && own.to - own.from < NARROW * (most - least)
  return isNarrow ? own : axisOf(measured, predicted)
}

/** Quantile against quantile: on the line where both agree. */
export function quantileFigure({ measured, predicted }: LossDistributions): Figure<Chart> {
  const count = Math.min(SHOWN_QUANTILES, measured.length)
  const shares = Array.from({ length: count }, (_, i) => (i + 0.5) / count)
  const sorted = Float64Array.from(measured).sort()
  const expected = Float64Array.from(predicted).sort()
  const at = (values: Float64Array, share: number) =>
    values[Math.min(values.length - 1, Math.floor(share * values.length))] ?? 0
  const x = shares.map((share) => at(expected, share))
  const y = shares.map((share) => at(sorted, share))
  const measuredAxis = quantileAxis(x, y)
  const [least, most] = extent(x, y)
  const ends = [Math.max(least, measuredAxis.from), Math.min(most, measuredAxis.to)]
  return {
    id: 'lot-quantiles',
    sentence: 'Measured and predicted quantiles; they agree on the line.',
    picture: chart(
      spanning('Predicted loss', 'dB', [x], { leastSpan: LEAST_LOSS_SPAN_DB, digits: 3 }),
      measuredAxis,
      [
        { kind: 'line', name: 'agreement', x: ends, y: ends, tone: 'accent' },
        { kind: 'points', name: 'losses', x, y, tone: 'ink', mark: 'circle', sizePx: 4 },
      ],
    ),
    table: {
      columns: [
        { label: 'Share', digits: 4 },
        { label: 'Predicted', unit: 'dB', digits: 3 },
        { label: 'Measured', unit: 'dB', digits: 3 },
      ],
      rows: shares.map((share, i) => [share, x[i] ?? 0, y[i] ?? 0]),
    },
  }
}
