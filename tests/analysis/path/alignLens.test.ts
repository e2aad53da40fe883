// A lens that is aligned on power: where brute force over its offsets finds the least loss, in the order that is stated, and
// with its tolerance as what the search leaves.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { type CompiledCandidate, compileCandidate } from '../../../src/analysis/path/compileCandidate'
import type { Assembly } from '../../../src/analysis/yield/assembly'
import { assumptionsOf } from '../../../src/analysis/yield/assumptions'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { LensPlace, RelayElement } from '../../../src/model/schema/candidate'
import { familiesProject, relayElement } from '../support/families'

const fixed = quantityOf(0, 'um')
const place = (x: number, y: number, plusMinus?: number): LensPlace => ({
  offsetX: quantityOf(x, 'um', 'estimate', plusMinus),
  offsetY: quantityOf(y, 'um', 'estimate', plusMinus),
  offsetZ: fixed,
  tiltX: quantityOf(0, 'deg'),
  tiltY: quantityOf(0, 'deg'),
})

/** A relay whose lens 1 stands off by 8 and -5 um and whose fibre is off by 2 and 1 um. */
function displaced(change: Partial<RelayElement> = {}): RelayElement {
  const zero = quantityOf(0, 'deg')
  return relayElement({
    frontGap: quantityOf(1000, 'um'),
    stretch: quantityOf(2, 'mm'),
    backGap: quantityOf(300, 'um'),
    lens1: place(8, -5),
    lens2: place(0, 0),
    offsetX: quantityOf(2, 'um'),
    offsetY: quantityOf(1, 'um'),
    tiltX: zero,
    tiltY: zero,
    roll: zero,
    device: undefined,
    ...change,
  })
}

function compiledWith(change: Partial<RelayElement>): CompiledCandidate {
  const result = compileCandidate(familiesProject(displaced(change)), 'relay')
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  return result.value
}

const lossOf = (change: Partial<RelayElement>) => {
  const { lossDb, nominal } = compiledWith(change)
  return lossDb(nominal)
}

/** Least loss over offsets of lens 2 that are typed in, by halving a cross of steps. */
function bruteForce(change: Partial<RelayElement>) {
  const compiled = compiledWith({ ...change, lens2: place(0, 0) })
  const at = (axis: string) =>
    compiled.variables.findIndex(({ path }) => path.at(-2) === 'lens2' && path.at(-1) === axis)
  const [ix, iy] = [at('offsetX'), at('offsetY')]
  const loss = (x: number, y: number) => {
    const v = Float64Array.from(compiled.nominal)
    v[ix] = x
    v[iy] = y
    return compiled.searchDb(v)
  }
  let best = { x: 0, y: 0, lossDb: loss(0, 0) }
  for (let step = 8; step > 1e-5; step /= 2) {
    for (let moved = true; moved; ) {
      moved = false
      for (const [dx, dy] of [
        [step, 0],
        [-step, 0],
        [0, step],
        [0, -step],
      ] as const) {
        const lossDb = loss(best.x + dx, best.y + dy)
        if (lossDb < best.lossDb) {
          best = { x: best.x + dx, y: best.y + dy, lossDb }
          moved = true
        }
      }
    }
  }
  return best
}

const assumptions = (change: Partial<RelayElement>) =>
  assumptionsOf({ compiled: compiledWith(change), temperaturesC: [] as readonly number[] } as Assembly).join(
    ' ',
  )

const both = ['offsetX', 'offsetY'] as const
const aligned = (lens: LensPlace): LensPlace => ({ ...lens, aligned: [...both] })

describe('lens 2 aligned on power', () => {
  test('stands where brute force finds the least loss, and its value counts from there', () => {
    const best = bruteForce({})
    expect(Math.hypot(best.x, best.y)).toBeGreaterThan(1)
    expect(lossOf({})).toBeGreaterThan(best.lossDb + 1)
    expect(lossOf({ lens2: aligned(place(0, 0)) })).toBeCloseTo(best.lossDb, 3)
    const off = compiledWith({ lens2: place(best.x + 0.4, best.y - 0.3) })
    expect(lossOf({ lens2: aligned(place(0.4, -0.3)) })).toBeCloseTo(off.lossDb(off.nominal), 3)
  })

  test('one axis alone leaves the other as placed', () => {
    const lens2: LensPlace = { ...place(0, 0.7), aligned: ['offsetX'] }
    const compiled = compiledWith({ lens2: place(0, 0.7) })
    const x = compiled.variables.findIndex(({ path }) => path.at(-2) === 'lens2' && path.at(-1) === 'offsetX')
    const scan = Array.from({ length: 4001 }, (_, i) => {
      const v = Float64Array.from(compiled.nominal)
      v[x] = (i - 2000) / 200
      return compiled.lossDb(v)
    })
    expect(lossOf({ lens2 })).toBeCloseTo(Math.min(...scan), 4)
  })

  test('what the search leaves is its tolerance in worst case and yield; what it makes up for costs nothing', () => {
    const wide = { lens1: place(8, -5, 5) }
    const project = (change: Partial<RelayElement>) => familiesProject(displaced({ ...wide, ...change }))
    const placed = evaluateCandidate(project({}), 'relay')
    const exact = evaluateCandidate(project({ lens2: aligned(place(0, 0)) }), 'relay')
    const residual = evaluateCandidate(project({ lens2: aligned(place(0, 0, 0.5)) }), 'relay')
    const excess = ({ worstCorner, nominalDb }: typeof placed) => worstCorner.lossDb - nominalDb
    expect(excess(exact)).toBeLessThan(excess(placed) / 4)
    expect(excess(residual)).toBeGreaterThan(excess(exact))
    expect(assumptions({ ...wide, lens2: aligned(place(0, 0)) })).toContain(
      'lens 2 decentre x, lens 2 decentre y',
    )
  })
})

test('the order decides: who comes last makes up for what the others leave', () => {
  // A residual of 1 um at lens 2 is made up for by the fibre only if the fibre comes after it.
  const change = { lens2: aligned(place(1, 0)), aligned: [...both], offsetX: fixed, offsetY: fixed }
  const lensFirst = lossOf({ ...change, alignOrder: ['lens2', 'guide'] })
  const fibreFirst = lossOf({ ...change, alignOrder: ['guide', 'lens2'] })
  expect(fibreFirst).toBeGreaterThan(lensFirst + 0.1)
  expect(lossOf(change)).toBe(lensFirst)
  expect(assumptions({ ...change, alignOrder: ['guide', 'lens2'] })).toContain(
    'in the order fibre side, then lens 2',
  )
})
