// The totals below a budget: what each of them is, and when it is worth a line.

import { describe, expect, test } from 'vitest'
import type { Evaluation } from '../../src/analysis/results/evaluation'
import type { YieldResult } from '../../src/analysis/yield/yieldResult'
import { totalsOf } from '../../src/panels/budget/totals'

const PLAIN = {
  nominalDb: 1,
  rootSumSquare: { lossDb: 1.6, contributions: [{ label: 'Offset x', addedDb: 0.31 }] },
  worstCorner: { lossDb: 2.4, exhaustive: true, settings: [] },
  ripples: [],
  polarisation: { teDb: 1, tmDb: 1, dependentLossDb: 0 },
  band: null,
  temperature: null,
  awaitsFit: false,
} as unknown as Evaluation

const linesOf = (change: Partial<Record<keyof Evaluation, unknown>>, run: YieldResult | null = null) =>
  totalsOf({ ...PLAIN, ...change } as Evaluation, run, 2).map(
    ({ label, lossDb, note }) => [label, lossDb, note] as const,
  )
const lineOf = (label: string, ...given: Parameters<typeof linesOf>) =>
  linesOf(...given).find(([own]) => own === label)

test('are the nominal loss with the share that is transmitted, RSS with its largest part, and the worst case', () => {
  // 10 ** (-1 / 10) = 0.794.
  expect(linesOf({})).toEqual([
    ['Nominal', 1, '79.4 % transmitted'],
    ['RSS', 1.6, 'largest 0.31 dB: Offset x'],
    ['Worst case', 2.4, 'all tolerances at limits'],
  ])
  const none = { ...PLAIN.rootSumSquare, contributions: [{ label: 'Offset x', addedDb: 0.004 }] }
  expect(lineOf('RSS', { rootSumSquare: none })?.[2]).toBe('no tolerance adds loss')
  expect(lineOf('Worst case', { worstCorner: { ...PLAIN.worstCorner, exhaustive: false } })?.[2]).toBe(
    'at limits, not exhaustive',
  )
})

test('have the percentiles of a run from 90 % on, the yield beside the first', () => {
  const run = {
    yield: 0.9634,
    temperaturesC: [-20, 60],
    percentiles: [
      { share: 0.5, lossDb: 1.1 },
      { share: 0.9, lossDb: 1.5 },
      { share: 0.99, lossDb: 1.9 },
    ],
  } as unknown as YieldResult
  expect(linesOf({}, run).slice(2, 4)).toEqual([
    ['P90', 1.5, 'yield 96.3 % at 2 dB, over temperature'],
    ['P99', 1.9, 'one channel, over temperature'],
  ])
  expect(lineOf('P99', {}, { ...run, temperaturesC: [] })?.[2]).toBe('one channel')
})

describe('one question each', () => {
  test('ripple adds the troughs of all gaps, not what their crests gain', () => {
    const ripples = [
      { crestGainDb: 0.11, troughLossDb: 0.12 },
      { crestGainDb: 0.2, troughLossDb: 0.25 },
    ]
    expect(lineOf('Nominal, worst ripple', { ripples })).toEqual([
      'Nominal, worst ripple',
      expect.closeTo(1.37, 12),
      'ripple −0.31 to +0.37 dB',
    ])
  })

  test.each([
    [1.4, 1.1],
    [1.1, 1.4],
  ])('polarisation is the worse of TE %d and TM %d dB', (teDb, tmDb) => {
    const polarisation = { teDb, tmDb, dependentLossDb: 0.3 }
    expect(lineOf('Nominal, worst polarisation', { polarisation })).toEqual([
      'Nominal, worst polarisation',
      1.4,
      `TE ${teDb.toFixed(2)}, TM ${tmDb.toFixed(2)}`,
    ])
  })

  test('wavelength is said in nanometres, where it costs something', () => {
    const band = { worstDb: 1.2, worstUm: 1.5655 }
    expect(lineOf('Nominal, worst wavelength', { band })).toEqual([
      'Nominal, worst wavelength',
      1.2,
      'at 1565.5 nm',
    ])
    expect(lineOf('Nominal, worst wavelength', { band: { ...band, worstDb: 1.004 } })).toBeUndefined()
  })

  test('temperature has its RSS and its worst case beside the nominal loss', () => {
    const temperature = { worstDb: 1.3, worstC: -20, rootSumSquareDb: 1.8, worstCornerDb: 2.7 }
    expect(lineOf('Nominal, worst temperature', { temperature })).toEqual([
      'Nominal, worst temperature',
      1.3,
      '−20 °C; RSS 1.80, worst 2.70',
    ])
  })
})

test('wait for a fit where tolerances and temperature may still change, and nothing else does', () => {
  const temperature = { worstDb: 1.3, worstC: 60, rootSumSquareDb: 1.8, worstCornerDb: 2.7 }
  const waiting = totalsOf({ ...PLAIN, temperature, awaitsFit: true } as unknown as Evaluation, null, 2)
  expect(waiting.filter(({ provisional }) => provisional).map(({ label }) => label)).toEqual([
    'RSS',
    'Worst case',
    'Nominal, worst temperature',
  ])
  expect(waiting.filter(({ main }) => main).map(({ label }) => label)).toEqual([
    'Nominal',
    'RSS',
    'Worst case',
  ])
})
