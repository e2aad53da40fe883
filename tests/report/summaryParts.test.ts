// The parts of the first page on figures whose answer is known beforehand: what ranks first, what is above a limit, what is within
// the reach of the station.

import { describe, expect, test } from 'vitest'
import type { ArrayResult } from '../../src/analysis/array/runArray'
import { evaluateCandidate, type YieldResult } from '../../src/analysis/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { SheetCandidate } from '../../src/report/candidates'
import { withoutResult } from '../../src/report/sections/verdictWords'
import { alternatives } from '../../src/report/summary/alternatives'
import { foldedSteps } from '../../src/report/summary/foldedSteps'
import { lossFigures, yieldFigures } from '../../src/report/summary/lossFigures'
import { risks } from '../../src/report/summary/risks'
import { windowFigures } from '../../src/report/summary/windowFigures'
import { matchedProject } from '../analysis/yield/cases'
import { askPercentile } from '../support/askLoss'
import { ranked } from './support/ranked'
import { sheetOf } from './support/sheets'

const project = matchedProject(10.4, 1)
const evaluation = evaluateCandidate(project, 'matched')

/** Two matched modes face to face, without runs, verdicts and lines but those that a test states. */
const of = (more: Partial<SheetCandidate> = {}): SheetCandidate => ({
  id: 'matched',
  name: 'Matched',
  remark: '',
  candidate: project.candidates[0]!,
  verdicts: [],
  inputs: [],
  lines: [],
  evaluation,
  yield: null,
  array: null,
  ...more,
})

describe('risks', () => {
  test('without a run are the largest excess losses and the largest estimates, none below a hundredth of a dB', () => {
    const contribution = (label: string, addedDb: number) => ({
      ...evaluation.rootSumSquare.contributions[0]!,
      path: [label],
      label,
      addedDb,
    })
    const line = (label: string, lossDb: number, provenance: 'estimate' | 'data sheet' = 'estimate') => ({
      ...evaluation.lines[0]!,
      id: label,
      label,
      lossDb,
      provenance,
      share: 0,
    })
    const contributions = [
      contribution('small', 0.02),
      contribution('large', 0.5),
      contribution('none', 0.009),
    ]
    const candidate = of({
      evaluation: {
        ...evaluation,
        validity: [],
        rootSumSquare: { ...evaluation.rootSumSquare, contributions },
      },
      lines: [line('splice', 0.05), line('taper', 0.4), line('dust', 0.009), line('facet', 2, 'data sheet')],
    })
    expect(risks(candidate)).toEqual([
      { kind: 'tolerance', text: 'Large: 0.50 dB alone at its worse limit.' },
      { kind: 'estimate', text: 'Taper: 0.40 dB is an estimate; confirm it.' },
      { kind: 'tolerance', text: 'Small: 0.02 dB alone at its worse limit.' },
    ])
  })

  test('with a run are in its order, with the gain from halving: in yield, otherwise in the percentile where it is significant', () => {
    const ranking = [
      ranked('offset', { total: 0.62, yieldGainHalved: 0.125 }),
      ranked('gap', { total: 0.05, percentileGainHalvedDb: 0.3, percentileGainErrorDb: 0.1 }),
      ranked('roll', { total: 0.0499, yieldGainHalved: 0.9 }),
      ranked('tilt', { total: 0.4, yieldGainHalved: 0.0009, percentileGainHalvedDb: 0.1 }),
    ]
    const run = { ranking } as unknown as YieldResult
    const { validity: _, ...rest } = evaluation
    expect(risks(of({ yield: run, evaluation: { ...rest, validity: [] } })).map(({ text }) => text)).toEqual([
      'Offset, ± 0.5 µm: 62 % of the variance; halving it raises the yield by 12.5 percentage points.',
      'Gap, ± 0.5 µm: 5 % of the variance; halving it lowers P99 by 0.30 dB.',
      'Tilt, ± 0.5 µm: 40 % of the variance; halving it has no distinguishable effect on P99 at this run length.',
    ])
  })

  test('of an array begin with the tolerance that its own ranking finds worth narrowing', () => {
    const tolerances = [
      ranked('slight', { yieldGainHalved: 0.004 }),
      ranked('pitch', { yieldGainHalved: 0.031 }),
      ranked('bow', { yieldGainHalved: 0.02 }),
    ]
    const of12 = { ranking: { tolerances }, aims: [{ channels: Array.from({ length: 12 }) }] }
    const array = of12 as unknown as ArrayResult
    const run = { ranking: [] } as unknown as YieldResult
    const [first, ...more] = risks(of({ yield: run, array, evaluation: { ...evaluation, validity: [] } }))
    expect(first?.text).toBe(
      'Pitch, ± 0.5 µm: halving it raises the all-channel yield by 3.1 percentage points.',
    )
    expect(more).toEqual([])
  })
})

describe('windows of the joint at the chip', () => {
  const figures = (lateralUm: number, angularDeg = 1) => {
    const station = {
      ...project.requirements.station,
      lateral: quantityOf(lateralUm, 'um'),
      angular: quantityOf(angularDeg, 'deg'),
    }
    return windowFigures({ ...project, requirements: { ...project.requirements, station } }, of())
  }

  test('are those of the closed form, in the unit of the row, on both sides of the working point', () => {
    // Equal modes of w = 5.2 µm: 4.342945 (d / w)² = 1 dB at d = 2.4953 µm; with the far-field angle λ / (π n w) for w at
    // θ = 2.6079° in air of 1.000273 (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).
    const [x, y, gap, tilt] = figures(1)
    for (const axis of [x, y]) {
      expect(axis).toMatchObject({ unit: 'µm', station: 1 })
      expect(axis?.positive).toBeCloseTo(2.4953, 3)
      expect(axis?.negative).toBeCloseTo(-2.4953, 3)
    }
    // Equal modes at a distance lose 10 log(1 + (z / 2 zR)²): 1 dB at z = 2 zR 0.50885 with zR = π w² / λ = 54.806 µm.
    expect(gap?.positive).toBeCloseTo(2 * 54.806 * 0.50885, 1)
    expect(tilt?.positive).toBeCloseTo(
      (180 / Math.PI) * (1.55 / (Math.PI * 1.000273 * 5.2)) * Math.sqrt(1 / 4.342945),
      4,
    )
    expect(tilt?.negative).toBeCloseTo(-Number(tilt?.positive), 9)
    expect(tilt?.station).toBeCloseTo(1, 12)
  })

  test('are within the station where it holds the axis to less than the nearer side', () => {
    expect(figures(2.49)[0]?.withinStation).toBe(true)
    expect(figures(2.5)[0]?.withinStation).toBe(false)
    expect(figures(1, 2.6)[3]?.withinStation).toBe(true)
    expect(figures(1, 2.62)[3]?.withinStation).toBe(false)
  })
})

describe('loss and yield figures', () => {
  test('state the requested percentile next to P99, each with its interval, and name a missing run', () => {
    const percentile = (share: number, lossDb: number) => ({
      share,
      lossDb,
      lowDb: lossDb - 0.1,
      highDb: lossDb + 0.1,
    })
    const run = {
      samples: 1000,
      percentiles: [percentile(0.9, 1), percentile(0.99, 2)],
    } as unknown as YieldResult
    const asked = askPercentile(matchedProject(10.4, 1), 90)
    expect(lossFigures(asked, of({ yield: run })).slice(2, 4)).toMatchObject([
      { label: 'P90, one channel', lossDb: 1, intervalDb: [0.9, 1.1], basis: '1000 simulated assemblies' },
      { label: 'P99, one channel', lossDb: 2, intervalDb: [1.9, 2.1] },
    ])
    expect(lossFigures(asked, of())[2]).toMatchObject({
      lossDb: null,
      intervalDb: null,
      basis: 'yield run missing',
    })
  })

  test('ask of one channel and of all channels what the requirements ask of each', () => {
    const single = askPercentile(matchedProject(10.4, 1), 90)
    const [one] = single.requirements.losses
    single.requirements = {
      ...single.requirements,
      channels: 4,
      losses: [one!, { ...one!, id: 'all', channels: 'all', percentile: 80 }],
    }
    expect(yieldFigures(single, of())).toMatchObject([
      { id: 'yield', askedShare: 0.9, share: null },
      { id: 'array-yield', askedShare: 0.8, share: null },
    ])
    const aims = [
      { aim: 'middle', allChannelsYield: 0.3, allChannelsInterval: { low: 0.2, high: 0.4 } },
      { aim: 'outer', allChannelsYield: 0.7, allChannelsInterval: { low: 0.6, high: 0.8 } },
    ]
    const array = { aim: 'outer', aims } as unknown as ArrayResult
    expect(yieldFigures(single, of({ array }))[1]).toMatchObject({ share: 0.7, interval: [0.6, 0.8] })
  })
})

describe('a design that was not selected', () => {
  const verdict = (id: string, status: 'met' | 'not met' | 'not known', more = {}) => ({
    id,
    label: id,
    status,
    reason: '',
    ...more,
  })
  const at = (nominalDb: number, verdicts: SheetCandidate['verdicts'] = []) =>
    of({ id: `other ${nominalDb}`, verdicts, evaluation: { ...evaluation, nominalDb } })
  const reasonOf = (other: SheetCandidate) => {
    const chosen = of({ evaluation: { ...evaluation, nominalDb: 1 } })
    return alternatives({ project, candidates: [chosen, other], refused: [] }, chosen).map(
      ({ reason }) => reason,
    )
  }

  test('says first what it misses, then what is open, else how its loss differs', () => {
    const missed = [
      verdict('wished', 'not met', { wish: true }),
      verdict('temperature', 'not known'),
      verdict('loss', 'not met', { value: '2.1 dB' }),
      verdict('return loss', 'not met'),
      verdict('pitch', 'not met'),
    ]
    expect(reasonOf(at(0.5, missed))).toEqual(['not met: loss (2.1 dB), and 2 more'])
    expect(reasonOf(at(0.5, missed.slice(0, 2)))).toEqual(['not evaluated: temperature'])
    expect(reasonOf(at(0.5, missed.slice(0, 1)))).toEqual(['meets every requirement; nominal 0.50 dB lower'])
    expect(reasonOf(at(1.25))).toEqual(['meets every requirement; nominal 0.25 dB higher'])
  })

  test('has the percentile that leads the requirements', () => {
    const asked = askPercentile(matchedProject(10.4, 1), 90)
    const percentiles = [
      { share: 0.5, lossDb: 0.5 },
      { share: 0.9, lossDb: 0.9 },
      { share: 0.99, lossDb: 0.99 },
    ]
    const other = of({ id: 'other', yield: { percentiles } as unknown as YieldResult })
    const [found] = alternatives({ project: asked, candidates: [of(), other], refused: [] }, of())
    expect(found?.percentileDb).toBe(0.9)
  })
})

test('folded steps keep the largest by size, gains among them, in the order of the path', () => {
  const step = (label: string, lossDb: number) => ({ label, lossDb })
  const lines = [step('a', 0.1), step('b', -0.6), step('c', 0.004), step('d', 0.5), step('e', 0.2)]
  expect(foldedSteps(lines, 2)).toEqual([
    { label: 'b', lossDb: -0.6 },
    { label: 'd', lossDb: 0.5 },
    { label: '3 others', lossDb: expect.closeTo(0.304, 12), parts: 3 },
  ])
  expect(foldedSteps(lines.slice(3), 2)).toEqual([step('d', 0.5), step('e', 0.2)])
})

test('a design without any loss has shares of nothing, not of a division by it', () => {
  const [candidate] = sheetOf(project).candidates
  expect(candidate?.evaluation.nominalDb).toBe(0)
  expect(candidate?.lines.length).toBeGreaterThan(3)
  for (const { share } of candidate?.lines ?? []) expect(share).toBe(0)
})

test('a basis leaves out the number that the column before it states, and nothing else', () => {
  const reason = '41.3 dB (incoherent sum); 35.9 dB coherent worst case'
  expect(withoutResult(reason, '41.3')).toBe('incoherent sum; 35.9 dB coherent worst case')
  expect(withoutResult(reason, '1.3')).toBe(reason)
  expect(withoutResult('1.15 dB', '1.15')).toBe('')
  expect(withoutResult('2.09 dB, but P99 is 3.42 dB', '2.09')).toBe('P99 is 3.42 dB')
})
