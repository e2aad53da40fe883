// Alignment in any set of axes against the exact joint: no step in the free axes lowers the loss, and what is placed stays.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { poseAligner } from '../../../src/analysis/path/gap/alignPose'
import type { PoseAxis } from '../../../src/model/words/candidate'
import { jointEfficiency } from '../../../src/optics/index'
import { uniform } from '../../support/arbitrary'

const WAVELENGTH_UM = 1.55
const AXES = ['offsetX', 'offsetY', 'tiltX', 'tiltY'] as const
const FIELDS = ['offsetXUm', 'offsetYUm', 'tiltXRad', 'tiltYRad'] as const

const gaps = fc
  .record({
    roll: uniform(-0.7, 0.7),
    gapUm: uniform(0, 40),
    waistXUm: uniform(-10, 25),
    waistYUm: uniform(-10, 25),
    at: fc.tuple(uniform(-1, 1), uniform(-1, 1), uniform(-0.03, 0.03), uniform(-0.03, 0.03)),
  })
  .map(({ roll, at, ...own }) => ({
    ...own,
    ...{ mediumIndex: 1.3, emitterMfdXUm: 6, emitterMfdYUm: 4.5, receiverMfdXUm: 3.5, receiverMfdYUm: 5 },
    ...{ offsetXUm: at[0], offsetYUm: at[1], tiltXRad: at[2], tiltYRad: at[3], rollRad: roll },
  }))
type Gap = {
  -readonly [K in 'offsetXUm' | 'offsetYUm' | 'tiltXRad' | 'tiltYRad' | 'gapUm' | 'rollRad']: number
} & {
  readonly [K in
    | 'mediumIndex'
    | 'emitterMfdXUm'
    | 'emitterMfdYUm'
    | 'receiverMfdXUm'
    | 'receiverMfdYUm'
    | 'waistXUm'
    | 'waistYUm']: number
}

const lossDb = ({ mediumIndex, ...gap }: Gap) =>
  -10 * Math.log10(jointEfficiency({ ...gap, index: mediumIndex, wavelengthUm: WAVELENGTH_UM }))

const STEPS = [0.01, 0.01, 1e-4, 1e-4]

describe('a joint aligned on power', () => {
  test('in tilts and offsets at once lies at the bottom of both', () => {
    const both = ['offsetX', 'offsetY', 'tiltX', 'tiltY'] as const
    fc.assert(
      fc.property(gaps, (placed) => {
        const gap: Gap = { ...placed, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
        poseAligner(new Set<PoseAxis>(both), WAVELENGTH_UM)(gap, 0, 0)
        for (const field of FIELDS) expect(gap[field]).toBeCloseTo(0, 12)
      }),
      { numRuns: 5 },
    )
  })

  test('in some axes lies at the bottom of those, the others as they are placed', () => {
    // Offsets follow last: with tilts aligned too, only offsets are at their best once residuals are added.
    const subsets = fc.constantFrom<readonly PoseAxis[]>(
      ['offsetX'],
      ['offsetY'],
      ['offsetX', 'offsetY'],
      ['tiltX'],
      ['tiltY'],
      ['tiltX', 'tiltY'],
      ['offsetX', 'tiltY'],
      ['offsetY', 'tiltX', 'tiltY'],
    )
    fc.assert(
      fc.property(gaps, subsets, (placed, axes) => {
        const free = AXES.map((axis) => axes.includes(axis))
        const gap: Gap = { ...placed }
        // Of an aligned axis the entered value is what alignment leaves: nothing here.
        FIELDS.forEach((field, i) => {
          if (free[i]) gap[field] = 0
        })
        const before = { ...gap }
        poseAligner(new Set(axes), WAVELENGTH_UM)(gap, 0, 0)
        const least = lossDb(gap)
        expect(least).toBeLessThanOrEqual(lossDb(before) + 1e-9)
        FIELDS.forEach((field, i) => {
          if (!free[i]) {
            expect(gap[field]).toBe(before[field])
            return
          }
          for (const by of [-1, 1])
            expect(lossDb({ ...gap, [field]: gap[field] + by * (STEPS[i] ?? 0) })).toBeGreaterThan(least)
        })
        expect([gap.gapUm, gap.rollRad]).toEqual([before.gapUm, before.rollRad])
      }),
      { numRuns: 80 },
    )
  })

  test('keeps the residuals that are entered: tilts over the best tilt, offsets over the best offset for them', () => {
    fc.assert(
      fc.property(gaps, uniform(-0.02, 0.02), (placed, leftoverRad) => {
        const align = poseAligner(new Set<PoseAxis>(['offsetX', 'offsetY', 'tiltX', 'tiltY']), WAVELENGTH_UM)
        const gap: Gap = {
          ...placed,
          tiltXRad: placed.tiltXRad + leftoverRad,
          tiltYRad: placed.tiltYRad - leftoverRad,
        }
        align(gap, leftoverRad, -leftoverRad)
        // The best tilts of all free axes are 0; what sampled faces add is taken out with them.
        expect(gap.tiltXRad).toBeCloseTo(placed.tiltXRad, 12)
        expect(gap.tiltYRad).toBeCloseTo(placed.tiltYRad, 12)
        const best: Gap = { ...placed, offsetXUm: 0, offsetYUm: 0 }
        poseAligner(new Set<PoseAxis>(['offsetX', 'offsetY']), WAVELENGTH_UM)(best, 0, 0)
        expect(gap.offsetXUm).toBeCloseTo(best.offsetXUm + placed.offsetXUm, 9)
        expect(gap.offsetYUm).toBeCloseTo(best.offsetYUm + placed.offsetYUm, 9)
      }),
      { numRuns: 30 },
    )
  })

  test('in gap and roll too is where no gap is better, with the axes of both modes together', () => {
    fc.assert(
      fc.property(gaps, (placed) => {
        const axes = new Set<PoseAxis>(['gap', 'roll', 'offsetX', 'offsetY'])
        const gap: Gap = { ...placed, gapUm: 0, offsetXUm: 0, offsetYUm: 0 }
        poseAligner(axes, WAVELENGTH_UM)(gap, 0, 0)
        expect(gap.rollRad).toBe(placed.rollRad)
        const settled = (gapUm: number) => {
          const there: Gap = { ...gap, gapUm, rollRad: 0, offsetXUm: 0, offsetYUm: 0 }
          poseAligner(new Set<PoseAxis>(['offsetX', 'offsetY']), WAVELENGTH_UM)(there, 0, 0)
          return lossDb(there)
        }
        const least = settled(gap.gapUm)
        for (const gapUm of [0, gap.gapUm * 0.9, gap.gapUm * 1.1 + 0.5, 30, 60, 100])
          expect(settled(gapUm)).toBeGreaterThan(least - 1e-7)
      }),
      { numRuns: 20 },
    )
  })
})
