// The sections about the decision, on verdicts and figures that are known beforehand.

import { describe, expect, test } from 'vitest'
import type { Verdict } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { SheetCandidate } from '../../../src/report/candidates'
import { choiceSection } from '../../../src/report/sections/choice'
import { comparisonSection } from '../../../src/report/sections/comparison'
import { evidenceSection } from '../../../src/report/sections/evidence'
import { jobSection } from '../../../src/report/sections/job'
import { questionsSection } from '../../../src/report/sections/questions'
import { signOffSection } from '../../../src/report/sections/signOff'
import { summarySection } from '../../../src/report/sections/summary'
import { countsText, statusCounts } from '../../../src/report/sections/verdictWords'
import { twoDesigns } from '../../support/twoDesigns'
import {
  cellsOf,
  contextOf,
  evaluatedAs,
  plainCandidate,
  readRows,
  tablesIn,
  wordsIn,
} from '../support/sectionContext'

const verdict = (id: string, status: Verdict['status'], more: Partial<Verdict> = {}): Verdict => ({
  id,
  label: id,
  status,
  reason: '',
  ...more,
})
const many = (count: number, status: Verdict['status'], from = 1) =>
  Array.from({ length: count }, (_, i) => verdict(`${status} ${i + from}`, status))
const other = (id: string, more: Partial<SheetCandidate> = {}) => plainCandidate({ id, name: id, ...more })
const reviewed = (review: object) => ({ ...twoDesigns(), review })

describe('verdicts', () => {
  test('are counted by status, wishes left out', () => {
    const counts = statusCounts([
      ...many(2, 'met'),
      ...many(3, 'not met'),
      ...many(4, 'not known'),
      verdict('wish', 'not met', { wish: true }),
    ])
    expect(counts).toEqual({ met: 2, 'not met': 3, 'not known': 4 })
    expect(countsText(counts)).toBe('2 requirements met, 3 not met, 4 not evaluated.')
    expect(countsText({ ...counts, met: 1 })).toBe('1 requirement met, 3 not met, 4 not evaluated.')
  })
})

describe('the table of requirements on the first page', () => {
  const requirements = (verdicts: readonly Verdict[]) =>
    tablesIn(summarySection.build(contextOf([plainCandidate({ verdicts })]))).find(
      ({ id }) => id === 'summary-requirements',
    )

  test('marks what decides and is not met; a wish is called desirable', () => {
    const table = requirements([
      verdict('a', 'met', { value: '1', limit: '2', reason: '1 dB' }),
      verdict('b', 'not met', {
        value: '3.1',
        limit: '2',
        reason: '3.1 dB (coherent); limit 2 dB',
      }),
      verdict('c', 'not met', { wish: true }),
      verdict('d', 'not known', { reason: 'needs a run' }),
    ])
    expect(readRows(table)).toEqual([
      ['✓ met', 'a', '1', '2', ''],
      ['✗ not met', 'b', '3.1', '2', 'coherent'],
      ['✗ not met', 'Desirable: c', '', '', ''],
      ['? not evaluated', 'd', '', '', 'needs a run'],
    ])
    expect(table?.rows.map(({ strong }) => strong === true)).toEqual([false, true, false, true])
  })

  test('has eight rows; of more, the first seven by what matters most in their own order, and a row for the others', () => {
    const eight = [...many(7, 'met'), verdict('last', 'not met')]
    expect(requirements(eight)?.rows).toHaveLength(8)
    const nine = [...many(8, 'met'), verdict('last', 'not met')]
    expect(readRows(requirements(nine)).map(([mark, label]) => `${mark} ${label}`)).toEqual([
      ...many(6, 'met').map(({ label }) => `✓ met ${label}`),
      '✗ not met last',
      '✓ met 2 more, see Requirements',
    ])
  })

  test('claims of no requirement that it has no row for that it is met', () => {
    const open = readRows(requirements([...many(6, 'not met'), ...many(3, 'not known')]))
    expect(open.at(-1)).toEqual(['? not evaluated', '2 more, see Requirements', '', '', ''])
    const missed = readRows(
      requirements([...many(9, 'not met'), ...many(2, 'not known'), verdict('met', 'met')]),
    )
    expect(missed.at(-1)).toEqual([
      '✗ not met',
      '5 more, see Requirements',
      '',
      '',
      '2 not met, 2 not evaluated, 1 met',
    ])
    expect(missed).toHaveLength(8)
  })
})

describe('loss, yield and alternatives on the first page', () => {
  const tableOf = (id: string, context: ReturnType<typeof contextOf>) =>
    tablesIn(summarySection.build(context)).find((each) => each.id === `summary-${id}`)

  test('says about which point the tilts of the alignment tolerance turn', () => {
    const tables = tablesIn(summarySection.build(contextOf([plainCandidate()])))
    expect(tables.find(({ id }) => id === 'summary-windows')?.caption).toBe(
      'Alignment tolerance at the chip, 1 dB excess loss; tilts about the facet',
    )
  })

  test('say of every figure what it rests on, and that a run is missing', () => {
    const run = {
      samples: 2000,
      yield: 0.875,
      yieldInterval: { low: 0.861, high: 0.888 },
      percentiles: [{ share: 0.95, lossDb: 1.234, lowDb: 1.2, highDb: 1.3 }],
      ranking: [],
    } as unknown as SheetCandidate['yield']
    const project = twoDesigns()
    project.requirements.losses = [
      {
        id: 'loss',
        limit: quantityOf(2, 'dB'),
        basis: 'percentile',
        percentile: 95,
        channels: 'one',
      },
    ]
    const rows = readRows(tableOf('loss', contextOf([plainCandidate({ yield: run })], {}, project)))
    expect(rows).toContainEqual(['P95, one channel', '1.23', 'dB', '1.20 to 1.30 at 95 %'])
    expect(rows).toContainEqual(['P99, one channel', 'no run', 'dB', 'yield run missing'])
    expect(rows).toContainEqual([
      'Yield, one channel',
      '87.5',
      '%',
      '86.1 to 88.8; limit 2 dB, 95 % required',
    ])
    expect(rows).toContainEqual(['Yield, all 12 channels', 'no run', '%', 'array run missing; limit 2 dB'])
    const none = readRows(tableOf('loss', contextOf([plainCandidate()], {}, project)))
    expect(none).toContainEqual([
      'Yield, one channel',
      'no run',
      '%',
      'yield run missing; limit 2 dB, 95 % required',
    ])
  })

  test('list eight other designs; of more, seven and how many more', () => {
    const rows = (count: number) => {
      const others = Array.from({ length: count }, (_, i) => other(`other ${i}`))
      return readRows(tableOf('alternatives', contextOf([plainCandidate(), ...others])))
    }
    expect(rows(8).map(([name]) => name)).toHaveLength(8)
    expect(rows(9).map(([name]) => name)).toEqual([
      ...Array.from({ length: 7 }, (_, i) => `other ${i}`),
      '2 more',
    ])
    const refused = [
      {
        id: 'x',
        name: 'Broken',
        issues: [{ message: 'no facet' }, { message: 'no fibre' }],
      },
    ]
    const context = contextOf([plainCandidate()], {
      refused,
    } as unknown as Partial<ReturnType<typeof contextOf>>)
    expect(readRows(tableOf('alternatives', context))).toEqual([
      ['Broken', '–', '–', 'cannot be evaluated: no facet; no fibre'],
    ])
  })

  test('are signed by six roles at most, and not at all where signing has a section of its own', () => {
    const signatures = (review: object) =>
      summarySection
        .build(contextOf([plainCandidate()], {}, reviewed(review)))
        .flatMap((block) => (block.kind === 'signatures' ? block.roles : []))
    const roles = Array.from({ length: 7 }, (_, i) => `role ${i}`)
    expect(signatures({ roles })).toEqual(roles.slice(0, 6))
    expect(signatures({ roles, left: ['sign-off'] })).toEqual([])
    const section = (review: object) =>
      tablesIn(signOffSection.build(contextOf([plainCandidate()], {}, reviewed(review))))[0]?.rows.length ?? 0
    expect(section({ roles })).toBe(7)
    expect(section({ roles: roles.slice(0, 6) })).toBe(0)
    expect(section({ roles: roles.slice(0, 6), left: ['summary'] })).toBe(6)
  })
})

describe('the selected design', () => {
  const said = (candidate: SheetCandidate, byEngineer: boolean, review: object = {}, more = 0) =>
    wordsIn(
      choiceSection.build(
        contextOf(
          [candidate, ...Array.from({ length: more }, (_, i) => other(`other ${i}`))],
          { choice: { candidate, byEngineer } },
          reviewed({ left: ['summary'], ...review }),
        ),
      ),
    )

  test('is said with its reason, or why it is proposed', () => {
    const own = evaluatedAs({ nominalDb: 1.5 })
    const head = 'High-NA stub, bonded, 1.50 dB nominal. 0 requirements met, 0 not met, 0 not evaluated.'
    expect(said(own, true)).toEqual([head, 'Selected; no reason given yet.', own.remark].filter(Boolean))
    expect(said(own, true, { reason: 'Cheaper.' })[1]).toBe('Cheaper.')
    const rule =
      'No design is selected yet. This one is proposed: it has the fewest requirements not met or not evaluated'
    expect(said(own, false)[1]).toBe(`${rule}.`)
    expect(said(own, false, {}, 1)[1]).toBe(`${rule}; ties are decided by the lowest nominal loss.`)
  })

  test('is not repeated after a first page that has room for its requirements', () => {
    const remark = 'Built once before.'
    const blocks = (verdicts: readonly Verdict[], byEngineer: boolean) => {
      const candidate = plainCandidate({ verdicts, remark })
      return wordsIn(choiceSection.build(contextOf([candidate], { choice: { candidate, byEngineer } })))
    }
    expect(blocks(many(8, 'met'), false)).toEqual([remark])
    expect(blocks(many(8, 'met'), true)).toEqual(['Selected; no reason given yet.', remark])
    expect(blocks(many(9, 'met'), false)).toHaveLength(3)
  })

  test('may be none, because there is none or because none can be evaluated', () => {
    const refused = [{ id: 'x', name: 'Broken', issues: [] }]
    for (const { build } of [choiceSection, summarySection]) {
      expect(wordsIn(build(contextOf([])))).toEqual(['No design yet.'])
      expect(wordsIn(build(contextOf([], { refused })))).toEqual(['No design can be evaluated.'])
    }
  })
})

describe('the comparison', () => {
  test('says of every other design what is missed, what is open and how the nominal loss differs', () => {
    const at = (id: string, nominalDb: number, verdicts: readonly Verdict[], remark = '') => ({
      ...evaluatedAs({ nominalDb }),
      id,
      name: id,
      remark,
      verdicts,
    })
    const context = contextOf([
      at('chosen', 1, []),
      at('missing', 1.5, [
        verdict('loss', 'not met', { reason: '3 dB; limit 2 dB' }),
        verdict('b', 'not known'),
      ]),
      at('open', 0.75, [verdict('b', 'not known'), verdict('c', 'not known')], 'Second source.'),
      at('equal', 1, [verdict('c', 'not met', { wish: true })]),
    ])
    const [against] = tablesIn(comparisonSection.build(context))
    expect(readRows(against)).toEqual([
      ['missing', 'Not met: loss: 3 dB. Nominal loss 0.50 dB higher than that of chosen.', ''],
      ['open', 'Not evaluated: b; c. Nominal loss 0.25 dB lower than that of chosen.', 'Second source.'],
      ['equal', 'Meets every requirement. Nominal loss 0.00 dB higher than that of chosen.', ''],
    ])
    expect(against?.columns.map(({ label }) => label)).toEqual([
      'Design',
      'Compared with the proposed design',
      'Remark',
    ])
  })

  test('of nine designs has two tables of five and four, every design once', () => {
    const project = twoDesigns()
    const [first] = project.candidates
    if (first === undefined) throw new Error('no design')
    project.candidates = Array.from({ length: 9 }, (_, i) => ({
      ...first,
      id: `d${i}`,
      name: `d${i}`,
    }))
    const candidates = project.candidates.map(({ id }) => other(id))
    const tables = tablesIn(comparisonSection.build(contextOf(candidates, {}, project))).filter(
      ({ id }) => id === 'comparison',
    )
    const heads = tables.map(({ columns }) => columns.slice(1).map(({ label }) => label))
    expect(heads).toEqual([
      ['d0', 'd1', 'd2', 'd3', 'd4'],
      ['d5', 'd6', 'd7', 'd8'],
    ])
    expect(tables.map(({ caption }) => caption)).toEqual(['Comparison', 'Comparison, continued'])
    for (const { rows, columns } of tables)
      for (const row of rows) expect(cellsOf(row)).toHaveLength(columns.length)
    // All designs are one: every row but those of requirements and the two of temperature says the same of all.
    const rows = tables[0]?.rows.filter(({ mark = '' }) => !/verdict|reach/.test(mark)) ?? []
    expect(rows.length).toBeGreaterThan(10)
    expect(rows.every(({ slight }) => slight === true)).toBe(true)
  })

  test('gives both ends of the range of temperature a row, in whole degrees', () => {
    const project = twoDesigns()
    const [dry, stub] = project.candidates.map(({ id }) => id)
    const reach = {
      assemblyC: 20,
      worstC: 70,
      worstDb: 1,
      rootSumSquareDb: 1,
      worstCornerDb: 1,
    }
    const candidates = [
      {
        ...evaluatedAs({ temperature: { ...reach, reachC: [-12.4, 71.6] } }),
        id: dry ?? '',
      },
      {
        ...evaluatedAs({ temperature: { ...reach, reachC: [-65, 150] } }),
        id: stub ?? '',
      },
    ]
    const tables = tablesIn(comparisonSection.build(contextOf(candidates, {}, project)))
    const rows = readRows(tables.find(({ id }) => id === 'comparison')).filter(([label]) =>
      label?.endsWith(', °C'),
    )
    expect(rows).toEqual([
      ['Usable temperature range, from, °C', '−12', 'below −65'],
      ['Usable temperature range, to, °C', '72', 'above 150'],
    ])
  })

  test('of one design is none', () => {
    expect(comparisonSection.build(contextOf([plainCandidate()]))).toEqual([])
  })
})

describe('requirements, questions and evidence', () => {
  test('the conditions state what is given and leave out what is not', () => {
    const project = twoDesigns()
    const labels = () => readRows(tablesIn(jobSection.build(contextOf([], {}, project)))[0])
    expect(labels().map(([label]) => label)).toEqual([
      'Direction of light',
      'Wavelength',
      'Channels',
      'Channel pitch',
      'Alignment-station accuracy',
    ])
    const { station } = project.requirements
    project.requirements = {
      ...project.requirements,
      channels: 1,
      powerIn: quantityOf(20, 'mW'),
      station: {
        lateral: quantityOf(0.5, 'um'),
        axial: quantityOf(1, 'um'),
        angular: quantityOf(0.1, 'deg'),
        active: { lateral: quantityOf(0.2, 'um') },
      } as typeof station,
    }
    expect(labels().slice(2)).toEqual([
      ['Channels', '1'],
      ['Launch power', '20 mW'],
      ['Alignment-station accuracy', '± 0.5 µm lateral, ± 1 µm axial, ± 0.1° angular'],
      ['Residual after active alignment', '± 0.2 µm lateral'],
    ])
  })

  test('an estimated loss is asked about once, with all its designs; nothing else is', () => {
    const line = (label: string, lossDb: number, provenance: 'estimate' | 'measured' = 'estimate') => ({
      ...plainCandidate().lines[0]!,
      id: label,
      label,
      lossDb,
      provenance,
      share: 0,
    })
    const lines = [line('taper', 0.25), line('clean', 0), line('splice', 0.1, 'measured')]
    const context = contextOf(
      [plainCandidate({ name: 'A', lines }), plainCandidate({ id: 'b', name: 'B', lines })],
      { choice: null },
      reviewed({ openQuestions: ['Who aligns?'] }),
    )
    expect(wordsIn(questionsSection.build(context))).toEqual([
      'Who aligns?',
      'taper: 0.25 dB is an estimate; confirm it (A; B).',
    ])
    expect(questionsSection.build(contextOf([plainCandidate({ lines: [] })], { choice: null }))).toEqual([])
  })

  test('a measurement with its file has a line for each result, or the reason for none', () => {
    const cell = (value: number) => ({ value, text: String(value) })
    const from = {
      method: 'Loopback',
      fileName: 'a.csv',
      date: '2026-11-20',
      refused: '',
    }
    const rows = [
      {
        label: 'Loss per facet',
        value: cell(1.2),
        expanded: cell(0.1),
        unit: 'dB',
      },
      { label: 'P95', value: cell(2), expanded: null, unit: 'dB' },
    ]
    const evidence = [
      { ...from, name: 'A', rows },
      { ...from, name: 'B', rows: [], refused: 'one length only' },
    ]
    const origin = ['Loopback', 'a.csv, 2026-11-20']
    expect(readRows(tablesIn(evidenceSection.build(contextOf([], { evidence })))[0])).toEqual([
      ['A', ...origin, 'Loss per facet', '1.2', '0.1', 'dB'],
      ['A', ...origin, 'P95', '2', '', 'dB'],
      ['B', ...origin, 'no result: one length only', '', '', ''],
    ])
    expect(evidenceSection.build(contextOf([]))).toEqual([])
  })
})
