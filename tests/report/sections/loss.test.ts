// The sections about loss and its spread, on results that are known beforehand.

import { describe, expect, test } from 'vitest'
import type { AimResult, ArrayResult } from '../../../src/analysis/array/runArray'
import type { YieldResult } from '../../../src/analysis/index'
import type { Evaluation } from '../../../src/analysis/results/evaluation'
import type { RankedTolerance } from '../../../src/analysis/yield/yieldResult'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Lifetime } from '../../../src/model/schema/build/lifetime'
import { packNumbers } from '../../../src/numerics/compactNumbers'
import type { SheetCandidate } from '../../../src/report/candidates'
import { changesSection } from '../../../src/report/sections/changes'
import { arraySection } from '../../../src/report/sections/loss/array'
import { budgetSection } from '../../../src/report/sections/loss/budget'
import { lifetimeSection } from '../../../src/report/sections/loss/lifetime'
import { spreadSection } from '../../../src/report/sections/loss/spread'
import { temperatureSection } from '../../../src/report/sections/loss/temperature'
import { windowsSection } from '../../../src/report/sections/loss/windows'
import { yieldSection } from '../../../src/report/sections/loss/yield'
import { twoDesigns } from '../../support/twoDesigns'
import { ranked } from '../support/ranked'
import {
  contextOf,
  evaluatedAs,
  plainCandidate,
  readRows,
  tablesIn,
  wordsIn,
} from '../support/sectionContext'

const evaluation = plainCandidate().evaluation

describe('the budget', () => {
  const built = (more: Partial<SheetCandidate>) => budgetSection.build(contextOf([plainCandidate(more)]))

  test('leaves lines below 0.005 dB out on paper, and says so only where there are any', () => {
    const line = (id: string, lossDb: number) => ({
      ...plainCandidate().lines[0]!,
      id,
      label: id,
      lossDb,
      share: 0.25,
    })
    const blocks = built({
      lines: [line('large', 0.3), line('gain', -0.005), line('slight', 0.0049)],
    })
    const [budget] = tablesIn(blocks)
    expect(budget?.rows.slice(0, 3).map(({ slight }) => slight)).toEqual([false, false, true])
    expect(readRows(budget)[0]?.slice(0, 4)).toEqual(['large', '0.30', '25', ''])
    expect(wordsIn(blocks)).toEqual(['Contributions below 0.005 dB are left out on paper only.'])
    expect(wordsIn(built({ lines: [line('large', 0.3)] }))).toEqual([])
  })

  test('says how its worst case was found and at what temperature the loss is highest, with what arrives', () => {
    const rows = (more: Partial<Evaluation>) =>
      readRows(tablesIn(budgetSection.build(contextOf([evaluatedAs(more)])))[0])
    const worst = { ...evaluation.worstCorner, lossDb: 10 }
    const found = rows({
      worstCorner: { ...worst, exhaustive: true },
      temperature: null,
    })
    expect(found.at(-1)).toEqual(['Worst case', '10.00', '', '10.0', '', 'exhaustive'])
    const temperature = {
      ...evaluation.temperature!,
      worstC: -40.04,
      worstDb: 3,
    }
    const [corner, hot] = rows({
      worstCorner: { ...worst, exhaustive: false },
      temperature,
    }).slice(-2)
    expect(corner?.at(-1)).toBe('search, not exhaustive')
    expect(hot).toEqual(['Nominal, worst temperature', '3.00', '', '50.1', '', 'at −40 °C'])
  })

  test('leaves out on paper what it was computed from only where that is an exact 0', () => {
    const input = (label: string, value: number, tolerance: string) => ({
      label,
      value: { value, text: String(value) },
      unit: 'µm',
      tolerance,
      provenance: 'estimate' as const,
    })
    const inputs = [input('a', 0, ''), input('b', 0, '± 1 µm, normal'), input('c', 2, '')]
    expect(tablesIn(built({ inputs }))[1]?.rows.map(({ slight }) => slight)).toEqual([true, false, false])
  })
})

describe('the spread', () => {
  test('lists tolerances from 0.0005 dB, those below 0.005 dB not on paper; says where none adds loss', () => {
    const contribution = (label: string, addedDb: number) => ({
      label,
      path: [label],
      addedDb,
    })
    const built = (...contributions: readonly ReturnType<typeof contribution>[]) =>
      spreadSection.build(contextOf([evaluatedAs({ rootSumSquare: { lossDb: 1, contributions } })]))
    const blocks = built(
      contribution('a', 0.1),
      contribution('b', 0.0049),
      contribution('c', 0.0005),
      contribution('d', 0.0004),
    )
    const [, costly] = tablesIn(blocks)
    expect(readRows(costly)).toEqual([
      ['a', '0.100'],
      ['b', '0.005'],
      ['c', '0.001'],
    ])
    expect(costly?.rows.map(({ slight }) => slight)).toEqual([false, true, true])
    expect(wordsIn(built())).toContain('No tolerance of this path adds loss.')
    expect(tablesIn(built())).toHaveLength(1)
  })

  test('has the percentile of the leading criterion, if it was simulated, and the limits of the worst case by side', () => {
    const project = twoDesigns()
    const [leading] = project.requirements.losses
    project.requirements.losses = [{ ...leading!, percentile: 90 }]
    const percentiles = [0.5, 0.9].map((share) => ({
      share,
      lossDb: share,
      lowDb: 0,
      highDb: 1,
    }))
    const row = (run: YieldResult | null) =>
      readRows(tablesIn(spreadSection.build(contextOf([plainCandidate({ yield: run })], {}, project)))[0])[2]
    const yieldInterval = { low: 0, high: 1 }
    expect(
      row({
        percentiles,
        yieldInterval,
        ranking: [],
      } as unknown as YieldResult),
    ).toEqual(['90 % of assemblies', '0.90', 'simulated from the tolerances'])
    expect(row(null)?.slice(1)).toEqual(['not evaluated', 'needs a yield run with the current values'])
    const words = (exhaustive: boolean, signs: readonly (1 | -1)[]) => {
      const settings = signs.map((sign, i) => ({
        label: `t${i}`,
        path: [i],
        sign,
      }))
      const worstCorner = { lossDb: 2, exhaustive, settings }
      return wordsIn(spreadSection.build(contextOf([evaluatedAs({ worstCorner })]))).slice(-3)
    }
    expect(words(true, [1, -1, 1])).toEqual([
      'Worst case, exhaustive:',
      'at the upper limit: t0; t2',
      'at the lower limit: t1',
    ])
    expect(words(false, [1])[0]).toContain('flipping limits singly and in pairs; not exhaustive')
    expect(words(false, [1])[2]).toBe('at the lower limit: none')
    expect(words(true, []).filter((each) => each.startsWith('Worst case'))).toEqual([])
  })
})

describe('the yield', () => {
  const run: YieldResult = {
    candidateId: 'a',
    samples: 2000,
    seed: 7,
    method: 'random',
    stoppedEarly: true,
    limitDb: 2,
    nominalDb: 1,
    temperaturesC: [],
    p50Db: 1,
    p95Db: 2,
    p99Db: 3,
    percentiles: [{ share: 0.95, lossDb: 2, lowDb: 1.9, highDb: 2.2 }],
    meanDb: 1.1,
    standardDeviationDb: 0.31,
    firstOrderDb: 0,
    leastDb: 0,
    greatestDb: 4,
    yield: 0.9512,
    touching: null,
    yieldInterval: { low: 0.9401, high: 0.9603 },
    confidence: 0.95,
    histogram: { fromDb: 0, stepDb: 0.1, counts: [1, 2, 1], beyond: 0 },
    worst: [],
    ranking: [],
    rankingYield: 0.95,
    assumptions: ['Assumed.'],
  }
  const built = (more: Partial<YieldResult> = {}) =>
    yieldSection.build(contextOf([plainCandidate({ name: 'A', yield: { ...run, ...more } })]))

  test('is given with percentiles, mean, intervals and how it was sampled', () => {
    const [table] = tablesIn(built())
    expect(table?.caption).toBe(
      'A: 2\u202f000 simulated assemblies, limit 2 dB, intervals at 95 % confidence',
    )
    expect(readRows(table)).toEqual([
      ['Yield', '%', '95.12', '94.01', '96.03'],
      ['95 % of assemblies within', 'dB', '2.00', '1.90', '2.20'],
      ['Mean', 'dB', '1.10', '', ''],
      ['Standard deviation', 'dB', '0.31', '', ''],
    ])
    expect(wordsIn(built())).toEqual([
      'random points, seed 7, 2\u202f000 samples; stopped early at the requested accuracy.',
      'Assumed.',
    ])
    expect(wordsIn(built({ method: 'sobol', stoppedEarly: false }))[0]).toBe(
      'Sobol points, seed 7, 2\u202f000 samples.',
    )
    expect(wordsIn(yieldSection.build(contextOf([plainCandidate()])))[0]).toContain(
      'Not simulated yet: the yield.',
    )
  })

  test('ranks tolerances from 0.5 % of the variance, with gains that differ from zero', () => {
    const ranking = [
      ranked('offset', {
        total: 0.625,
        yieldGainHalved: 0.0312,
        percentileGainHalvedDb: 0.4,
        percentileGainErrorDb: 0.1,
      }),
      ranked('gap', { total: 0.005, plusMinus: 2 }),
      ranked('roll', { total: 0.0049 }),
    ]
    const [, table] = tablesIn(built({ ranking }))
    expect(readRows(table)).toEqual([
      ['offset', '0.500', 'µm', '62.5', '3.12', '0.40'],
      ['gap', '2.000', 'µm', '0.5', '0.00', 'not distinguishable'],
    ])
    expect(table?.columns.at(-1)?.label).toBe('P99 gain if halved')
  })
})

describe('the array', () => {
  const aim = (name: AimResult['aim'], allChannelsYield: number): AimResult => ({
    aim: name,
    nominalPositions: [],
    channels: [
      {
        channel: 1,
        nominalDb: 1,
        p5Db: 0.9,
        p50Db: 1.1,
        p95Db: 1.8,
        yield: 0.975,
      },
    ],
    meanPowerLossDb: 1.2,
    meanWorstDb: 1.6,
    worstChannelPercentiles: [],
    allChannelsYield,
    allChannelsInterval: {
      low: allChannelsYield - 0.05,
      high: allChannelsYield + 0.05,
    },
    worstChannelYield: 0.9,
  })
  const of = (aims: readonly AimResult[], tolerances: readonly RankedTolerance[] = []): ArrayResult => ({
    candidateId: 'a',
    samples: 1024,
    seed: 3,
    limitDb: 2,
    aim: 'outer two',
    aims,
    ranking: { tolerances, others: 0, rankingBlocks: 1 },
    temperaturesC: [],
    assumptions: [],
  })
  const built = (array: ArrayResult | null) => arraySection.build(contextOf([plainCandidate({ array })]))

  test('lists its alignment strategies, and the channels of the selected one', () => {
    const [aims, channels] = tablesIn(built(of([aim('sum of all', 0.3), aim('outer two', 0.75)])))
    expect(aims?.caption).toBe('Alignment strategies')
    expect(aims?.rows.map(({ mark }) => mark)).toEqual(['aim-sum of all', 'aim-outer two'])
    expect(readRows(aims)[1]?.slice(1)).toEqual(['75.00', '70.00', '80.00', '90.00', '1.20', '1.60'])
    expect(tablesIn(built(of([aim('sum of all', 0.3), aim('outer two', 0.75)])))).toHaveLength(2)
    expect(readRows(channels)).toEqual([['1', '1.00', '0.90', '1.10', '1.80', '97.50']])
    expect(channels?.caption).toMatch(/^Loss of every channel, aligned for: /)
    expect(channels?.caption).not.toBe(
      tablesIn(
        built({
          ...of([aim('sum of all', 0.3), aim('outer two', 0.75)]),
          aim: 'sum of all',
        }),
      )[1]?.caption,
    )
    const [placed, each] = tablesIn(built(of([aim('outer two', 0.75)])))
    expect([placed?.caption, readRows(placed)[0]?.[0]]).toEqual([
      'Array placed as entered',
      'no alignment on power',
    ])
    expect(each?.caption).toBe('Loss of every channel, array placed as entered')
  })

  test('ranks what is worth narrowing, and is offered where it is missing; one channel is no array', () => {
    const tolerances = [
      ranked('pitch', { yieldGainHalved: 0.031 }),
      ranked('bow', {
        percentileGainHalvedDb: 0.2,
        percentileGainErrorDb: 0.01,
      }),
      ranked('slight', { yieldGainHalved: 0.004 }),
    ]
    expect(readRows(tablesIn(built(of([aim('outer two', 0.5)], tolerances)))[2])).toEqual([
      ['pitch', '0.500', 'µm', '3.1', 'not distinguishable'],
      ['bow', '0.500', 'µm', '0.0', '0.20'],
    ])
    expect(wordsIn(built(null))[0]).toContain('Not simulated yet: the array.')
    const single = twoDesigns()
    single.requirements.channels = 1
    expect(arraySection.build(contextOf([plainCandidate()], {}, single))).toEqual([])
  })
})

describe('temperature and alignment tolerances', () => {
  test('the range within the limit has its ends, or words where it is not bounded or empty', () => {
    const ends = (reachC: readonly [number, number] | null) => {
      const temperature = {
        ...evaluation.temperature!,
        worstC: -40.2,
        worstDb: 1.5,
        reachC,
      }
      return readRows(tablesIn(temperatureSection.build(contextOf([evaluatedAs({ temperature })])))[0])
    }
    expect(ends([-20.4, 81.6])).toEqual([
      ['Maximum', '1.50', 'dB'],
      ['Temperature of the maximum', '−40', '°C'],
      ['Within the limit from', '−20', '°C'],
      ['Within the limit to', '82', '°C'],
    ])
    expect(
      ends([-65, 150])
        .map(([, value]) => value)
        .slice(2),
    ).toEqual(['below −65', 'above 150'])
    expect(
      ends(null)
        .map(([, value]) => value)
        .slice(2),
    ).toEqual(['none', 'none'])
    const { mount: _, ...bare } = plainCandidate().candidate
    expect(wordsIn(temperatureSection.build(contextOf([plainCandidate({ candidate: bare })])))).toEqual([
      'No mount defined; temperature not evaluated.',
    ])
  })

  test('each of several joints has a title and a number; a joint by fields says what they are used for', () => {
    const [joint] = evaluation.joints
    if (joint === undefined) throw new Error('no joint')
    const built = (...joints: readonly (typeof joint)[]) =>
      windowsSection.build(contextOf([evaluatedAs({ joints })]))
    expect(tablesIn(built(joint))[0]?.caption).toBe(
      'Alignment tolerance per axis of the joint, from the working point',
    )
    expect(wordsIn(built(joint)).filter((each) => each.startsWith('Joint'))).toEqual([])
    const two = built(joint, { ...joint, elementId: 'second' })
    expect(wordsIn(two).filter((each) => each.startsWith('Joint'))).toEqual(['Joint 1', 'Joint 2'])
    expect(
      tablesIn(two)
        .map(({ caption }) => caption)
        .filter((each) => each.includes('joint 2')),
    ).toHaveLength(1)
    const field = {
      spec: {},
      nearName: '',
      farName: '',
      loss: { refusal: 'no grid' },
    } as unknown as NonNullable<typeof joint.field>
    expect(wordsIn(built({ ...joint, field }))[0]).toMatch(/^Based on Gaussian modes, not on the fields/)
  })
})

describe('the drift over service life', () => {
  const exposures = [0, 500, 1000, 2000]
  const project = twoDesigns()
  const readings = (assemblies: number) =>
    Array.from({ length: assemblies }, (_, a) =>
      exposures.map((t, i) => ({
        a,
        t,
        lossDb: 0.8 + 1e-4 * t + 0.002 * ((i + a) % 2),
      })),
    ).flat()
  const words = (lifetime: Partial<Lifetime>, exposureUnit: 'h' | 'cycles', assemblies = 3) => {
    const all = readings(assemblies)
    const measured = {
      ...project,
      measurements: [
        {
          id: 'm',
          name: 'Damp heat',
          fileName: 'a.csv',
          date: '2026-11-20',
          notes: [],
          method: 'stress' as const,
          rows: {
            labels: [
              {
                role: 'assembly' as const,
                names: Array.from({ length: assemblies }, (_, i) => `A${i}`),
                values: packNumbers(Float64Array.from(all, ({ a }) => a)),
              },
            ],
            lossDb: packNumbers(Float64Array.from(all, ({ lossDb }) => lossDb)),
            exposure: packNumbers(Float64Array.from(all, ({ t }) => t)),
            exposureUnit,
          },
        },
      ],
    } as unknown as typeof project
    const candidate = {
      ...plainCandidate().candidate,
      lifetime: { measurementId: 'm', law: 'linear' as const, ...lifetime },
    }
    const blocks = lifetimeSection.build(contextOf([plainCandidate({ candidate })], {}, measured))
    return { text: wordsIn(blocks)[0] ?? '', table: tablesIn(blocks)[0] }
  }
  const arrhenius = { activationEnergyEv: 0.7, testC: 85, serviceC: 40 }
  const coffinManson = { exponent: 2, testSwingC: 125, serviceSwingC: 50 }

  test('says how much faster the test was than service, by the model of its unit', () => {
    expect(words({ arrhenius, coffinManson, basis: 'Handbook.' }, 'h').text).toMatch(
      /^Damp heat: 3 assemblies, 3 channels, last reading at 2\u202f000 h\. Law: linear, drift proportional to t\. Acceleration: Arrhenius, activation energy 0\.7 eV, test at 85 °C, service at 40 °C; factor .*\. Source stated: Handbook\.\.$/,
    )
    // (125 / 50)² = 6.25
    expect(words({ arrhenius, coffinManson }, 'cycles').text).toContain(
      'Coffin-Manson, exponent 2, swing of 125 °C in the test and 50 °C in service; factor 6.25. Source stated: none.',
    )
    const none = 'Acceleration: none, service assumed to be as severe as the test; factor 1.'
    expect(words({ coffinManson }, 'h').text).toContain(none)
    expect(words({ arrhenius }, 'cycles').text).toContain(none)
    expect(words({}, 'h', 1).text).toContain('Damp heat: 1 assembly, 1 channel, ')
  })

  test('gives every law, and marks the one that was chosen', () => {
    const rows = readRows(words({ law: 'square root' }, 'h').table)
    expect(rows.map(([law]) => law)).toEqual(['Linear', 'Square root (chosen)', 'Logarithmic'])
    // 1e-4 dB/h for 20 years of 8766 h is 17.53 dB, apart from the scatter of 2 mdB.
    expect(Number(rows[0]?.[1])).toBeCloseTo(17.53, 0)
  })

  test('says why it is not computed, and nothing without a stated lifetime', () => {
    const candidate = {
      ...plainCandidate().candidate,
      lifetime: { measurementId: 'gone', law: 'linear' as const },
    }
    expect(wordsIn(lifetimeSection.build(contextOf([plainCandidate({ candidate })])))[0]).toMatch(
      /^Not computed: The stress test/,
    )
    expect(lifetimeSection.build(contextOf([plainCandidate()]))).toEqual([])
  })
})

describe('changes since an earlier state', () => {
  test('carry the earlier value, the present one and the difference in dB and in points of yield', () => {
    const before = twoDesigns()
    const now = structuredClone(before)
    const candidate = now.candidates.find(({ id }) => id === plainCandidate().id)
    const gap = candidate?.chain.find(({ kind }) => kind === 'gap')
    if (gap?.kind !== 'gap') throw new Error('no gap')
    gap.offsetX = { ...gap.offsetX, value: gap.offsetX.value + 1.5 }
    const blocks = changesSection.build(
      contextOf([plainCandidate()], { before: { name: 'Rev A', project: before } }, now),
    )
    const [changes, states] = tablesIn(blocks)
    const [one, together] = readRows(changes)
    expect(one?.slice(3)).toEqual(together?.slice(3))
    const [earlier, later] = readRows(states)
    expect([earlier?.[0], later?.[0]]).toEqual(['Rev A', 'now'])
    const number = (text: string | undefined) => Number(text?.replace('−', '-'))
    for (const [at, digits] of [3, 3, 3, 3, 2].entries())
      expect(number(together?.[at + 3])).toBeCloseTo(
        number(later?.[at + 1]) - number(earlier?.[at + 1]),
        digits - 1,
      )
    expect(number(together?.[3])).toBeGreaterThan(0.3)
    expect(number(together?.at(-1))).toBeLessThan(-1)
    const same = changesSection.build(
      contextOf([plainCandidate()], { before: { name: 'Rev A', project: before } }, before),
    )
    expect(wordsIn(same)).toEqual(['No input differs from Rev A.'])
    expect(changesSection.build(contextOf([plainCandidate()]))).toEqual([])
  })

  test('that make a design impossible are not computable', () => {
    const before = twoDesigns()
    before.facets = before.facets.map((facet) => ({
      ...facet,
      mfdX: quantityOf(-1, 'um'),
    }))
    const blocks = changesSection.build(
      contextOf([plainCandidate()], {
        before: { name: 'Rev A', project: before },
      }),
    )
    expect(readRows(tablesIn(blocks)[1])[0]?.slice(1)).toEqual(
      Array.from({ length: 5 }, () => 'not computable'),
    )
  })
})
