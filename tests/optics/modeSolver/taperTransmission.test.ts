import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type LocalModes, localModeLoss, lossDb, taperLoss } from '../../../src/optics/index'

/** Two modes that turn into each other at one rate, with one mismatch. */
const steady = (angle: number, indexStep: number): LocalModes => ({
  widthUm: [1, 2, 3],
  effectiveIndex: [1.45 + indexStep, 1.45 + indexStep, 1.45 + indexStep],
  claddingIndex: [1.45, 1.45, 1.45],
  overlapWithNext: [Math.cos(angle / 2), Math.cos(angle / 2)],
  overlapOfEnds: Math.cos(angle),
})

describe('a taper by its local modes', () => {
  test.each([10, 73, 400])(
    'of a steady rate is the closed form of two coupled waves, over %i µm',
    (lengthUm) => {
      // Rabi: (g / s)^2 sin^2(s L) with s^2 = g^2 + (mismatch / 2)^2.
      const [g, half] = [0.4 / lengthUm, (Math.PI / 1.55) * 0.01]
      const s = Math.hypot(g, half)
      const loss = localModeLoss(steady(0.4, 0.01), { wavelengthUm: 1.55, lengthUm, exponent: 1 })
      expect(loss).toBeCloseTo((g / s) ** 2 * Math.sin(s * lengthUm) ** 2, 10)
    },
  )

  test('of no length is the joint of its ends, whatever lies between', () => {
    const modes = { ...steady(0.7, 0.02), overlapOfEnds: 0.83 }
    expect(taperLoss(modes, { wavelengthUm: 1.55, lengthUm: 1e-3, exponent: 1 })).toBeCloseTo(
      1 - 0.83 ** 2,
      6,
    )
  })

  test('of great length loses nothing, and of modes that do not change neither', () => {
    const at = { wavelengthUm: 1.55, exponent: 1 }
    expect(taperLoss(steady(0.7, 0.05), { ...at, lengthUm: 50_000 })).toBeLessThan(1e-6)
    expect(taperLoss(steady(0, 0.05), { ...at, lengthUm: 5 })).toBe(0)
  })

  test('that widens slowly at the narrow end loses less where that end is the weak one', () => {
    const modes: LocalModes = {
      widthUm: [1, 2, 3],
      effectiveIndex: [1.452, 1.47, 1.5],
      claddingIndex: [1.45, 1.45, 1.45],
      overlapWithNext: [0.9, 0.99],
      overlapOfEnds: 0.85,
    }
    const loss = (exponent: number) => taperLoss(modes, { wavelengthUm: 1.55, lengthUm: 300, exponent })
    expect(loss(2)).toBeLessThan(loss(1))
  })

  test('of a slab comes near beam propagation, on the safe side for a taper that is nearly adiabatic', () => {
    // Crank-Nicolson propagation with an absorbing border: recipes/slab_taper.py.
    const {
      wavelengthUm,
      chain,
      lossDb: propagated,
    } = JSON.parse(readFileSync('tests/reference/data/slab-taper.json', 'utf8')) as {
      wavelengthUm: number
      chain: {
        widthUm: number[]
        effectiveIndex: number[]
        claddingIndex: number
        overlap: number[]
        abruptOverlap: number
      }
      lossDb: [number, number][]
    }
    const modes: LocalModes = {
      widthUm: chain.widthUm,
      effectiveIndex: chain.effectiveIndex,
      claddingIndex: chain.widthUm.map(() => chain.claddingIndex),
      overlapWithNext: chain.overlap,
      overlapOfEnds: chain.abruptOverlap,
    }
    expect(propagated).toHaveLength(11)
    for (const [lengthUm, truth] of propagated) {
      const ours = lossDb(1 - taperLoss(modes, { wavelengthUm, lengthUm, exponent: 1 }))
      expect(ours / truth, `${lengthUm} µm: ${ours} against ${truth}`).toBeGreaterThan(0.95)
      expect(ours / truth, `${lengthUm} µm: ${ours} against ${truth}`).toBeLessThan(1.5)
    }
  })

  test('refuses a length of nothing', () => {
    expect(() => taperLoss(steady(0.1, 0.1), { wavelengthUm: 1.55, lengthUm: 0, exponent: 1 })).toThrow(
      'lengthUm',
    )
  })
})
