// The drift of a stress test: the change of every channel since its start, the fit of a law with its intervals, the range that was
// measured, and the service that it is carried to.

import { type DriftFit, driftAt, seriesLine } from '../../analysis/lifetime/fitDrift'
import { lawAt } from '../../analysis/lifetime/laws'
import type { StressTest } from '../../model/measurements/stressSeries'
import { exposureText, LAW_TEXTS } from '../../model/words/lifetime'
import { fixedText, plainText, signedText } from '../../numerics/numberText'
import { LEAST_LOSS_SPAN_DB, spanning } from '../axes'
import { type Axis, type Chart, chart } from '../chart'
import type { Figure } from '../figure'

const STEPS = 80
/** Service this many times beyond the test is drawn on a logarithmic scale, so that the readings stay in sight. */
const FAR = 4
const MOST_POINTS = 2000

interface Drawn {
  readonly test: StressTest
  readonly fit: DriftFit
  /** What service comes to, in exposure of the test; null where none is stated. */
  readonly exposure: number | null
}

/** Changes since the start of each series, as its own line has that, by exposure. */
function changesOf(test: StressTest, { law }: DriftFit) {
  return test.series.flatMap(({ exposure, lossDb }, at) => {
    const startDb = seriesLine(test, at, law)?.startDb ?? lossDb[0] ?? 0
    return Array.from(exposure, (each, i) => ({ exposure: each, changeDb: (lossDb[i] ?? 0) - startDb }))
  })
}

/** Places of the axis for exposures: as they are, or logarithmic with names. */
function scaleOf(
  test: StressTest,
  most: number,
): { readonly at: (t: number) => number; readonly axis: Axis } {
  const title = 'Test exposure'
  if (most <= FAR * test.last)
    return { at: (t) => t, axis: { title, unit: test.unit, from: 0, to: most * 1.04, digits: 0 } }
  const at = (t: number) => lawAt('logarithmic', t, test.firstStep)
  const decades = Array.from({ length: 12 }, (_, i) => 10 ** (Math.ceil(Math.log10(test.firstStep)) + i))
  const names = [0, ...decades.filter((t) => t <= most * 1.04)].map((t) => ({
    at: at(t),
    name: plainText(t),
  }))
  return {
    at,
    axis: { title: `${title}, logarithmic`, unit: test.unit, from: 0, to: at(most) * 1.03, names, digits: 2 },
  }
}

export function driftFigure({ test, fit, exposure }: Drawn): Figure<Chart> {
  const most = Math.max(test.last, exposure ?? 0)
  const { at, axis } = scaleOf(test, most)
  const span = at(most)
  const exposures = Array.from({ length: STEPS + 1 }, (_, i) => (i / STEPS) * span)
  // Back from places to exposures, by the inverse of the logarithmic scale or as they are.
  const isFar = axis.names !== undefined
  const t = exposures.map((position) => (isFar ? (10 ** position - 1) * test.firstStep : position))
  const drifts = t.map((each) => driftAt(fit, each, test.firstStep))
  const low = drifts.map((each) => each.meanDb - each.onePlusMinusDb)
  const high = drifts.map((each) => each.meanDb + each.onePlusMinusDb)
  const changes = changesOf(test, fit)
  const step = Math.max(1, Math.ceil(changes.length / MOST_POINTS))
  const shown = changes.filter((_, i) => i % step === 0)
  const at95 = driftAt(fit, exposure ?? test.last, test.firstStep)
  const where =
    exposure === null
      ? `at the end of the test, ${exposureText(test.last, test.unit)}`
      : `at the end of service life (equivalent to ${exposureText(exposure, test.unit)} of testing)`
  return {
    id: 'drift',
    sentence: `Drift by the ${LAW_TEXTS[fit.law].name} ${where}: ${signedText(at95.meanDb, 2)} ± ${fixedText(at95.meanPlusMinusDb, 2)} dB on average, ± ${fixedText(at95.onePlusMinusDb, 2)} dB for one channel (95 %).`,
    picture: chart(
      axis,
      spanning('Change in loss', 'dB', [low, high, shown.map(({ changeDb }) => changeDb)], {
        leastSpan: LEAST_LOSS_SPAN_DB,
        digits: 3,
      }),
      [
        { kind: 'band', name: 'one channel, 95 %', x: exposures, low, high },
        {
          kind: 'line',
          name: 'mean',
          x: exposures,
          y: drifts.map(({ meanDb }) => meanDb),
          tone: 'accent',
          weight: 'strong',
        },
        {
          kind: 'points',
          name: 'measured',
          x: shown.map((each) => at(each.exposure)),
          y: shown.map(({ changeDb }) => changeDb),
          tone: 'ink',
          mark: 'circle',
          sizePx: 4,
        },
        { kind: 'rule', axis: 'x', at: at(test.last), label: 'last reading', dash: 'dash' },
        ...(exposure === null
          ? []
          : [
              {
                kind: 'rule',
                axis: 'x',
                at: at(exposure),
                label: 'service',
                dash: 'solid',
                weight: 'strong',
              } as const,
            ]),
      ],
    ),
    table: {
      columns: [
        { label: 'Exposure', unit: test.unit, digits: 1 },
        { label: 'Mean', unit: 'dB', digits: 4 },
        { label: 'Mean, ±', unit: 'dB', digits: 4 },
        { label: 'One channel, ±', unit: 'dB', digits: 4 },
      ],
      rows: t.map((each, i) => [
        each,
        drifts[i]?.meanDb ?? 0,
        drifts[i]?.meanPlusMinusDb ?? 0,
        drifts[i]?.onePlusMinusDb ?? 0,
      ]),
    },
  }
}
