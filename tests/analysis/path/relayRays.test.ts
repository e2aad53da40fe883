// Rays through the lenses of a relay, by what symmetry says of them.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import type { RayLine } from '../../../src/analysis/results/evaluation'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { LensShapeEntry } from '../../../src/model/schema/parts'
import { withoutTolerances } from '../../support/withoutTolerances'
import { familiesProject, relayElement } from '../support/families'

const ball: LensShapeEntry = { kind: 'ball', diameter: quantityOf(500, 'um') }
const um = (value: number) => quantityOf(value, 'um')
type Relay = ReturnType<typeof relayElement>

/** Rays of a relay of two balls, after a change. */
function raysOf(change: (relay: Relay) => void): {
  readonly x: readonly RayLine[]
  readonly y: readonly RayLine[]
} {
  const relay = relayElement({
    device: undefined,
    frontGap: um(120),
    stretch: quantityOf(2, 'mm'),
    backGap: um(120),
  })
  change(relay)
  const project = familiesProject(relay)
  project.lenses = ['lens-1', 'lens-2'].map((id) => ({
    id,
    name: id,
    shape: ball,
    glass: { kind: 'value', index: quantityOf(1.746, '1') },
    clearAperture: um(9000),
  }))
  return evaluateCandidate(withoutTolerances(project), 'relay').relays[0]?.rays ?? { x: [], y: [] }
}

const straight = raysOf(() => undefined)

function expectSame(found: readonly RayLine[], expected: readonly RayLine[], raisedUm = 0) {
  expect(found).toHaveLength(expected.length)
  expect(found.length).toBeGreaterThan(5)
  for (const [i, ray] of found.entries()) {
    for (const [n, heightUm] of ray.heightUm.entries()) {
      expect(heightUm).toBeCloseTo((expected[i]?.heightUm[n] ?? Number.NaN) + raisedUm, 6)
      expect(ray.zUm[n]).toBeCloseTo(expected[i]?.zUm[n] ?? Number.NaN, 6)
    }
  }
}

describe('rays through two balls', () => {
  test.each([1, 2] as const)('are those of before where ball %i is turned about its middle', (which) => {
    const turned = raysOf((relay) => {
      const lens = which === 1 ? relay.lens1 : relay.lens2
      lens.tiltX = quantityOf(1.5, 'deg')
      lens.tiltY = quantityOf(-0.7, 'deg')
    })
    expectSame(turned.x, straight.x)
    expectSame(turned.y, straight.y)
  })

  test('are raised with fibre and lenses together', () => {
    const raised = raysOf((relay) => {
      for (const own of [relay, relay.lens1, relay.lens2]) own.offsetY = um(6)
    })
    expectSame(raised.x, straight.x)
    expectSame(raised.y, straight.y, 6)
  })

  test('are mirrored about the axis', () => {
    for (const [i, ray] of straight.x.entries()) {
      const other = straight.x[straight.x.length - 1 - i]
      for (const [n, heightUm] of ray.heightUm.entries()) expect(other?.heightUm[n]).toBeCloseTo(-heightUm, 6)
    }
  })
})
