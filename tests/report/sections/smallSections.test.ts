// Short sections on results known beforehand: what is asked for, assumed, missing and left for another page.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { statedRequirements } from '../../../src/model/project/statedRequirements'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import type { SheetCandidate } from '../../../src/report/candidates'
import { assumptionsSection } from '../../../src/report/sections/assumptions'
import { comparisonSection } from '../../../src/report/sections/comparison'
import { jobSection } from '../../../src/report/sections/job'
import { otherBudgetsSection } from '../../../src/report/sections/loss/otherBudgets'
import { windowsSection } from '../../../src/report/sections/loss/windows'
import { missingRuns, missingText, runOffer } from '../../../src/report/summary/missingRuns'
import { matchedProject } from '../../analysis/yield/cases'
import { twoDesigns } from '../../support/twoDesigns'
import {
  contextOf,
  evaluatedAs,
  plainCandidate,
  readRows,
  tablesIn,
  wordsIn,
} from '../support/sectionContext'

const demo = twoDesigns()

describe('requirements and application', () => {
  const built = (more: object) =>
    jobSection.build(contextOf([plainCandidate()], {}, { ...demo, ...more } as Project))
  const priorities = (requirements: object) =>
    new Map(
      readRows(tablesIn(built({ requirements: { ...demo.requirements, ...requirements } }))[1]).map(
        ([label = '', priority = '']) => [label, priority],
      ),
    )

  test('begin with the remark where there is one', () => {
    expect(wordsIn(built({ remark: 'For the second prototype.' }))).toEqual(['For the second prototype.'])
    expect(wordsIn(built({ remark: '' }))).toEqual([])
    expect(wordsIn(built({ remark: undefined }))).toEqual([])
  })

  test('name what is desirable; all else is mandatory', () => {
    const plain = priorities({})
    expect(plain.size).toBeGreaterThan(2)
    expect(new Set(plain.values())).toEqual(new Set(['mandatory']))
    const [, second] = statedRequirements(demo.requirements)
    const wishes = priorities({ wishes: [second?.id] })
    expect([...wishes].filter(([, priority]) => priority === 'desirable')).toEqual([
      [second?.label, 'desirable'],
    ])
  })

  test('state the pitch of several channels only', () => {
    const conditions = (channels: number) =>
      readRows(tablesIn(built({ requirements: { ...demo.requirements, channels } }))[0]).map(
        ([label]) => label,
      )
    expect(conditions(2)).toContain('Channel pitch')
    expect(conditions(1)).not.toContain('Channel pitch')
  })
})

test('assumptions end with what limits the model for this design, where something does', () => {
  const words = (validity: readonly object[]) =>
    wordsIn(assumptionsSection.build(contextOf([evaluatedAs({ validity: validity as never })])))
  expect(words([]).join()).not.toMatch(/Validity of the model/)
  expect(words([{ message: 'Modes are not round.' }, { message: 'The gap is wide.' }]).slice(-3)).toEqual([
    'Validity of the model',
    'Modes are not round.',
    'The gap is wide.',
  ])
  expect(wordsIn(assumptionsSection.build(contextOf([]))).join()).not.toMatch(/Validity of the model/)
})

test('budgets of the other designs are those of all but the proposed one', () => {
  const other = plainCandidate({ id: 'b', name: 'Other design' })
  const captions = (candidates: readonly SheetCandidate[]) =>
    tablesIn(otherBudgetsSection.build(contextOf(candidates))).map(({ caption }) => caption)
  expect(captions([plainCandidate()])).toEqual([])
  expect(captions([plainCandidate(), other])).toEqual([expect.stringContaining('Other design')])
  expect(captions([other, plainCandidate()])).toEqual([expect.stringContaining(plainCandidate().name)])
})

describe('missing runs', () => {
  const run = {} as never
  const channels = (count: number, losses = demo.requirements.losses) =>
    ({ ...demo, requirements: { ...demo.requirements, channels: count, losses } }) as Project
  const own = plainCandidate({ id: 'a', name: 'A' })
  const kinds = (candidates: readonly SheetCandidate[], project: Project, chosen = 'a') =>
    missingRuns(project, candidates, chosen).map(({ candidateId, kind }) => `${candidateId} ${kind}`)
  const two = [own, plainCandidate({ id: 'b', name: 'B' })]
  const allChannels = [
    { id: 'x', basis: 'percentile', channels: 'all', percentile: 95, limit: quantityOf(1, 'dB') },
  ] as never

  test('are yields of all designs, and the array of the selected one', () => {
    expect(kinds(two, channels(4, []))).toEqual(['a yield', 'b yield', 'a array'])
    expect(kinds(two, channels(4, []), 'b')).toEqual(['a yield', 'b yield', 'b array'])
    expect(kinds(two, channels(4, []), 'none')).toEqual(['a yield', 'b yield'])
    expect(kinds(two, channels(1, []))).toEqual(['a yield', 'b yield'])
    expect(kinds([{ ...own, yield: run }, two[1]!], channels(4, []))).toEqual(['b yield', 'a array'])
    expect(kinds([{ ...own, yield: run, array: run }], channels(4, []))).toEqual([])
  })

  test('are the arrays of all where a limit applies to all channels together', () => {
    expect(kinds(two, channels(4, allChannels))).toEqual(['a yield', 'b yield', 'a array', 'b array'])
    expect(kinds([own, { ...two[1]!, array: run }], channels(4, allChannels))).toEqual([
      'a yield',
      'b yield',
      'a array',
    ])
    expect(kinds(two, channels(1, allChannels))).toEqual(['a yield', 'b yield'])
  })

  test('are counted in words', () => {
    const text = (...wanted: readonly ('yield' | 'array')[]) =>
      missingText(wanted.map((kind) => ({ candidateId: 'a', name: 'A', kind })))
    expect(text()).toBe('')
    expect(text('yield')).toMatch(/^Not simulated yet: 1 yield run\. /)
    expect(text('yield', 'array', 'array')).toMatch(/^Not simulated yet: 1 yield run and 2 array runs\. /)
    expect([runOffer('yield'), runOffer('array')].map((each) => each.slice(0, 31))).toEqual([
      'Not simulated yet: the yield. "',
      'Not simulated yet: the array. "',
    ])
  })
})

test('alignment tolerances of two equal modes are those of the closed forms, on either side, in the units of their axes', () => {
  // 10.4 µm at 1550 nm without a gap: losses of 10 lg e times (d / w)² and (π w θ / λ)².
  const joints = evaluateCandidate(matchedProject(10.4, 1), 'matched').joints
  const [windows] = tablesIn(windowsSection.build(contextOf([evaluatedAs({ joints })])))
  const rows = new Map(readRows(windows).map(([axis = '', ...cells]) => [axis, cells]))
  const heads = windows?.columns.map(({ label }) => label) ?? []
  const level = (heads.indexOf('1 dB, negative side') > 0 ? heads.indexOf('1 dB, negative side') : 2) - 1
  const numbers = (pattern: RegExp) => {
    const cells = [...rows].find(([axis]) => pattern.test(axis))?.[1] ?? []
    return [
      cells[0],
      ...cells.slice(level, level + 2).map((each) => Number(each.replace('−', '-'))),
      Number(cells.at(-1)?.replace('−', '-')),
    ]
  }
  const offset = 5.2 * Math.sqrt(Math.LN10 / 10)
  expect(numbers(/offset.*x/i)).toEqual([
    'µm',
    expect.closeTo(-offset, 1),
    expect.closeTo(offset, 1),
    expect.closeTo(0, 2),
  ])
  const tilt = ((1.55 / (Math.PI * 5.2)) * Math.sqrt(Math.LN10 / 10) * 180) / Math.PI
  expect(numbers(/tilt.*x/i)).toEqual([
    '°',
    expect.closeTo(-tilt, 1),
    expect.closeTo(tilt, 1),
    expect.closeTo(0, 2),
  ])
  expect([...rows.values()].some((cells) => cells.includes('not reached'))).toBe(true)
})

test('the slope at a working point is the derivative of the closed form, per unit of its axis', () => {
  const joints = evaluateCandidate(
    matchedProject(10.4, 1, { offsetX: quantityOf(1, 'um'), tiltY: quantityOf(0.5, 'deg') }),
    'matched',
  ).joints
  const [windows] = tablesIn(windowsSection.build(contextOf([evaluatedAs({ joints })])))
  const slope = (pattern: RegExp) => {
    const row = readRows(windows).find(([axis = '']) => pattern.test(axis))
    return Number(row?.at(-1)?.replace('−', '-'))
  }
  // 10 lg e times (d / w)² and (π w θ / λ)².
  const perNeper = 10 / Math.LN10
  expect(slope(/offset.*x/i)).toBeCloseTo((2 * perNeper) / 5.2 ** 2, 2)
  const degree = Math.PI / 180
  expect(Math.abs(slope(/tilt.*y/i))).toBeCloseTo(
    2 * perNeper * ((Math.PI * 5.2) / 1.55) ** 2 * 0.5 * degree * degree,
    2,
  )
})

test('a comparison has no row that says nothing of any design', () => {
  const [table] = tablesIn(
    comparisonSection.build(contextOf([plainCandidate(), plainCandidate({ id: 'b', name: 'Other' })])),
  )
  const rows = readRows(table)
  expect(rows.length).toBeGreaterThan(5)
  const silent = rows.filter((row) =>
    row.slice(2).every((each) => ['', 'none', 'not known', 'not evaluated'].includes(each)),
  )
  expect(silent.map(([label]) => label)).toEqual([])
})
