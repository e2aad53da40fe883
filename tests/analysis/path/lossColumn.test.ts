// Samples are worked out in columns; each must be what the chain says of it alone, to the last bit.

import { expect, test } from 'vitest'
import { lossColumn } from '../../../src/analysis/path/lossColumn'
import { columnsFor } from '../../../src/analysis/path/vector/columns'
import { readerAt } from '../../../src/analysis/path/vector/valueReaders'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { matchedProject, normal } from '../yield/cases'

const CHUNK = 32
const COUNTS = [CHUNK, CHUNK, 5]

const within = (value: number, unit: 'um' | 'deg' | 'dB' | '1', plusMinus: number) => ({
  ...quantityOf(value, unit),
  tolerance: { plusMinus, distribution: 'uniform' } as const,
})

/** Losses in columns, chunk by chunk, beside those of the same samples one by one. */
function bothWays(project: Project, id: string) {
  const result = assemblyOf(project, id)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  const { compiled, draws } = result.value
  const width = draws.slots.length
  const points = unitPoints('random', width, 7)
  const columns = columnsFor(draws.slots, compiled.nominal, CHUNK)
  const losses = lossColumn(compiled, columns)
  const drawn = new Float64Array(width * CHUNK)
  const inColumns: number[] = []
  const alone: number[] = []
  for (const [chunk, count] of COUNTS.entries()) {
    points.fill(chunk * CHUNK, count, columns.sampled, 1, CHUNK)
    draws.fill(count, columns)
    inColumns.push(...losses().slice(0, count))
    points.fill(chunk * CHUNK, count, drawn)
    draws.deviate(drawn, count)
    for (let i = 0; i < count; i++) {
      const v = compiled.nominal.slice()
      draws.set(drawn, i * width, v)
      alone.push(compiled.lossDb(v))
    }
  }
  return { inColumns, alone, joins: compiled.joins }
}

const gapOf = (change: Partial<GapElement>) => matchedProject(6, 2, change)
const tolerant = {
  gap: within(4, 'um', 3),
  offsetX: within(0.5, 'um', 1),
  offsetY: within(-0.5, 'um', 1),
  tiltX: within(0.2, 'deg', 1),
  tiltY: within(-0.3, 'deg', 1),
  roll: within(1, 'deg', 20),
}
const bondShift = { x: within(0.2, 'um', 0.3), y: within(0, 'um', 0.2), z: within(1, 'um', 0.9) }

/** A glass fibre of an elliptical mode before a facet of another. */
function inGlass(change: Partial<GapElement>): Project {
  const project = gapOf({ ...tolerant, ...change })
  for (const fibre of project.fibres) {
    fibre.index = { kind: 'value', index: quantityOf(1.45, '1') }
    fibre.mode = { kind: 'mfd', mfdX: within(6, 'um', 0.3), mfdY: within(5, 'um', 0.3) }
  }
  for (const facet of project.facets) {
    facet.index = { kind: 'value', index: within(2, '1', 0.05) }
    facet.mfdX = within(3, 'um', 0.3)
    // One sample in six would gain light, and is taken at the end of the range.
    facet.taperLoss = { ...quantityOf(0.05, 'dB'), tolerance: normal(0.05) }
  }
  return project
}

/** The cladding meets the chip 15 um before the facet. */
function beforeLedge(project: Project): Project {
  for (const facet of project.facets) {
    facet.chipEdge = {
      recess: quantityOf(15, 'um'),
      ledgeDepth: quantityOf(10, 'um'),
      chipThickness: quantityOf(700, 'um'),
    }
  }
  return project
}

/** MFD y of the facet follows MFD x. */
function ofOneWidth(project: Project): Project {
  for (const facet of project.facets) facet.oneWidth = true
  return project
}

const angled = { nearFaceAngle: within(8, 'deg', 0.5), farFaceAngle: within(-5, 'deg', 0.5) }
const cases: readonly (readonly [string, Project])[] = [
  ['flat faces', inGlass({})],
  ['faces angled in x', inGlass(angled)],
  ['faces angled in y, guides parallel', inGlass({ ...angled, facePlane: 'y', pointing: 'parallel' })],
  ['a joint that moves as it cures', inGlass({ bondShift })],
  ['a facet of one width', ofOneWidth(inGlass({}))],
  ['a gap whose tolerance reaches past contact', inGlass({ gap: within(0.5, 'um', 4) })],
  ['a gap whose tolerance reaches past a ledge', beforeLedge(inGlass({ gap: within(16, 'um', 4) }))],
  ['an offset beyond all light', inGlass({ offsetX: within(30, 'um', 29) })],
]

test.each(cases)('%s: a column holds what each sample loses alone', (_, project) => {
  const { inColumns, alone, joins } = bothWays(project, 'matched')
  expect(joins[0]?.gapJoint).toBeDefined()
  expect(new Set(alone).size).toBeGreaterThan(CHUNK)
  expect(inColumns).toEqual(alone)
})

test.each(['cleaved-dry', 'high-na-bonded', 'lensed-fibre', 'on-chip-taper'])(
  'the demo %s: a column holds what each sample loses alone',
  (id) => {
    const { inColumns, alone } = bothWays(demoProject(), id)
    expect(inColumns).toEqual(alone)
  },
)

test('a gap that a station aligns, whose face is coated or whose loss is entered is not worked out in columns', () => {
  const coating = { kind: 'reflectance', reflectance: quantityOf(1, '%') } as const
  const others: readonly Partial<GapElement>[] = [
    { aligned: ['offsetX'] },
    { nearCoating: coating },
    { farCoating: coating },
    { typedLoss: within(1, 'dB', 0.5) },
  ]
  for (const change of others) {
    const { inColumns, alone, joins } = bothWays(inGlass(change), 'matched')
    expect(joins[0]?.gapJoint).toBeUndefined()
    expect(inColumns).toEqual(alone)
  }
})

test('a column is worked out once for the vectors at hand, from the places that it reads', () => {
  const columns = columnsFor([1, 2], Float64Array.of(10, 20, 30), 4)
  let calls = 0
  const sum = (v: Float64Array) => {
    calls++
    return (v[0] ?? 0) + (v[1] ?? 0) + (v[2] ?? 0)
  }
  const column = columns.columnOf(sum)
  expect(columns.columnOf(sum)).toBe(column)
  columns.sampledAt(1).set([1, 2])
  columns.sampledAt(2).set([3, 4])
  columns.begin(2)
  column()
  expect(column().slice(0, 2)).toEqual(Float64Array.of(14, 16))
  expect(calls).toBe(2)
  columns.sampledAt(2).set([5])
  columns.begin(1)
  expect(column()[0]).toBe(16)
  expect(columns.columnOf(readerAt(0))()).toEqual(Float64Array.of(10, 10, 10, 10))
  expect(columns.columnOf(readerAt(1))()).toBe(columns.sampledAt(1))
  expect(() => columns.sampledAt(0)).toThrow('value 0 has no column')
})
