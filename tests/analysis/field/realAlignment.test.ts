// Active alignment of a joint of fields, against the lowest loss of a raster of direct sums.

import { describe, expect, onTestFinished, test } from 'vitest'
import { answerSteps } from '../../../src/analysis/field/fit/fitHere'
import { type FieldRequest, fitElsewhere, learnAnswer } from '../../../src/analysis/field/fit/knownFits'
import { evaluateCandidate } from '../../../src/analysis/index'
import { finish } from '../../../src/numerics/steps'
import { doubledGrid } from '../../../src/optics/field/fieldGrid'
import { fieldJointOn, fieldPairOf, firstGrid, lossDb } from '../../../src/optics/index'
import { fieldProject, skewedMode } from '../support/fieldDraws'

type Axis = 'offsetX' | 'offsetY' | 'tiltX' | 'tiltY'

function evaluated(aligned: Axis[], mfdXUm = 2.6) {
  const { project, id } = fieldProject({
    field: skewedMode(),
    powerShare: 1,
    mfdXUm,
    mfdYUm: 2.4,
    offsetsUm: 0.4,
    inGel: false,
  })
  const gap = project.candidates.find((each) => each.id === id)?.chain[1]
  if (gap?.kind !== 'gap') throw new Error('no gap')
  gap.aligned = aligned
  for (const axis of ['gap', 'offsetX', 'offsetY', 'tiltX', 'tiltY'] as const) gap[axis].tolerance = undefined
  const evaluation = evaluateCandidate(project, id)
  const [joint] = evaluation.joints
  if (joint?.field === undefined || 'refusal' in joint.field.loss) throw new Error('no field')
  return { evaluation, joint: joint.joint, spec: joint.field.spec, fieldDb: joint.field.loss.fieldDb }
}

describe('alignment on power of a skewed mode', () => {
  const placed = evaluated([])

  test('settles where a raster of direct sums has its least loss', () => {
    const aligned = evaluated(['offsetX', 'offsetY'])
    const pair = fieldPairOf(placed.spec)
    const far = { ...placed.joint, offsetXUm: 2, offsetYUm: 2 }
    const { efficiency } = fieldJointOn(pair, firstGrid(pair, [far]))
    let least = { lossDb: Infinity, x: 0, y: 0 }
    for (let i = -3; i <= 3; i++) {
      for (let j = -10; j <= 3; j++) {
        const [x, y] = [i / 10, j / 10]
        const loss = lossDb(efficiency({ ...placed.joint, offsetXUm: x, offsetYUm: y }))
        if (loss < least.lossDb) least = { lossDb: loss, x, y }
      }
    }
    expect(placed.fieldDb - least.lossDb).toBeGreaterThan(0.1)
    expect(aligned.fieldDb).toBeLessThan(least.lossDb + 1e-3)
    expect(aligned.fieldDb).toBeGreaterThan(least.lossDb - 0.02)
    expect(Math.abs(aligned.joint.offsetXUm - least.x)).toBeLessThan(0.07)
    expect(Math.abs(aligned.joint.offsetYUm - least.y)).toBeLessThan(0.07)
    const gainDb = placed.evaluation.nominalDb - aligned.evaluation.nominalDb
    expect(Math.abs(gainDb - (placed.fieldDb - aligned.fieldDb))).toBeLessThan(1e-9)
  })

  test('tilts that are aligned too gain more, and the four together leave no slope', () => {
    const offsets = evaluated(['offsetX', 'offsetY'])
    const all = evaluated(['offsetX', 'offsetY', 'tiltX', 'tiltY'])
    expect(all.fieldDb).toBeLessThan(offsets.fieldDb + 1e-4)
    const pair = fieldPairOf(all.spec)
    const { efficiency } = fieldJointOn(pair, doubledGrid(firstGrid(pair, [all.joint])))
    const here = lossDb(efficiency(all.joint))
    for (const [axis, by] of [
      ['offsetXUm', 0.1],
      ['offsetYUm', 0.1],
      ['tiltXRad', 0.03],
      ['tiltYRad', 0.03],
    ] as const) {
      for (const sign of [-1, 1]) {
        const moved = { ...all.joint, [axis]: all.joint[axis] + sign * by }
        expect(lossDb(efficiency(moved))).toBeGreaterThan(here)
      }
    }
  })

  test.each([
    ['an optimum', 2.6131, (request: FieldRequest) => finish(answerSteps(request))],
    ['a search that fails', 2.6171, () => null],
  ])('is provisional while it is computed elsewhere, until %s', (_, mfdXUm, answer) => {
    const asked = new Map<string, FieldRequest>()
    onTestFinished(fitElsewhere((request) => asked.set(request.key, request)))
    expect(evaluated(['offsetX', 'offsetY'], mfdXUm).evaluation.awaitsFit).toBe(true)
    // What is requested may depend on what is known by then.
    for (let round = 0; round < 4; round++) {
      for (const [key, request] of asked) learnAnswer(key, answer(request))
      asked.clear()
      evaluated(['offsetX', 'offsetY'], mfdXUm)
    }
    expect(evaluated(['offsetX', 'offsetY'], mfdXUm).evaluation.awaitsFit).toBe(false)
  })
})
