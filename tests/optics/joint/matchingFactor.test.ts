import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { jointEfficiencyAt } from '../../../src/optics/index'
import { matchingFactor } from '../../../src/optics/joint/matchingFactor'
import { uniform } from '../../support/arbitrary'

const mfd = uniform(1, 20)
const coupled = (modes: Parameters<typeof matchingFactor>[0], factor: number) =>
  jointEfficiencyAt(
    1.55,
    1,
    modes.emitterMfdXUm * factor,
    modes.emitterMfdYUm * factor,
    modes.receiverMfdXUm,
    modes.receiverMfdYUm,
    0,
    0,
    0,
    0,
    0,
    0,
    0,
    0,
  )

describe('the matching factor', () => {
  test('couples better than any factor beside it', () => {
    fc.assert(
      fc.property(mfd, mfd, mfd, mfd, (a, b, c, d) => {
        const modes = { emitterMfdXUm: a, emitterMfdYUm: b, receiverMfdXUm: c, receiverMfdYUm: d }
        const best = matchingFactor(modes)
        const most = coupled(modes, best)
        return [0.5, 0.9, 0.99, 1.01, 1.1, 2].every((other) => coupled(modes, best * other) < most)
      }),
    )
  })

  test('is the ratio of round modes', () => {
    const round = { emitterMfdXUm: 10.4, emitterMfdYUm: 10.4, receiverMfdXUm: 3.2, receiverMfdYUm: 3.2 }
    expect(matchingFactor(round)).toBeCloseTo(3.2 / 10.4, 12)
  })

  test('refuses a diameter that is none', () => {
    const none = { emitterMfdXUm: 0, emitterMfdYUm: 1, receiverMfdXUm: 1, receiverMfdYUm: 1 }
    expect(() => matchingFactor(none)).toThrow(InputError)
  })
})
