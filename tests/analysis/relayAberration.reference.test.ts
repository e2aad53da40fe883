// A relay through its real lenses in the budget, compared with the same reference as the optics, with parts as a user enters them.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import { settledCandidate } from '../../src/analysis/tolerance/bestSettings'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import { familiesProject } from './support/families'
import { type RealRelayRow, realRelayProject, relays, um } from './support/realRelays'

const JOINT = new Set(['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll', 'combined', 'aberration'])
const jointDb = (project: Project) =>
  evaluateCandidate(project, 'relay')
    .lines.filter((line) => line.elementId === 'relay' && JOINT.has(line.kind))
    .reduce((sum, { lossDb }) => sum + lossDb, 0)

/** The relay of a reference row at other distances, entered or reached by a move. */
function movedAberration(row: RealRelayRow, frontUm: number, backUm: number) {
  const project = realRelayProject(row)
  const aberration = (frontBy: number, backBy: number, of: Project) => {
    const compiled = compileCandidate(of, 'relay')
    if (!compiled.ok) throw new Error('the relay compiles')
    const { lines, nominal, variables } = compiled.value
    const v = Float64Array.from(nominal)
    for (const [name, by] of [
      ['frontGap', frontBy],
      ['backGap', backBy],
    ] as const) {
      const slot = variables.findIndex(({ path }) => path.at(-1) === name)
      v[slot] = (v[slot] ?? 0) + by
    }
    return lines.find(({ kind }) => kind === 'aberration')?.lossDb(v) ?? Number.NaN
  }
  const typed = realRelayProject({
    ...row,
    frontGapUm: row.frontGapUm + frontUm,
    backGapUm: row.backGapUm + backUm,
  })
  return { moved: aberration(frontUm, backUm, project), typed: aberration(0, 0, typed) }
}

test('worst case and samples read the aberration from a polynomial that is good to 0.01 dB over two Rayleigh ranges', () => {
  for (const row of relays) {
    for (const [front, back] of [
      [5, 1],
      [-30, -4],
      [70, 8],
      [-80, -9],
    ] as const) {
      const { moved, typed } = movedAberration(row, front, back)
      expect(Math.abs(moved - typed)).toBeLessThan(0.01)
    }
  }
})

test('conic and aspheric terms of the data sheet are traced: a hyperbolic face takes most of the aberration away', () => {
  const [row] = relays
  if (row === undefined) throw new Error('a row')
  const aberration = (project: Project) =>
    evaluateCandidate(project, 'relay').lines.find(({ kind }) => kind === 'aberration')?.lossDb ?? Number.NaN
  const project = realRelayProject(row)
  const spherical = aberration(project)
  const [lens] = project.lenses
  if (lens?.shape.kind !== 'plano-convex') throw new Error('a plano-convex lens')
  lens.shape.conic = -(1.44402 ** 2)
  expect(aberration(project)).toBeLessThan(spherical - 0.2)
  lens.shape.conic = 0
  // A4 that makes the sphere flatter at its edge, as a conic of about -2 does: c^3 conic / 8 in mm^-3.
  lens.shape.aspheric = [(-(1.44402 ** 2) / 8) * (1 / 0.5) ** 3]
  expect(aberration(project)).toBeLessThan(spherical - 0.2)
})

describe('the rays of the drawing', () => {
  const [row] = relays
  const project = realRelayProject(row as RealRelayRow)
  const raysOf = (of: Project) => {
    const [view] = evaluateCandidate(of, 'relay').relays
    if (view === undefined) throw new Error('a relay')
    return view
  }

  test('go from face to face, mirror images of each other, the middle one along the axis', () => {
    const { rays, lengthUm, lenses } = raysOf(project)
    expect(rays.x.length).toBeGreaterThanOrEqual(9)
    for (const { zUm, heightUm } of rays.x) {
      expect(zUm[0]).toBe(0)
      expect(zUm.at(-1)).toBeCloseTo(lengthUm, 6)
      expect(zUm).toHaveLength(6)
      expect(Math.abs(heightUm[1] ?? 0)).toBeLessThan(lenses[0].apertureDiameterUm / 2)
    }
    const ends = rays.x.map(({ heightUm }) => heightUm.at(-1) ?? 0)
    ends.forEach((end, i) => {
      expect(end).toBeCloseTo(-(ends.at(-1 - i) ?? 0), 6)
    })
    const middle = rays.x[(rays.x.length - 1) / 2]
    for (const height of middle?.heightUm ?? [1]) expect(height).toBeCloseTo(0, 9)
  })

  test('follow a decentred lens as the chief ray of paraxial optics does', () => {
    const moved = structuredClone(project)
    const relay = moved.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (relay?.kind !== 'relay') throw new Error('a relay')
    relay.lens1.offsetX = um(2)
    relay.lens2.tiltX = quantityOf(0.5, 'deg')
    const { rays, path } = raysOf(moved)
    const middle = rays.x[(rays.x.length - 1) / 2]
    const end = middle?.heightUm.at(-1) ?? 0
    expect(Math.abs(end)).toBeGreaterThan(0.3)
    expect(end).toBeCloseTo(path.at(-1)?.chiefXUm ?? 0, 1)
    expect(rays.y[(rays.y.length - 1) / 2]?.heightUm.at(-1)).toBeCloseTo(0, 9)
  })
})

test('a lens known by its focal length is assumed free of aberration, and a note says so', () => {
  const { lines, validity } = evaluateCandidate(familiesProject(), 'relay')
  expect(lines.some(({ kind }) => kind === 'aberration')).toBe(false)
  const notes = validity.filter(({ message }) => message.includes('assumed free of aberration'))
  expect(notes).toHaveLength(1)
})

describe.each(relays.map((row, i) => ({ i, row })))('relay $i of the reference in the budget', ({ row }) => {
  const project = realRelayProject(row)
  const round = row.farMfdUm[0] === row.farMfdUm[1]

  test('at the paraxial gaps', () => {
    expect(Math.abs(jointDb(project) - row.realDb)).toBeLessThan(round ? 0.15 : 0.3)
    const { lines, nominalDb, validity } = evaluateCandidate(project, 'relay')
    expect(lines.reduce((sum, { lossDb }) => sum + lossDb, 0)).toBeCloseTo(nominalDb, 9)
    const aberration = lines.find(({ kind }) => kind === 'aberration')?.lossDb ?? 0
    const cautious = validity.some(({ message, caution }) => caution && message.startsWith('Aberration'))
    expect(cautious).toBe(Math.abs(aberration) > 0.1)
  })

  test('the best settings find the real optimum', () => {
    const candidate = project.candidates.find(({ id }) => id === 'relay')
    if (candidate === undefined) throw new Error('relay')
    const settled = settledCandidate({ ...project, candidates: [] }, candidate)
    const best = { ...project, candidates: [settled] }
    expect(jointDb(best) - row.realBothRefocusedDb).toBeLessThan(round ? 0.15 : 0.3)
  })
})

describe('guides and lenses off their places', () => {
  const AXES = ['offsetX', 'offsetY', 'tiltX', 'tiltY'] as const
  /** A relay with its far lens so near its optimum that every movement matters. */
  const [planoAndBall, balls] = relays
  const rows = [planoAndBall, balls].map((row) => {
    if (row === undefined) throw new Error('two rows')
    return { ...row, frontGapUm: row.bothRefocusedUm[0], backGapUm: row.bothRefocusedUm[1] }
  })
  const relayOf = (project: Project) => {
    const element = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (element?.kind !== 'relay') throw new Error('a relay')
    return element
  }
  /** Small numbers of both signs, the same in every run. */
  const draw = (seed: number, i: number) => ((seed * 31 + i * 17 + 7) % 41) / 20 - 1

  test('what a sample adds is what skew rays find for a relay built so', () => {
    const compiledOf = (project: Project) => {
      const compiled = compileCandidate(project, 'relay')
      if (!compiled.ok) throw new Error('the relay compiles')
      return compiled.value
    }
    const changes: number[] = []
    let counted = 0
    for (const row of rows) {
      const project = realRelayProject(row)
      const { lines, variables, nominal } = compiledOf(project)
      const line = lines.find(({ kind }) => kind === 'aberration')
      const nominalDb = line?.lossDb(nominal) ?? Number.NaN
      for (let seed = 1; seed <= 4; seed++) {
        const built = realRelayProject(row)
        const relay = relayOf(built)
        const v = Float64Array.from(nominal)
        for (const [p, slot] of ([relay, relay.lens1, relay.lens2] as const).entries()) {
          for (const [i, axis] of AXES.entries()) {
            const { tolerance } = slot[axis]
            const by = draw(seed, 4 * p + i) * (tolerance?.plusMinus ?? 0) * 0.7
            slot[axis] = { ...slot[axis], value: by }
            const owner = [relay, 'lens1', 'lens2'][p]
            const at = variables.findIndex(
              ({ path }) =>
                path.at(-1) === axis && (p === 0 ? typeof path.at(-2) === 'number' : path.at(-2) === owner),
            )
            v[at] = by * (axis.startsWith('tilt') ? Math.PI / 180 : 1)
          }
        }
        const typed = compiledOf(built)
        const at = typed.lines
          .filter((each) => JOINT.has(each.kind))
          .map((each) => each.lossDb(typed.nominal))
        if (at.reduce((sum, lossDb) => sum + lossDb, 0) > 3) continue
        counted++
        const moved = line?.lossDb(v) ?? Number.NaN
        const exact =
          typed.lines.find(({ kind }) => kind === 'aberration')?.lossDb(typed.nominal) ?? Number.NaN
        expect(Math.abs(moved - exact)).toBeLessThan(0.03)
        changes.push(Math.abs(exact - nominalDb))
      }
    }
    expect(counted).toBeGreaterThan(4)
    // Held constant, the aberration would be off by more than that.
    expect(Math.max(...changes)).toBeGreaterThan(0.1)
  })
})
