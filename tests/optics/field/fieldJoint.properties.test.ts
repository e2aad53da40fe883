import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fieldEfficiency, fieldJointOn } from '../../../src/optics/field/fieldJoint'
import { ALIGNED_POSE, type FieldPose } from '../../../src/optics/field/fieldPose'
import { firstGrid } from '../../../src/optics/field/jointGrid'
import { gaussianProfile } from '../../../src/optics/field/modeProfile'
import { stepIndexProfile } from '../../../src/optics/field/stepIndexProfile'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { uniform } from '../../support/arbitrary'
import { AIR } from './support'

const gaussian = (mfdXUm: number, mfdYUm: number) =>
  gaussianProfile({ ...AIR, mfdXUm, mfdYUm, waistXUm: 0, waistYUm: 0 })
const poses: fc.Arbitrary<FieldPose> = fc.record({
  offsetXUm: uniform(-3, 3),
  offsetYUm: uniform(-3, 3),
  gapUm: uniform(0, 25),
  tiltXRad: uniform(-0.05, 0.05),
  tiltYRad: uniform(-0.05, 0.05),
  rollRad: uniform(-1.5, 1.5),
})

describe('the joint of two fields', () => {
  test('never couples more than all, and a mode with itself couples all', () => {
    fc.assert(
      fc.property(uniform(2.5, 10), uniform(2.5, 10), poses, (a, b, pose) => {
        const pair = {
          ...AIR,
          emitter: gaussian(a, b),
          receiver: gaussian(b, a),
          propagation: 'exact' as const,
        }
        const { efficiency } = fieldEfficiency(pair, pose)
        return efficiency >= 0 && efficiency <= 1
      }),
      { numRuns: 25 },
    )
    const fibre = stepIndexProfile({ coreRadiusUm: 4.1, na: 0.12, wavelengthUm: 1.55 })
    const same = { ...AIR, emitter: fibre, receiver: fibre, propagation: 'exact' as const }
    expect(fieldEfficiency(same, ALIGNED_POSE, 1e-9).efficiency).toBeCloseTo(1, 9)
  })

  test('is the closed form for Gaussians, paraxially, whatever the pose', () => {
    fc.assert(
      fc.property(uniform(2.5, 10), uniform(2.5, 10), uniform(2.5, 10), poses, (a, b, c, pose) => {
        const pair = {
          ...AIR,
          emitter: gaussian(a, b),
          receiver: gaussian(c, c),
          propagation: 'paraxial' as const,
        }
        const exact = jointEfficiency({
          ...AIR,
          ...pose,
          emitterMfdXUm: a,
          emitterMfdYUm: b,
          receiverMfdXUm: c,
          receiverMfdYUm: c,
          waistXUm: 0,
          waistYUm: 0,
        })
        return Math.abs(fieldEfficiency(pair, pose, 1e-8).efficiency - exact) < 1e-8
      }),
      { numRuns: 25 },
    )
  })

  test('couples the same from either side', () => {
    const emitter = stepIndexProfile({ coreRadiusUm: 4.1, na: 0.12, wavelengthUm: 1.55 })
    const receiver = gaussian(5, 3.5)
    const pose = { ...ALIGNED_POSE, offsetXUm: 0.7, gapUm: 12 }
    const there = fieldEfficiency({ ...AIR, emitter, receiver, propagation: 'exact' }, pose, 1e-6)
    const back = fieldEfficiency(
      { ...AIR, emitter: receiver, receiver: emitter, propagation: 'exact' },
      { ...pose, offsetXUm: -0.7 },
      1e-6,
    )
    expect(Math.abs(there.efficiency - back.efficiency)).toBeLessThan(3e-6)
  })

  test('scales: all lengths doubled change nothing', () => {
    const at = (scale: number) => {
      const medium = { wavelengthUm: 1.55 * scale, index: 1 }
      const mode = (mfd: number) =>
        gaussianProfile({ ...medium, mfdXUm: mfd * scale, mfdYUm: mfd * scale, waistXUm: 0, waistYUm: 0 })
      const pose = { ...ALIGNED_POSE, offsetXUm: 0.6 * scale, gapUm: 8 * scale, tiltXRad: 0.03 }
      return fieldEfficiency(
        { ...medium, emitter: mode(4), receiver: mode(3), propagation: 'exact' },
        pose,
        1e-9,
      )
    }
    expect(at(2).efficiency).toBeCloseTo(at(1).efficiency, 9)
  })

  test('a small mode over a gap loses more exactly than paraxially, a large one the same', () => {
    const lossOf = (mfdUm: number, propagation: 'exact' | 'paraxial') => {
      const pair = { ...AIR, emitter: gaussian(mfdUm, mfdUm), receiver: gaussian(mfdUm, mfdUm), propagation }
      return -10 * Math.log10(fieldEfficiency(pair, { ...ALIGNED_POSE, gapUm: 10 }, 1e-8).efficiency)
    }
    expect(lossOf(2, 'exact') - lossOf(2, 'paraxial')).toBeGreaterThan(0.05)
    expect(Math.abs(lossOf(10.4, 'exact') - lossOf(10.4, 'paraxial'))).toBeLessThan(1e-3)
  })

  test('keeps its transforms for other gaps and offsets, with the same result', () => {
    const pair = { ...AIR, emitter: gaussian(5, 4), receiver: gaussian(3, 3), propagation: 'exact' as const }
    const pose = { ...ALIGNED_POSE, offsetXUm: 1, gapUm: 10, tiltXRad: 0.02 }
    const grid = firstGrid(pair, [pose])
    const joint = fieldJointOn(pair, grid)
    joint.efficiency({ ...pose, gapUm: 3, offsetXUm: 0 })
    expect(joint.efficiency(pose)).toBe(fieldJointOn(pair, grid).efficiency(pose))
  })

  test('refuses impossible poses and media by name', () => {
    const pair = { ...AIR, emitter: gaussian(5, 4), receiver: gaussian(3, 3), propagation: 'exact' as const }
    expect(() => fieldEfficiency(pair, { ...ALIGNED_POSE, gapUm: -1 })).toThrow(
      'gapUm is -1; must be 0 to 1000000',
    )
    expect(() => fieldEfficiency({ ...pair, index: 0 }, ALIGNED_POSE)).toThrow('index is 0')
    expect(() => fieldEfficiency(pair, { ...ALIGNED_POSE, gapUm: 9e5 })).toThrow(/points along x/)
  })
})
