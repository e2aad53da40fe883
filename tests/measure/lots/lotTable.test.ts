// A lot table of any make becomes a measurement of the project and a summary.

import { describe, expect, test } from 'vitest'
import { evaluateMeasurement, newMeasurement, readMeasurement } from '../../../src/measure'
import { demoProject, parseProject, projectText } from '../../../src/model'

const read = (text: string, answers = {}) => {
  const reading = readMeasurement(new TextEncoder().encode(text), 'lot.csv', answers)
  if (reading.kind !== 'lot') throw new Error(`a ${reading.kind}`)
  return reading
}

function summary(text: string, answers = {}) {
  const origin = {
    id: 'measurement-1',
    fileName: 'lot.csv',
    date: '2026-03-14',
  }
  const measurement = newMeasurement(read(text, answers), {}, origin)
  if (measurement === null) throw new Error('nothing to take')
  const project = { ...demoProject(), measurements: [measurement] }
  const [back] = parseProject(JSON.parse(projectText(project))).measurements
  const result = evaluateMeasurement(back!)
  if (result.method !== 'lot') throw new Error('no lot')
  return result.lot
}

const LONG = `# insertion loss after cure
Assembly;Channel;Insertion loss [dB];Return loss [dB];Date;Wafer
B-2;1;1,20;52;15.03.2026;W1
B-2;2;1,40;48;15.03.2026;W1
A-1;1;0,90;55;14.03.2026;W1
A-1;2;1,10;51;14.03.2026;W1
C-3;1;2,00;50;16.03.2026;W2
C-3;2;2,20;60;16.03.2026;W2
`

test('one row per channel: decimal comma, dates, batches; assemblies in the order of their dates', () => {
  const reading = read(LONG)
  expect(reading.doubts).toEqual([])
  expect(reading.counts).toEqual({ losses: 6, assemblies: 3, channels: 2 })
  const lot = summary(LONG)
  expect(lot.assemblies.map(({ name }) => name)).toEqual(['A-1', 'B-2', 'C-3'])
  expect(lot.assemblies.map(({ meanDb }) => Number(meanDb.toPrecision(6)))).toEqual([1, 1.3, 2.1])
  expect(lot.channels.map(({ meanDb }) => Number(meanDb.toPrecision(6)))).toEqual([1.36667, 1.56667])
  expect(lot.lowestReturnLossDb).toBe(48)
  // 2026-03-14 is 20526 days after 1970-01-01 (56 years of 365 days, 14 leap days, 31 + 28 + 13).
  expect(lot.assemblies[0]!.day).toBe(56 * 365 + 14 + 31 + 28 + 13)
  expect(lot.variances.components.map(({ name }) => name)).toContain('assembly')
})

test('decimal points in a table with semicolons, and decimal commas, are what makes more losses numbers', () => {
  const points = LONG.replace(/(\d),(\d\d);/g, '$1.$2;')
  expect(points).toContain('1.20;')
  expect(summary(points)).toEqual(summary(LONG))
})

test('the preview shows every loss over its row, counted from 1', () => {
  const { preview } = read(LONG)
  expect(Array.from(preview.x)).toEqual([1, 2, 3, 4, 5, 6])
  expect(Array.from(preview.y)).toEqual([1.2, 1.4, 0.9, 1.1, 2, 2.2])
})

test('one row per assembly with a column per channel gives the same lot', () => {
  const wide = 'module,ch1,ch2\nA-1,0.9,1.1\nB-2,1.2,1.4\nC-3,2.0,2.2\n'
  const [a, b] = [summary(wide), summary(LONG)]
  expect(a.meanDb).toBeCloseTo(b.meanDb, 12)
  expect(a.channels.map(({ name, losses }) => [name, losses])).toEqual([
    ['ch1', 3],
    ['ch2', 3],
  ])
})

test('decimal points stay so whatever separates the columns, and a lot that rises from batch to batch has its trend', () => {
  const losses = [1, 1.1, 1.5, 1.6, 2, 2.1, 2.5, 2.6]
  const lines = losses.map((loss, i) => `A-${i};${loss.toFixed(2)};W${Math.floor(i / 2)}`)
  const lot = summary(['serial no;IL [dB];batch', ...lines].join('\n'))
  expect(lot.meanDb).toBeCloseTo(1.8, 12)
  // Batches of two, each half a dB above the one before.
  expect(lot.trend?.from).toBe('batches')
  expect(lot.trend?.slope).toBeCloseTo(0.25, 12)
  const shuffled = losses.map((loss, i) => `A-${i};${loss.toFixed(2)};W${i % 2}`)
  expect(summary(['serial no;IL [dB];batch', ...shuffled].join('\n')).trend?.from).toBe('assemblies')
})

describe('what is not certain is asked', () => {
  test('days and months that could be either way round', () => {
    const text = 'assembly,loss,date\nA,1,03/04/2026\nB,2,05/04/2026\n'
    const [doubt] = read(text).doubts
    expect(doubt!.assumed).toBe('month first')
    const days = (answers = {}) => summary(text, answers).assemblies.map(({ day }) => day)
    expect(days()[1]! - days()[0]!).toBe(61)
    const dayFirst = days({ 'date-order': 'day first' })
    expect(dayFirst[1]! - dayFirst[0]!).toBe(2)
  })

  test('losses below zero, and a column with an unknown heading', () => {
    const text = 'serial no,IL,remark\nA,-1.5,good\nB,-2.5,good\n'
    const reading = read(text)
    expect(reading.doubts.map(({ id }) => id).sort()).toEqual(['role:2', 'sign'])
    expect(summary(text).meanDb).toBe(2)
    expect(summary(text, { sign: 'losses, some negative' }).meanDb).toBe(-2)
  })

  test('a table that is no lot by its headings can be read as one', () => {
    const text = 'name,value\nA,1.5\nB,2.5\n'
    const reading = read(text, { kind: 'lot' })
    expect(reading.findings.map(({ severity }) => severity)).toEqual(['error', 'error'])
    expect(summary(text, { kind: 'lot', 'role:0': 'assembly', 'role:1': 'loss' }).meanDb).toBe(2)
  })
})

test('rows without a loss, an assembly or a date are refused with their line and the reason', () => {
  const text =
    'assembly,loss,date\nA,1.0,2026-03-14\n,1.0,2026-03-14\nB,open,2026-03-14\nC,2.0,soon\nD,3.0,2026-03-15\n'
  expect(read(text).refusedLines.map(({ line, reason }) => `${line} ${reason}`)).toEqual([
    '3 has no assembly name',
    '4 loss holds "open", not a number',
    '5 date holds "soon", not a date',
  ])
})

test('a length series stays a loopback series', () => {
  const text = 'length [mm],insertion loss [dB]\n10,3.1\n20,3.2\n30,3.4\n'
  expect(readMeasurement(new TextEncoder().encode(text), 'l.csv').kind).toBe('table')
})

test('rows of a project file that name no assembly, or are too few, are refused by place', () => {
  const origin = {
    id: 'measurement-1',
    fileName: 'lot.csv',
    date: '2026-03-14',
  }
  const measurement = newMeasurement(read(LONG), {}, origin)
  if (measurement?.method !== 'lot') throw new Error('no lot')
  const { rows } = measurement
  const [label] = rows.labels
  const broken = (change: object) =>
    parseProject(
      JSON.parse(
        projectText({
          ...demoProject(),
          measurements: [{ ...measurement, rows: { ...rows, ...change } }],
        } as ReturnType<typeof demoProject>),
      ),
    )
  expect(() => broken({ labels: [{ ...label, names: ['A'] }] })).toThrow(
    /must be a whole number from 0, below 1/,
  )
  expect(() => broken({ lossDb: { type: 'u1', count: 1, base64: 'AQ==' } })).toThrow(/one for each loss/)
})
