// The loss over the capture ellipse as a table: exact for polynomials of the second degree, close for others, held beyond its edge.

import { describe, expect, test } from 'vitest'
import { areaLossSteps } from '../../../src/analysis/firstLight/areaLoss'
import type { CaptureArea } from '../../../src/analysis/firstLight/capture'
import { finish } from '../../../src/numerics/steps'
import type { GaussianJoint } from '../../../src/optics/index'

const optimum = { offsetXUm: 2, offsetYUm: -3 } as GaussianJoint
const area = { captureXUm: 10, captureYUm: 4 } as CaptureArea
const tableOf = (lossDb: (xUm: number, yUm: number) => number) =>
  finish(areaLossSteps(optimum, area, ({ offsetXUm, offsetYUm }) => lossDb(offsetXUm, offsetYUm)))

describe('the loss in half axes from the optimum', () => {
  const parabola = (x: number, y: number) => 7 + 0.3 * x * x - 0.2 * x * y + 0.5 * y * y + x - 2 * y
  const found = tableOf(parabola)
  const byHand = (u: number, v: number) => parabola(2 + 10 * u, -3 + 4 * v) - parabola(2, -3)

  test('is that of a parabola, mixed term included', () => {
    for (const [u, v] of [
      [0, 0],
      [0.33, -0.71],
      [-1, 1],
      [1.19, 0.05],
      [-0.47, -1.2],
    ] as const)
      expect(found(u, v)).toBeCloseTo(byHand(u, v), 9)
  })

  test('is held at 1.2 half axes', () => {
    expect(found(3, 0.5)).toBeCloseTo(byHand(1.2, 0.5), 9)
    expect(found(-0.5, -7)).toBeCloseTo(byHand(-0.5, -1.2), 9)
  })

  test('is close for what is no parabola', () => {
    const wave = (x: number, y: number) => Math.sin(x / 4) * Math.cos(y / 2)
    const table = tableOf(wave)
    expect(table(0.42, -0.63)).toBeCloseTo(wave(6.2, -5.52) - wave(2, -3), 3)
  })
})
