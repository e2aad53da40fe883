// Figures of building and testing: where scrap occurs, how a stress test drifts, where first light is searched, what is in the way.

import { describe, expect, test } from 'vitest'
import type { AssemblyResult } from '../../src/analysis/assembly/assemblyResult'
import { driftAt, fitDrift } from '../../src/analysis/lifetime/fitDrift'
import { assemblyScrapFigure } from '../../src/figures/build/assemblyScrap'
import { driftFigure } from '../../src/figures/build/drift'
import { clearanceSentence } from '../../src/figures/drawing/clearanceDrawing'
import { searchAreaFigure } from '../../src/figures/firstLight/searchArea'
import type { StressTest } from '../../src/model/measurements/stressSeries'
import { barsOf, pointsOf, rulesOf } from './support/series'

describe('scrap of an assembly sequence', () => {
  const step = { kind: 'align', repeated: 0, costGain: null } as const
  const result: AssemblyResult = {
    candidateId: 'design',
    channels: 1,
    samples: 1000,
    seed: 1,
    limitDb: 2,
    yield: 0.812,
    yieldInterval: { low: 0.8, high: 0.82 },
    escaped: 0.011,
    costPerGood: 41.237,
    minutesPerGood: 30,
    p50Db: 1,
    p95Db: 1.8,
    steps: [
      {
        ...step,
        id: 'a',
        name: 'Align',
        reached: 1,
        spoiled: 0.02,
        rejected: 0.05,
        timeCost: 9,
        scrapCost: 3,
        yieldGain: 0.013,
      },
      {
        ...step,
        id: 'b',
        name: 'Cure',
        reached: 0.93,
        spoiled: 0.03,
        rejected: 0.088,
        timeCost: 7,
        scrapCost: 5,
        yieldGain: 0.027,
      },
    ],
  }

  test('is stacked: what the check rejects begins where handling scrap ends', () => {
    const { picture, table } = assemblyScrapFigure(result)
    const rounded = (bars: ReturnType<typeof barsOf>) =>
      bars?.map((bar) => bar.map((each) => each.toFixed(6)))
    expect(rounded(barsOf(picture, 'handling scrap'))).toEqual([
      ['0.000000', '2.000000'],
      ['0.000000', '3.000000'],
    ])
    expect(rounded(barsOf(picture, 'rejected by the check'))).toEqual([
      ['2.000000', '7.000000'],
      ['3.000000', '11.800000'],
    ])
    const labels = picture.panes[0]?.series.flatMap((each) =>
      each.kind === 'bars' ? (each.labels ?? []) : [],
    )
    expect(labels).toEqual(['7.0 %', '11.8 %'])
    expect(picture.x.to).toBeGreaterThan(11.8)
    expect(table.rows.map((row) => row.slice(1).map((each) => Number(each).toFixed(2)))).toEqual([
      ['100.00', '2.00', '5.00', '9.00', '3.00', '1.30'],
      ['93.00', '3.00', '8.80', '7.00', '5.00', '2.70'],
    ])
  })

  test('is stated with the yield, the cost of a good part, and what passes although it should not', () => {
    expect(assemblyScrapFigure(result).sentence).toBe(
      '81.2 % of the assemblies started become good parts; time and scrap cost 41.24 per good part. 1.1 % pass every check but exceed the loss limit.',
    )
    expect(assemblyScrapFigure({ ...result, yield: 0, costPerGood: null, escaped: 0 }).sentence).toBe(
      '0.0 % of the assemblies started become good parts; no good part.',
    )
  })
})

describe('the drift of a stress test', () => {
  const at = Float64Array.of(0, 100, 400, 1000)
  const series = (assembly: string, ...lossDb: number[]) => ({
    assembly,
    channel: '1',
    exposure: at,
    lossDb: Float64Array.from(lossDb),
  })
  const stress: StressTest = {
    unit: 'h',
    firstStep: 100,
    last: 1000,
    series: [
      series('A', 0.8, 0.82, 0.84, 0.91),
      series('B', 1.1, 1.1, 1.15, 1.18),
      series('C', 0.9, 0.93, 0.98, 1.04),
    ],
  }

  test.each([
    ['linear', 3000],
    ['logarithmic', 60_000],
  ] as const)(
    'by the %s law is tabled and drawn as the fit has it, up to a service of %d h',
    (law, exposure) => {
      const fit = fitDrift(stress, law)
      const { sentence, picture, table } = driftFigure({ test: stress, fit, exposure })
      for (const row of table.rows) {
        const [exposed = 0, meanDb, meanPlusMinusDb, onePlusMinusDb] = row.map(Number)
        const own = driftAt(fit, exposed, stress.firstStep)
        expect(meanDb).toBeCloseTo(own.meanDb, 9)
        expect(meanPlusMinusDb).toBeCloseTo(own.meanPlusMinusDb, 9)
        expect(onePlusMinusDb).toBeCloseTo(own.onePlusMinusDb, 9)
      }
      expect(Number(table.rows[0]?.[0])).toBeCloseTo(0, 9)
      expect(Number(table.rows.at(-1)?.[0]) / exposure).toBeCloseTo(1, 9)
      // The band is that of one channel, which is wider than that of the mean, and holds it in its middle.
      const mean = pointsOf(picture, 'mean') ?? []
      const band = picture.panes[0]?.series.find((each) => each.kind === 'band')
      if (band?.kind !== 'band') throw new Error('no band')
      for (const [i, [x, y]] of mean.entries()) {
        const half = Number(table.rows[i]?.[3])
        expect(band.x[i]).toBe(x)
        expect(band.low[i]).toBeCloseTo(Number(y) - half, 9)
        expect(band.high[i]).toBeCloseTo(Number(y) + half, 9)
      }
      const end = driftAt(fit, exposure, stress.firstStep)
      expect(sentence).toContain(`by the ${law} law at the end of service life`)
      expect(sentence).toContain(
        `+${end.meanDb.toFixed(2)} ± ${end.meanPlusMinusDb.toFixed(2)} dB on average, ± ${end.onePlusMinusDb.toFixed(2)} dB for one channel`,
      )
      expect(rulesOf(picture).service).toBe(picture.panes[0] && mean.at(-1)?.[0])
      expect(Number(rulesOf(picture)['last reading'])).toBeLessThan(Number(rulesOf(picture).service))
    },
  )

  test('of readings that are a straight line has each of them on the line of the mean', () => {
    const straight = {
      ...stress,
      series: [1, 2, 3].map((start) => series(`${start}`, ...Array.from(at, (t) => start + 1e-4 * t))),
    }
    const { picture } = driftFigure({ test: straight, fit: fitDrift(straight, 'linear'), exposure: null })
    const measured = pointsOf(picture, 'measured') ?? []
    expect(measured).toHaveLength(12)
    for (const [exposed, changeDb] of measured) expect(changeDb).toBeCloseTo(1e-4 * exposed, 9)
    expect(rulesOf(picture)).toEqual({ 'last reading': 1000 })
  })
})

test('the search for first light has its points evenly about the middle, out to half a step from the edge', () => {
  const count = { most: 12, mean: 5 }
  const search = {
    captureXUm: 6,
    captureYUm: 4,
    stepXUm: 7.5,
    stepYUm: 5,
    countX: 2,
    countY: 3,
    raster: count,
    spiral: count,
  }
  const { sentence, picture, table } = searchAreaFigure(search, 7.5)
  expect(sentence).toBe('6 points on a grid of 7.5 × 5.0 µm cover ± 7.5 µm.')
  expect(table.rows).toEqual([
    [1, -3.75, -5],
    [2, 3.75, -5],
    [3, -3.75, 0],
    [4, 3.75, 0],
    [5, -3.75, 5],
    [6, 3.75, 5],
  ])
  expect(pointsOf(picture, 'search points')).toEqual(table.rows.map(([, x, y]) => [x, y]))
  for (const [x, y] of pointsOf(picture, 'capture range around a point') ?? [])
    expect((x / 6) ** 2 + (Number(y) / 4) ** 2).toBeCloseTo(1, 9)
  expect(picture.x.to).toBeGreaterThan(7.5)
})

test('what is in the way of an end face is stated with the distance to contact, on either side of it', () => {
  const finding = (gapUm: number, reached: boolean) =>
    ({
      elementId: 'gap',
      gapUm,
      reached,
      contact: { body: 'ferrule', obstacle: 'ledge', gapUm: 12, xUm: 0, yUm: 0 },
    }) as unknown as Parameters<typeof clearanceSentence>[0]
  expect(clearanceSentence(finding(15.5, true))).toBe(
    'Fits: the gap of 15.5 µm is 3.5 µm above contact. The ferrule touches the ledge at a gap of 12 µm.',
  )
  expect(clearanceSentence(finding(10, false))).toBe(
    'Not reachable: the entered gap is 10 µm, 2 µm below contact. The ferrule touches the ledge at a gap of 12 µm.',
  )
})
