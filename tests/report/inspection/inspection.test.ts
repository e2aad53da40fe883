// An inspection plan of parts with easy numbers: guard bands, samples and words, by the formulas of JCGM 106:2012 and the binomial law.

import { describe, expect, test } from 'vitest'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Characteristic } from '../../../src/report/characteristics/characteristic'
import type { Block } from '../../../src/report/document/blocks'
import { inspectionData, inspectionTable, rejectRule } from '../../../src/report/inspection/inspectionRows'
import { inspectionOf, type Sampling, samplingOf } from '../../../src/report/inspection/plan'
import { inspectionSections } from '../../../src/report/inspection/sections'
import type { SpecifiedItem } from '../../../src/report/purchase/specification'

const SAMPLING: Sampling = {
  ...{ confidence: 0.95, defective: 0.05, allowed: 0, size: 59, goodRejected: 0.2559 },
  ...{ guardFactor: 2, guardRisk: 0.0228 },
}
/** Measured to ± 0.2 µm, so u = 0.1 µm and a guard band of 0.2 µm. */
const width = (
  value: number,
  plusMinus: number | null,
  more: Partial<Characteristic> = {},
): Characteristic => ({
  ...{ id: 'cladding', label: 'cladding', sense: 'within', method: 'cladding' },
  quantity: plusMinus === null ? quantityOf(value, 'um') : quantityOf(value, 'um', 'estimate', plusMinus),
  ...more,
})
const none = new Map()
const inspected = (each: Characteristic, lot: number | null = 100, sampling = SAMPLING, excess = none) =>
  inspectionOf(each, lot, sampling, undefined, excess)

test('the sample is the smallest that finds the share with the confidence, and a tenth of it is the producer’s', () => {
  const of = (allowedFailures: number, more: object = {}) =>
    samplingOf({
      inspection: {
        allowedFailures,
        confidencePercent: 95,
        defectivePercent: 5,
        guardRiskPercent: 2.5,
        ...more,
      },
    } as never)
  // None of n fails with probability 0.95^n: 59 are the first below 5 %. A tenth: 1 - 0.995^59.
  const plain = of(0)
  expect(plain).toMatchObject({ confidence: 0.95, defective: 0.05, allowed: 0, size: 59, guardRisk: 0.025 })
  expect(plain.goodRejected).toBeCloseTo(1 - 0.995 ** 59, 12)
  expect(plain.guardFactor).toBeCloseTo(1.959964, 5)
  // One of n may fail: 0.95^n + n 0.05 0.95^(n-1), tabulated as 93.
  const one = of(1)
  expect(one.size).toBe(93)
  expect(one.goodRejected).toBeCloseTo(1 - 0.995 ** 93 - 93 * 0.005 * 0.995 ** 92, 12)
  expect(of(0, { confidencePercent: undefined })).toEqual({
    ...samplingOf(undefined),
    allowed: 0,
    size: of(0, { confidencePercent: undefined }).size,
    defective: 0.05,
    guardRisk: 0.025,
    guardFactor: plain.guardFactor,
    goodRejected: of(0, { confidencePercent: undefined }).goodRejected,
  })
})

describe('one characteristic', () => {
  test('is accepted a guard band inside its limits, and whole lots are inspected in full', () => {
    const each = inspected(width(125, 1))
    expect(each).toMatchObject({
      limits: { lower: 124, upper: 126 },
      accept: { lower: 124.2, upper: 125.8 },
      neededExpanded: null,
      isEntered: false,
      sample: 59,
      whole: false,
      excessDb: null,
    })
    expect([each.expanded, each.standard, each.guard]).toEqual(
      [0.2, 0.1, 0.2].map((value) => expect.closeTo(value, 12)),
    )
    expect(
      [59, 60, 1, null]
        .map((lot) => inspected(width(125, 1), lot))
        .map(({ sample, whole }) => [sample, whole]),
    ).toEqual([
      [59, true],
      [59, false],
      [1, true],
      [null, false],
    ])
    const quantity = quantityOf(125, 'um', 'estimate', 1)
    expect(inspected(width(125, 1, { quantity }), 9, SAMPLING, new Map([[quantity, 0.3]])).excessDb).toBe(0.3)
    const entered = inspectionOf(
      width(125, 1),
      9,
      SAMPLING,
      { inspection: { uncertainties: { cladding: 0.1 } } } as never,
      none,
    )
    expect(entered).toMatchObject({ expanded: 0.1, isEntered: true, accept: { lower: 124.1, upper: 125.9 } })
  })

  test('has no acceptance limits where the guard bands leave nothing, or the tolerance is open', () => {
    // Half of ± 0.15 µm: 0.3 / 2 / 2.
    const narrow = inspected(width(125, 0.15))
    expect(narrow.accept).toBeNull()
    expect(narrow.neededExpanded).toBeCloseTo(0.075, 12)
    expect(inspected(width(125, null))).toMatchObject({ accept: null, neededExpanded: null })
    expect(inspected(width(125, 0.3, { sense: 'at most' }))).toMatchObject({
      limits: { lower: null, upper: 125.3 },
      accept: { lower: null, upper: 125.1 },
    })
  })
})

describe('the plan on paper', () => {
  const item = (more: object = {}) =>
    ({
      key: 'f1',
      kind: 'Fibre',
      name: 'F',
      own: {},
      pieces: 100,
      perAssembly: 1,
      ...more,
    }) as unknown as SpecifiedItem
  const texts = (blocks: readonly Block[]) =>
    blocks.flatMap((block) =>
      block.kind === 'list' ? block.items : block.kind === 'text' ? [block.text] : [],
    )
  const rules = (more: Partial<Sampling> = {}) =>
    texts(inspectionSections({ sampling: { ...SAMPLING, ...more }, items: [] })[0]!.blocks)
  const sectionOf = (
    characteristics: readonly Characteristic[],
    more: object = {},
    lot: number | null = 100,
    excess = none,
  ) => {
    const plan = {
      sampling: SAMPLING,
      items: [
        {
          number: 3,
          item: item(more),
          inspections: characteristics.map((each) => inspected(each, lot, SAMPLING, excess)),
        },
      ],
    }
    return { plan, sections: inspectionSections(plan) }
  }
  const cells = (block: Block | undefined) =>
    block?.kind === 'table'
      ? block.rows.map((row) => row.cells.map((cell) => (typeof cell === 'string' ? cell : cell.text)))
      : []

  test('states the rule with its numbers, in the singular and the plural', () => {
    expect(rules()[1]).toMatch(
      /^Sample: 59 parts with no failure\. A lot with 5 % of its parts outside the limits is then rejected with a probability of at least 95 %/,
    )
    expect(rules()[2]).toMatch(
      /^Producer's risk: a lot with 0\.5 % of its parts outside the limits is still rejected with a probability of 25\.6 %\./,
    )
    expect(rules()[3]).toMatch(/^Rejection rule: a part that fails is set aside\. One failure in the sample/)
    expect(rules({ allowed: 1 })[1]).toMatch(/59 parts with at most 1 failure\./)
    expect(rules({ allowed: 1 })[3]).toMatch(/More than 1 failure in the sample/)
    expect(rules({ allowed: 2 })[1]).toMatch(/59 parts with at most 2 failures\./)
    expect(rules({ allowed: 2 })[3]).toMatch(/More than 2 failures in the sample/)
    expect([
      rejectRule(SAMPLING, true),
      rejectRule(SAMPLING, false),
      rejectRule({ ...SAMPLING, allowed: 1 }, false),
    ]).toEqual([
      'set aside every part that fails',
      'reject the lot at 1 failure or more',
      'reject the lot at 2 failures or more',
    ])
  })

  test('has a row for each characteristic, with why there are no limits where there are none', () => {
    const loss = width(125, 1)
    const { sections } = sectionOf(
      [
        loss,
        width(125, 0.15),
        width(125, null),
        width(125, 0.3, { sense: 'at most' }),
        width(125, 0.3, { sense: 'at least' }),
      ],
      {},
      100,
      new Map([[loss.quantity, 0.123]]),
    )
    expect(sections.map(({ id, title }) => [id, title])).toEqual([
      ['decision-rule', 'Decision rule'],
      ['methods', 'Methods and their uncertainty'],
      ['inspection-1', '3. Fibre: F'],
    ])
    const rows = cells(sections[2]?.blocks[1])
    expect(rows.map((row) => row.slice(4))).toEqual([
      ['124.2', '125.8', 'µm', '59', '0.12'],
      ['method too uncertain: U ≤ 0.075 µm needed', '', 'µm', '59', ''],
      ['tolerance to be agreed', '', 'µm', '59', ''],
      ['', '125.1', 'µm', '59', ''],
      ['124.9', '', 'µm', '59', ''],
    ])
    expect(rows[0]?.slice(0, 4)).toEqual(['cladding', '125 ± 1 µm', 'end-face image', '0.2'])
    // One method, once, with the uncertainty that is usual for it.
    expect(cells(sections[1]?.blocks[0])).toEqual([
      ['end-face image', expect.any(String), '0.2', 'µm', 'planned'],
    ])
    const sample = (lot: number | null) => cells(sectionOf([loss], {}, lot).sections[2]?.blocks[1])[0]?.[7]
    expect([sample(null), sample(1), sample(2), sample(59), sample(60)]).toEqual([
      'lot size not known',
      '1',
      'all 2',
      'all 59',
      '59',
    ])
  })

  test('says how large the lot is, and lists no part without a characteristic', () => {
    const lot = (more: object) => texts(sectionOf([width(125, 1)], more).sections[2]!.blocks)[0]
    expect(lot({})).toBe('Lot size: 100 pieces.')
    expect(lot({ pieces: null })).toMatch(/^Lot size: not known/)
    expect(lot({ perAssembly: null, pieces: null })).toMatch(/^Bought by volume/)
    expect(lot({ own: { partNumber: ' P-7 ' } })).toBe('Part number P-7. Lot size: 100 pieces.')
    expect(lot({ own: { partNumber: '  ' } })).toBe('Lot size: 100 pieces.')
    expect(sectionOf([]).sections).toHaveLength(2)
  })
})

test('the table and the data of a plan hold the same numbers, empty or null where there is none', () => {
  const item = {
    key: 'f1',
    kind: 'Fibre',
    name: 'F',
    own: {},
    pieces: 100,
    perAssembly: 1,
    openQuestions: [],
    has: {},
  } as unknown as SpecifiedItem
  const quantity = quantityOf(125, 'um', 'estimate', 1)
  const inspections = [
    inspected(width(125, 1, { quantity }), 20, SAMPLING, new Map([[quantity, 0.3]])),
    inspected(width(125, null), null),
  ]
  const plan = { sampling: { ...SAMPLING, allowed: 2 }, items: [{ number: 1, item, inspections }] }
  const rows = inspectionTable(plan).rows.map(({ cells }) =>
    cells.slice(-10).map((cell) => (typeof cell === 'string' ? cell : cell.value)),
  )
  const about = (value: number) => expect.closeTo(value, 12)
  expect(rows).toEqual([
    [about(0.2), 'µm', 'planned', about(0.2), 124.2, 125.8, 20, 0, 'set aside every part that fails', 0.3],
    [about(0.2), 'µm', 'planned', about(0.2), '', '', '', 2, 'reject the lot at 3 failures or more', ''],
  ])
  expect(inspectionData(plan).parts[0]?.inspections).toMatchObject([
    {
      acceptFrom: 124.2,
      acceptTo: 125.8,
      sample: 20,
      excessLossDb: 0.3,
      rejectRule: 'set aside every part that fails',
    },
    {
      acceptFrom: null,
      acceptTo: null,
      sample: null,
      excessLossDb: null,
      rejectRule: 'reject the lot at 3 failures or more',
    },
  ])
})
