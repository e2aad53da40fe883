import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { worstCorner } from '../../../src/analysis/tolerance/tolerances'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Unit } from '../../../src/model/quantity/units'
import { matchedProject } from '../yield/cases'

/** A gap off its optimum in every direction, twelve quantities toleranced: more than are tried one by one. */
function manyTolerances(seed: number) {
  const off = (at: number, size: number) => size * Math.sin(12.9 * seed + 78.2 * at)
  const around = (value: number, unit: Unit, plusMinus: number) =>
    quantityOf(value, unit, 'estimate', plusMinus)
  const project = matchedProject(3.2, 1, {
    gap: around(12, 'um', 3),
    offsetX: around(off(1, 0.1), 'um', 0.5),
    offsetY: around(off(2, 0.1), 'um', 0.5),
    tiltX: around(off(3, 0.4), 'deg', 2),
    tiltY: around(off(4, 0.4), 'deg', 2),
    roll: around(off(5, 10), 'deg', 5),
    nearFaceAngle: around(off(6, 1), 'deg', 1),
    farFaceAngle: around(off(7, 1), 'deg', 1),
  })
  const mode = { kind: 'mfd', mfdX: around(3.4, 'um', 0.2), mfdY: around(3, 'um', 0.2) } as const
  project.fibres[0]!.mode = mode
  project.facets[0]!.mfdX = around(3.6, 'um', 0.2)
  project.facets[0]!.mfdY = around(2.8, 'um', 0.2)
  const compiled = compileCandidate(project, 'matched')
  if (!compiled.ok) throw new Error('not computable')
  return compiled.value
}

/** The greatest loss of all corners, each of them tried. */
function greatestDb({ variables, nominal, lossDb }: ReturnType<typeof manyTolerances>): number {
  const places = variables.flatMap(({ spread }, at) => (spread.halfWidth > 0 ? [at] : []))
  const values = Float64Array.from(nominal)
  let most = 0
  for (let corner = 0; corner < 2 ** places.length; corner++) {
    places.forEach((at, bit) => {
      const { halfWidth } = variables[at]!.spread
      values[at] = variables[at]!.nominal + ((corner >> bit) & 1 ? halfWidth : -halfWidth)
    })
    most = Math.max(most, lossDb(values))
  }
  return most
}

describe('the worst corner of more tolerances than are tried one by one', () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('is the worst of all corners, case %d', (seed) => {
    const compiled = manyTolerances(seed)
    const found = worstCorner(compiled)
    expect(found.settings).toHaveLength(12)
    expect(found.exhaustive).toBe(false)
    expect(found.lossDb).toBeCloseTo(greatestDb(compiled), 9)
  })
})
