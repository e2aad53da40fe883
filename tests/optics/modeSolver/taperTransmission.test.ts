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

  // The equations of the file's head by Heun's method in 60000 steps, rate and mismatch on straight lines between the modes.
  test.each([
    [1, 40],
    [1, 400],
    [2, 150],
    [3, 90],
  ])(
    'of changing rate and mismatch, exponent %i, %i µm, is what its equations integrate to',
    (exponent, lengthUm) => {
      const widthUm = [0.4, 0.6, 1, 1.5]
      const indexStep = [0.004, 0.012, 0.03, 0.05]
      const angles = [0.3, 0.2, 0.1]
      const rates = angles.map((angle, i) => angle / ((widthUm[i + 1] ?? 0) - (widthUm[i] ?? 0)))
      const middles = angles.map((_, i) => ((widthUm[i] ?? 0) + (widthUm[i + 1] ?? 0)) / 2)
      const onLine = (x: readonly number[], y: readonly number[], at: number) => {
        const k = x.findIndex((each) => each > at)
        if (k === 0) return y[0] ?? 0
        if (k < 0) return y.at(-1) ?? 0
        const share = (at - (x[k - 1] ?? 0)) / ((x[k] ?? 0) - (x[k - 1] ?? 0))
        return (1 - share) * (y[k - 1] ?? 0) + share * (y[k] ?? 0)
      }
      const steps = 60_000
      const widthAt = (z: number) => 0.4 + 1.1 * (z / lengthUm) ** exponent
      const slopeAt = (z: number) => ((1.1 * exponent) / lengthUm) * (z / lengthUm) ** (exponent - 1)
      // The whole turn, to which the angles are scaled.
      let path = 0
      for (let i = 0; i < steps; i++)
        path += (onLine(middles, rates, 0.4 + (1.1 * (i + 0.5)) / steps) * 1.1) / steps
      const endAngle = 0.55
      let [a, b] = [
        [1, 0],
        [0, 0],
      ] as [readonly [number, number], readonly [number, number]]
      const h = lengthUm / steps
      const slopes = (
        z: number,
        [aRe, aIm]: readonly [number, number],
        [bRe, bIm]: readonly [number, number],
      ) => {
        const g = ((onLine(middles, rates, widthAt(z)) * endAngle) / path) * slopeAt(z)
        const m = ((2 * Math.PI) / 1.55) * onLine(widthUm, indexStep, widthAt(z))
        return [-g * bRe, -g * bIm, g * aRe - m * bIm, g * aIm + m * bRe] as const
      }
      for (let i = 0; i < steps; i++) {
        const s = slopes(i * h, a, b)
        const [c, d] = [
          [a[0] + h * s[0], a[1] + h * s[1]],
          [b[0] + h * s[2], b[1] + h * s[3]],
        ] as const
        const t = slopes((i + 1) * h, c, d)
        a = [a[0] + (h / 2) * (s[0] + t[0]), a[1] + (h / 2) * (s[1] + t[1])]
        b = [b[0] + (h / 2) * (s[2] + t[2]), b[1] + (h / 2) * (s[3] + t[3])]
      }
      const modes: LocalModes = {
        widthUm,
        effectiveIndex: indexStep.map((step) => 1.45 + step),
        claddingIndex: widthUm.map(() => 1.45),
        overlapWithNext: angles.map(Math.cos),
        overlapOfEnds: Math.cos(endAngle),
      }
      const loss = localModeLoss(modes, { wavelengthUm: 1.55, lengthUm, exponent })
      const expected = b[0] ** 2 + b[1] ** 2
      expect(expected).toBeGreaterThan(1e-4)
      expect(Math.abs(loss / expected - 1)).toBeLessThan(2e-3)
    },
  )

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
