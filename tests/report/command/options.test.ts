// The words of both commands, one at a time and at their limits.

import { describe, expect, test } from 'vitest'
import { demoProject } from '../../../src/model/index'
import { readEvaluateOptions, readSweep } from '../../../src/report/command/evaluateOptions'
import { readOptions } from '../../../src/report/command/options'
import { findField, readChange, withChange } from '../../../src/report/command/projectChange'
import { FORMATS } from '../../../src/report/formats'

const ids = FORMATS.map(({ id }) => id)

describe('words of the sheet command', () => {
  const read = (...more: readonly string[]) => readOptions(['a.json', '--out', 'o', ...more], '2026-01-01')

  test('are what they say, and what is missing is the usual', () => {
    expect(read()).toEqual({
      ...{ projectPath: 'a.json', outFolder: 'o', formatIds: ids, date: '2026-01-01', beforePath: null },
      ...{
        revision: null,
        designId: null,
        paper: null,
        samples: 20_000,
        arrays: 1024,
        figures: false,
        order: false,
      },
    })
    expect(
      readOptions(
        [
          '--order',
          '--samples',
          '0',
          '--arrays',
          '200000',
          '--before',
          'b.json',
          '--revision',
          'r1',
          'p.json',
          '--paper',
          'A4',
        ].concat([
          '--format',
          `${ids[1]},${ids[0]}`,
          '--figures',
          '--design',
          'd',
          '--out',
          'x',
          '--date',
          '2024-02-29',
        ]),
        '2026-01-01',
      ),
    ).toEqual({
      ...{
        projectPath: 'p.json',
        outFolder: 'x',
        formatIds: [ids[1], ids[0]],
        date: '2024-02-29',
        beforePath: 'b.json',
      },
      ...{
        revision: 'r1',
        designId: 'd',
        paper: 'A4',
        samples: 0,
        arrays: 200_000,
        figures: true,
        order: true,
      },
    })
    expect(read('--candidate', 'd', '--blocks', '7')).toMatchObject({
      designId: 'd',
      arrays: 7,
      figures: false,
      order: false,
    })
    expect(read('--figures')).toMatchObject({ figures: true, order: false })
    expect(read('--order')).toMatchObject({ figures: false, order: true })
  })

  test.each([
    [
      ['--colour', 'red'],
      ['--colour is not an option', 'expected one project file, got 2'],
    ],
    [['--date'], ['--date needs a value']],
    [['--date', '--order'], ['--date needs a value']],
    [['b.json'], ['expected one project file, got 2']],
    [['--format', 'html,parchment'], [`--format is "parchment"; known: ${ids.join(', ')}`]],
    [['--paper', 'A9'], [expect.stringMatching(/^--paper is "A9"; known: .*A4/)]],
    [['--samples', '10000001'], ['--samples is "10000001"; must be a whole number, 0 to 10000000']],
    [['--samples', '1.5'], [expect.stringMatching(/^--samples is "1.5"/)]],
    [['--arrays', '200001'], ['--arrays is "200001"; must be a whole number, 0 to 200000']],
    [['--arrays', '-1'], [expect.stringMatching(/^--arrays is "-1"/)]],
  ] as const)('%j are refused', (words, faults) => {
    expect(read(...words)).toEqual(faults)
  })

  test('without a file or a folder are refused, each by itself', () => {
    expect(readOptions(['--out', 'o'], '2026-01-01')).toEqual(['expected one project file, got 0'])
    expect(readOptions(['a.json'], '2026-01-01')).toEqual(['--out is missing: the folder to write to'])
    expect(read('--samples', '10000000')).toMatchObject({ samples: 10_000_000 })
  })

  test.each([
    '2024-02-29',
    '2000-02-29',
    '2026-01-31',
    '2026-04-30',
    '2026-12-31',
    '2026-02-28',
    '2026-01-01',
  ])('%s is a day', (date) => {
    expect(read('--date', date)).toMatchObject({ date })
  })

  test.each([
    ...['2026-02-29', '1900-02-29', '2100-02-29', '2024-02-30', '2026-04-31', '2026-01-32', '2026-00-10'],
    ...['2026-13-01', '2026-06-00', '26-06-01', '2026-6-1', '2026-06-01T00', 'today'],
  ])('%s is none', (date) => {
    expect(read('--date', date)).toEqual([`--date is "${date}"; must be a calendar date such as 2026-11-25`])
  })
})

describe('words of the evaluate command', () => {
  test('are what they say', () => {
    expect(readEvaluateOptions(['a.json'])).toEqual({
      ...{ projectPath: 'a.json', changes: [], sweeps: [], designIds: [], samples: 0, json: false },
    })
    const words = [
      '--set',
      'x=1',
      '--json',
      '--sweep',
      'y=0:1:2',
      '--design',
      'p',
      'a.json',
      '--design',
      'q',
      '--samples',
      '10000000',
    ]
    expect(readEvaluateOptions(words)).toEqual({
      ...{
        projectPath: 'a.json',
        changes: [{ fieldPath: 'x', text: '1' }],
        designIds: ['p', 'q'],
        json: true,
      },
      ...{ sweeps: [{ fieldPath: 'y', texts: ['0', '1'] }], samples: 10_000_000 },
    })
  })

  test.each([
    [[], ['expected one project file, got 0']],
    [['a.json', 'b.json'], ['expected one project file, got 2']],
    [['a.json', '--fast'], ['--fast is not an option']],
    [['a.json', '--set'], ['--set needs a value']],
    [['a.json', '--set', '--json'], ['--set needs a value']],
    [['a.json', '--set', 'x'], ['--set is "x"; must be path=value']],
    [
      ['a.json', '--sweep', 'x=1:2'],
      [expect.stringMatching(/^--sweep is "x=1:2"; must be path=from:to:count, with a count of 2 to 10000/)],
    ],
    [['a.json', '--samples', '10000001'], ['--samples is "10000001"; must be a whole number, 0 to 10000000']],
    [['a.json', '--samples', 'many'], [expect.stringMatching(/^--samples is "many"/)]],
  ] as const)('%j are refused', (words, faults) => {
    expect(readEvaluateOptions(words)).toEqual(faults)
  })

  test('of two sweeps have the product of their points, ten thousand at most', () => {
    const grid = (a: number, b: number) =>
      readEvaluateOptions(['a.json', '--sweep', `x=0:1:${a}`, '--sweep', `y=0:1:${b}`])
    expect(grid(100, 100)).toMatchObject({ projectPath: 'a.json' })
    expect(grid(100, 101)).toEqual(['the sweeps have 10100 points together; at most 10000 are evaluated'])
  })
})

describe('a sweep', () => {
  test('goes in equal steps from one end to the other, in the unit of either', () => {
    expect(readSweep('g = 1 um : 4 : 4')).toEqual({ fieldPath: 'g', texts: ['1 um', '2 um', '3 um', '4 um'] })
    expect(readSweep('g=3:-1:3')?.texts).toEqual(['3', '1', '-1'])
    expect(readSweep('g=0.1:0.4:4')?.texts).toEqual(['0.1', '0.2', '0.3', '0.4'])
    expect(readSweep('g=1e-3 mm:2e-3 mm:2')?.texts).toEqual(['0.001 mm', '0.002 mm'])
    expect(readSweep('g=0:1:10000')?.texts).toHaveLength(10_000)
  })

  test.each([
    'g=0:1',
    'g=0:1:2:3',
    'g=0:1:1',
    'g=0:1:10001',
    'g=0:1:2.5',
    'g=a:1:3',
    'g=0:b:3',
    'g=0 um:1 mm:3',
    '=0:1:3',
    'g',
    'g=',
  ])('%s is none', (word) => {
    expect(readSweep(word)).toBeNull()
  })
})

describe('a change', () => {
  test('is a path and a text', () => {
    expect(readChange(' a.b = 3 um')).toEqual({ fieldPath: 'a.b', text: ' 3 um' })
    expect(readChange('a=b=c')).toEqual({ fieldPath: 'a', text: 'b=c' })
    expect([readChange('a'), readChange('=3'), readChange('a='), readChange('a=  ')]).toEqual([
      null,
      null,
      null,
      null,
    ])
  })

  const project = demoProject()
  const chain = project.candidates[1]!.id

  test('finds entries by number or id, and names what is known where there is none', () => {
    expect(findField(project, 'candidates[1].chain[0]')).toMatchObject({
      ok: true,
      value: ['candidates', 1, 'chain', 0],
    })
    expect(findField(project, `candidates[${chain}].name`)).toMatchObject({
      ok: true,
      value: ['candidates', 1, 'name'],
    })
    const refused = (path: string) => {
      const found = findField(project, path)
      return found.ok ? null : JSON.stringify(found)
    }
    expect(refused('')).toMatch(/is not a path such as/)
    expect(refused('a..b')).toMatch(/is not a path such as/)
    expect(refused('nothing')).toMatch(/The project has no nothing; known: .*candidates/)
    expect(refused('candidates[nobody]')).toMatch(new RegExp(`has no nobody; known: .*${chain}`))
    expect(refused('candidates[99]')).toMatch(/has no 99/)
    expect(refused('name.first')).toMatch(/has no first"/)
  })

  test('puts words, numbers and yes or no where such were, and nothing else', async () => {
    const changed = async (fieldPath: string, text: string) => {
      const found = await withChange(project, { fieldPath, text })
      return found.ok ? found.value : JSON.stringify(found)
    }
    expect(await changed('name', ' Other ')).toMatchObject({ name: 'Other' })
    expect(await changed('requirements.channels', ' 4 ')).toMatchObject({ requirements: { channels: 4 } })
    expect(await changed('requirements.channels', 'four')).toMatch(
      /is a number; it cannot be set to \\"four\\"/,
    )
    expect(await changed('candidates', '3')).toMatch(/is a list or a record, which has no single value/)
    const [flag] = Object.entries(project.requirements).find(([, value]) => typeof value === 'boolean') ?? []
    expect(flag).toBeDefined()
    for (const value of [true, false])
      expect(await changed(`requirements.${flag}`, ` ${value}`)).toMatchObject({
        requirements: { [flag ?? '']: value },
      })
    expect(await changed(`requirements.${flag}`, 'yes')).toMatch(/is a boolean; it cannot be set/)
  })
})
