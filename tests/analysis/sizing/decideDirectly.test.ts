// Percentiles of losses of which few are summed, against all of them summed.

import { describe, expect, test } from 'vitest'
import { lossAtShare } from '../../../src/analysis/results/lossAtShare'
import { decideDirectly } from '../../../src/analysis/sizing/decideDirectly'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { finish } from '../../../src/numerics/steps'

const COUNT = 4096

/** Losses that fall off exponentially, and a fit of them that is off by up to `errorDb` in a pattern of its own. */
function drawn(errorDb: number) {
  const points = unitPoints('random', 2, 11)
  const point = new Float64Array(2)
  const pairs = Array.from({ length: COUNT }, (_, n) => {
    points.point(n, point)
    const exact = -2 * Math.log(1 - (point[0] ?? 0))
    return { exact, fitted: exact + errorDb * (2 * (point[1] ?? 0) - 1) }
  })
  return {
    exact: Float64Array.from(pairs, ({ exact }) => exact),
    fitted: Float64Array.from(pairs, ({ fitted }) => fitted),
  }
}

describe('losses around a percentile summed directly', () => {
  for (const share of [0.5, 0.95, 0.99]) {
    test(`give the ${share} quantile of all of them`, () => {
      const { exact, fitted } = drawn(0.3)
      const losses = Float64Array.from(fitted)
      const rank = COUNT - Math.ceil(share * COUNT)
      const summed = finish(decideDirectly(losses, (i) => exact[i] ?? 0, [rank]))
      expect(lossAtShare(losses, share)).toBe(lossAtShare(exact, share))
      expect(lossAtShare(fitted, share)).not.toBe(lossAtShare(exact, share))
      expect(losses.filter((loss, i) => loss !== fitted[i])).toHaveLength(summed)
      expect(summed).toBeLessThan(COUNT / 3)
    })
  }

  test('are few where the fit is nearly right, and reach the end where a rank lies there', () => {
    const { exact, fitted } = drawn(0.001)
    const summed = finish(decideDirectly(Float64Array.from(fitted), (i) => exact[i] ?? 0, [2000]))
    expect(summed).toBe(65)
    const losses = Float64Array.from(fitted)
    expect(finish(decideDirectly(losses, (i) => exact[i] ?? 0, [0]))).toBe(33)
    expect(Math.max(...losses)).toBe(Math.max(...exact))
  })

  test('around two ranks are each summed once', () => {
    const { exact, fitted } = drawn(0.001)
    const asked: number[] = []
    const sum = (i: number) => {
      asked.push(i)
      return exact[i] ?? 0
    }
    finish(decideDirectly(Float64Array.from(fitted), sum, [2000, 2010]))
    expect(asked).toHaveLength(75)
    expect(new Set(asked).size).toBe(75)
  })
})
