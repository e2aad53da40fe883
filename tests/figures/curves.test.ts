// Figures of losses by size, offset, channel and temperature, for results whose numbers all differ.

import { describe, expect, test } from 'vitest'
import type { JointView } from '../../src/analysis/results/evaluation'
import type { SizeCurve } from '../../src/analysis/sizing/sizeCurve'
import type { TemperatureSweep } from '../../src/analysis/temperature/temperatureSweep'
import { channelLossesFigure } from '../../src/figures/loss/channelLosses'
import { offsetCurvesFigure } from '../../src/figures/loss/offsetCurves'
import { sizeCurveFigure } from '../../src/figures/loss/sizeCurve'
import { temperatureFigure } from '../../src/figures/loss/temperature'
import { type GaussianJoint, jointEfficiency, lossDb } from '../../src/optics/index'
import { MATCHED } from '../optics/joint/jointCases'
import { barsOf, pointsOf, rulesOf } from './support/series'

describe('the losses of an array', () => {
  const channel = (number: number, nominalDb: number, share: number) => ({
    channel: number,
    nominalDb,
    p5Db: nominalDb + 0.1,
    p50Db: nominalDb + 0.2,
    p95Db: nominalDb + 0.6,
    yield: share,
  })
  const run = {
    channels: [channel(1, 1.2, 0.91), channel(2, 0.8, 0.97), channel(3, 44, 0)],
    allChannelsYield: 0.523,
    worstChannelYield: 0.876,
  } as unknown as Parameters<typeof channelLossesFigure>[0]
  const figure = channelLossesFigure(run, 1.5, false)

  test('are stated with the yield of the whole row and of its worst channel', () => {
    expect(figure.sentence).toBe(
      'All channels within 1.5 dB in 52.3 % of arrays; lowest single-channel yield 87.6 %.',
    )
  })

  test('are bars from P5 to P95 about the median, the dark channel at the ceiling; the table has all of it', () => {
    expect(barsOf(figure.picture, 'P5 to P95')).toEqual([
      [1.2 + 0.1, 1.2 + 0.6],
      [0.8 + 0.1, 0.8 + 0.6],
      [30, 30],
    ])
    expect(barsOf(figure.picture, 'median')?.[1]).toEqual([1, 1])
    const nominal = [
      [1, 1.2],
      [2, 0.8],
      [3, 30],
    ]
    expect(pointsOf(figure.picture, 'nominal')).toEqual(nominal)
    // Channels are evaluated at their worst temperature where a range is required, the nominal one too.
    const hot = channelLossesFigure(run, 1.5, true).picture
    expect(pointsOf(hot, 'nominal, worst temperature')).toEqual(nominal)
    expect(rulesOf(figure.picture)).toEqual({ limit: 1.5 })
    expect(figure.table.rows[2]).toEqual([3, 44, 44.1, 44.2, 44.6, 0])
    expect(figure.table.rows[0]?.[5]).toBeCloseTo(91, 9)
  })
})

describe('the loss against offset', () => {
  const joint: GaussianJoint = {
    ...MATCHED,
    emitterMfdXUm: 4,
    emitterMfdYUm: 4,
    receiverMfdXUm: 4,
    receiverMfdYUm: 3,
    offsetXUm: 0.7,
    offsetYUm: -0.3,
    gapUm: 2,
  }
  const { sentence, picture, table } = offsetCurvesFigure(
    { elementId: 'gap', joint } as unknown as JointView,
    'joint 1',
  )

  test('is that of the joint at each displacement from the working point, along x and along y', () => {
    expect(table.rows).toHaveLength(81)
    for (const at of [0, 13, 40, 71, 80]) {
      const [move = 0, alongX, alongY] = (table.rows[at] ?? []).map(Number)
      const there = (change: Partial<GaussianJoint>) => lossDb(jointEfficiency({ ...joint, ...change }))
      expect(alongX).toBeCloseTo(there({ offsetXUm: 0.7 + move }), 9)
      expect(alongY).toBeCloseTo(there({ offsetYUm: -0.3 + move }), 9)
    }
    expect(table.rows[0]?.[0]).toBeCloseTo(-Number(table.rows[80]?.[0]), 12)
  })

  test('marks and states the working point, and is left out more than 6 dB above it', () => {
    const here = lossDb(jointEfficiency(joint))
    expect(sentence).toContain(`${here.toFixed(2)} dB at the working point`)
    expect(pointsOf(picture, 'working point')).toEqual([[0, expect.closeTo(here, 9)]])
    for (const [column, name] of [
      [1, 'along x'],
      [2, 'along y'],
    ] as const) {
      for (const [i, [, shown]] of (pointsOf(picture, name) ?? []).entries()) {
        const loss = Number(table.rows[i]?.[column])
        expect(shown).toBe(loss <= here + 6 ? loss : null)
      }
    }
  })
})

describe('the loss against a size', () => {
  const curve: SizeCurve = {
    values: Float64Array.of(0.1, 0.2, 0.3),
    lossesDb: Float64Array.of(9.5, 1.1, 2.4),
    now: 0.3,
    nowDb: 2.4,
    best: 0.2,
    bestDb: 1.1,
    readings: null,
    band: { from: 0.15, to: 0.25, open: false },
  }
  const degrees = { name: 'Face angle', unit: '°', perCore: 180 / Math.PI }

  test('is stated and drawn in the unit of the axis: optimum, present size and the range that meets the limit', () => {
    const { sentence, picture, table } = sizeCurveFigure(curve, 2, degrees)
    expect(sentence).toBe(
      'Face angle: optimum 11.46° at 1.10 dB, current 17.19° at 2.40 dB; 8.59 to 14.3° meets the limit of 2 dB.',
    )
    expect(pointsOf(picture, 'optimum')?.[0]).toEqual([expect.closeTo(11.459, 3), 1.1])
    expect(pointsOf(picture, 'current')?.[0]).toEqual([expect.closeTo(17.189, 3), 2.4])
    const [range] = picture.panes[0]?.series ?? []
    expect(range?.kind === 'box' && range.x).toEqual([expect.closeTo(8.594, 3), expect.closeTo(14.324, 3)])
    expect(table.rows[0]).toEqual([expect.closeTo(5.73, 3), 9.5])
    // 9.5 dB lies more than 6 dB above the optimum.
    expect(pointsOf(picture, '')?.map(([, y]) => y)).toEqual([null, 1.1, 2.4])
  })

  test('reads as another number where it is one, whose range runs upwards also where the size runs against it', () => {
    const readings = {
      values: Float64Array.of(6, 3, 2),
      now: 2,
      best: 3,
      band: [4, 2.4] as const,
    }
    const { sentence, picture } = sizeCurveFigure({ ...curve, readings }, 2, {
      name: 'Magnification',
      unit: '',
      perCore: 1,
    })
    expect(sentence).toBe(
      'Magnification: optimum 3 at 1.10 dB, current 2 at 2.40 dB; 2.4 to 4 meets the limit of 2 dB.',
    )
    expect(pointsOf(picture, 'optimum')).toEqual([[3, 1.1]])
    const [range] = picture.panes[0]?.series ?? []
    expect(range?.kind === 'box' && range.x).toEqual([2.4, 4])
  })

  test('says that no size meets a limit, and that a range may go on', () => {
    expect(sizeCurveFigure({ ...curve, band: null }, 1, degrees).sentence).toMatch(
      /; no size meets the limit of 1 dB\.$/,
    )
    expect(
      sizeCurveFigure({ ...curve, band: { from: 0.1, to: 0.25, open: true } }, 2, degrees).sentence,
    ).toMatch(/meets the limit of 2 dB \(the range may extend beyond the curve\)\.$/)
  })
})

test('the loss over temperature is stated where it is highest and at assembly, with its band in the table', () => {
  const sweep = {
    temperaturesC: Float64Array.of(-20, 22, 60),
    lossesDb: Float64Array.of(1.5, 0.7, 0.9),
    bandLowDb: Float64Array.of(1.3, 0.6, 0.8),
    bandHighDb: Float64Array.of(2.6, 1.7, 1.9),
    worstDb: 1.5,
    worstC: -20,
    assemblyC: 22,
    atAssemblyDb: 0.7,
  } as unknown as TemperatureSweep
  const { sentence, picture, table } = temperatureFigure(sweep, { limitDb: 2, name: 'RSS limit' })
  expect(sentence).toMatch(
    /^Maximum nominal loss 1\.50 dB at .20 °C; 0\.70 dB at the assembly temperature of 22 °C\./,
  )
  expect(rulesOf(picture)).toEqual({ 'RSS limit': 2, assembly: 22 })
  const band = picture.panes[0]?.series.find((each) => each.kind === 'band')
  expect(band?.kind === 'band' && [band.low[2], band.high[2]]).toEqual([0.8, 1.9])
  expect(table.rows[0]).toEqual([-20, 1.5, 1.3, 2.6])
})
