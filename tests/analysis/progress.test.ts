// What long work says of itself: the share done begins near 0, never falls, and ends near 1.

import { expect, test } from 'vitest'
import { arraySteps } from '../../src/analysis/array/runArray'
import { assemblySteps } from '../../src/analysis/assembly/assemblyResult'
import { usualSequence } from '../../src/analysis/assembly/usualSequence'
import { searchPlanSteps } from '../../src/analysis/firstLight/search'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import { sizedDimensions } from '../../src/analysis/sizing/dimensions'
import { optimumSteps } from '../../src/analysis/sizing/optimum'
import { sizeCurveSteps } from '../../src/analysis/sizing/sizeCurve'
import { bestSettingSteps } from '../../src/analysis/tolerance/bestSettings'
import { quantityOf } from '../../src/model/quantity/quantity'
import { jointLossDb } from '../../src/optics/index'
import { familiesProject } from './support/families'
import { isotropic, matchedProject } from './yield/cases'

const compiled = (id: string) => {
  const result = compileCandidate(familiesProject(), id)
  if (!result.ok) throw new Error('compiles')
  return result.value
}
const rowOf = (channels: number) => {
  const project = matchedProject(6, 2, { offsetX: quantityOf(0, 'um', 'estimate', 0.5) })
  return { ...project, requirements: { ...project.requirements, channels } }
}
const joint = () => compiled('cleaved-dry').joins[0]!.view!(compiled('cleaved-dry').nominal).joint
const station = {
  ...{ launchDbm: 0, detectorFloorDbm: -50, lateralUm: 5, axialUm: 5, tiltRad: 0.01, secondsPerPoint: 0.1 },
}

test.each<readonly [string, () => Generator<unknown, unknown, void>, from: number, to: number]>([
  ['settings', () => bestSettingSteps(compiled('taper')), 0.3, 0.45],
  ['the optimum of a design', () => optimumSteps(familiesProject(), 'spot-tip'), 0.6, 0.7],
  [
    'the curve of a size',
    () => {
      const path = compiled('spot-tip')
      return sizeCurveSteps(path, sizedDimensions(path)[0]!, 3)
    },
    0.1,
    0.53,
  ],
  ['a search for first light', () => searchPlanSteps(joint(), 3, station, jointLossDb), 0.2, 1],
  ['an array', () => arraySteps(rowOf(2), 'matched', { samples: 256, seed: 3 }), 0.3, 1],
  [
    'an assembly sequence',
    () => {
      const project = isotropic(6, 0.5, 1)
      return assemblySteps(project, 'matched', usualSequence(project, project.candidates[0]!), {
        samples: 4096,
        seed: 3,
      })
    },
    0.7,
    1,
  ],
])('%s', (_, make, latestFirst, leastLast) => {
  const shares: number[] = []
  const steps = make()
  for (let step = steps.next(); !step.done; step = steps.next()) shares.push(Number(step.value))
  expect(shares.length).toBeGreaterThan(1)
  expect(shares[0]).toBeLessThanOrEqual(latestFirst)
  expect(shares[0]).toBeGreaterThanOrEqual(0)
  shares.forEach((share, i) => {
    if (i > 0) expect(share).toBeGreaterThanOrEqual((shares[i - 1] ?? 0) - 1e-12)
  })
  expect(shares.at(-1)).toBeLessThanOrEqual(1 + 1e-12)
  expect(shares.at(-1)).toBeGreaterThanOrEqual(leastLast - 0.05)
})
