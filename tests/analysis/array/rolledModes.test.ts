// One channel whose modes are elliptical and turned against each other: its loss about the best place has a crossed curvature.

import { expect, test } from 'vitest'
import { runArray } from '../../../src/analysis/array/runArray'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import type { PoseAxis } from '../../../src/model/words/candidate'
import { matchedProject } from '../yield/cases'

const um = (value: number) => quantityOf(value, 'um')

function project(change: Partial<GapElement>): Project {
  const made = matchedProject(10.4, 0.5, { roll: quantityOf(30, 'deg'), ...change })
  const facets = made.facets.map((facet) => ({
    ...facet,
    mfdX: um(9),
    mfdY: um(4),
  }))
  const fibres = made.fibres.map((fibre) => ({
    ...fibre,
    mode: { kind: 'mfd' as const, mfdX: um(9), mfdY: um(4) },
  }))
  return { ...made, facets, fibres }
}

test('is moved by the station to where no slope of its loss is left', () => {
  // A beam that is tilted across a gap arrives beside the mode.
  const tilted = { gap: um(40), tiltX: quantityOf(60, 'mrad'), tiltY: quantityOf(-40, 'mrad') }
  const { aims } = runArray(project({ ...tilted, aligned: ['offsetX', 'offsetY'] }), 'matched', {
    samples: 1,
  })
  const { nominalPositions, channels } = aims[0] ?? {}
  const { xUm, yUm } = nominalPositions?.[0] ?? { xUm: 0, yUm: 0 }
  const lossDb = (x: number, y: number) =>
    evaluateCandidate(project({ ...tilted, offsetX: um(x), offsetY: um(y) }), 'matched').nominalDb
  expect(channels?.[0]?.nominalDb).toBeCloseTo(lossDb(xUm, yUm), 9)
  expect(lossDb(0, 0) - lossDb(xUm, yUm)).toBeGreaterThan(0.02)
  expect((lossDb(xUm + 0.1, yUm) - lossDb(xUm - 0.1, yUm)) / 0.2).toBeCloseTo(0, 6)
  expect((lossDb(xUm, yUm + 0.1) - lossDb(xUm, yUm - 0.1)) / 0.2).toBeCloseTo(0, 6)
  expect(lossDb(xUm + 0.1, yUm)).toBeGreaterThan(lossDb(xUm, yUm))
})

test.each([
  [0, 0],
  [4, 0],
  [0, -6],
  [-3, 5],
] as const)(
  'is as well placed as aligned with the tilts %d and %d mrad left, where square faces need none',
  (x, y) => {
    const lossesDb = (...aligned: readonly PoseAxis[]) => {
      const tilts = { tiltX: quantityOf(x, 'mrad'), tiltY: quantityOf(y, 'mrad') }
      const made = project({ gap: um(6), roll: quantityOf(0, 'deg'), ...tilts, aligned: [...aligned] })
      const requirements = { ...made.requirements, channels: 4, pitch: um(127) }
      const { aims } = runArray({ ...made, requirements }, 'matched', { samples: 1 })
      return aims[0]?.channels.map(({ nominalDb }) => nominalDb) ?? []
    }
    const placed = lossesDb('offsetX', 'offsetY')
    expect(placed).toHaveLength(4)
    for (const [i, lossDb] of lossesDb('offsetX', 'offsetY', 'tiltX', 'tiltY').entries())
      expect(lossDb).toBeCloseTo(placed[i] ?? Number.NaN, 6)
  },
)
