import { describe, expect, test } from 'vitest'
import { type BlockChannel, channelLossDb } from '../../../src/analysis/array/blockChannel'
import { blockSearch } from '../../../src/analysis/array/blockSearch'

const HALF_UM = 300
/** Three channels with crossed curvatures, none at its best where the others are. */
const CHANNELS: readonly BlockChannel[] = [
  { alongUm: -HALF_UM, leastDb: 0.3, a11: 0.9, a12: 0.25, a22: 0.7, bestXUm: 0.4, bestYUm: -0.5 },
  { alongUm: 50, leastDb: 0.1, a11: 0.6, a12: -0.2, a22: 0.8, bestXUm: -0.3, bestYUm: 0.2 },
  { alongUm: HALF_UM, leastDb: 0.6, a11: 0.7, a12: 0.1, a22: 1.1, bestXUm: 0.1, bestYUm: 0.7 },
]
const WEIGHTS = [0.2, 0.5, 0.3] as const
const ALL = { x: true, y: true, roll: true }
const NONE = new Float64Array(3)

/** Losses at x, y and roll times the half length, um, each from its own quadratic form. */
const lossesAt = ([x = 0, y = 0, turn = 0]: readonly number[]) =>
  CHANNELS.map((channel) => channelLossDb(channel, { xUm: x, yUm: y, rollRad: turn / HALF_UM }))

const weighted = (position: readonly number[]) =>
  lossesAt(position).reduce((sum, db, i) => sum + (WEIGHTS[i] ?? 0) * db, 0)

type Function3 = (position: readonly number[]) => number

const moved = (position: readonly number[], axis: number, by: number) =>
  position.map((each, i) => (i === axis ? each + by : each))

/** Slope by central differences. */
const slope = (of: Function3, position: readonly number[], axis: number, h = 1e-4) =>
  (of(moved(position, axis, h)) - of(moved(position, axis, -h))) / (2 * h)

const positionOf = (search: ReturnType<typeof blockSearch>) => {
  const { xUm, yUm, rollRad } = search.position()
  return [xUm, yUm, rollRad * HALF_UM]
}

describe('Newton’s method for the place of an array', () => {
  test('starts from the mean of the best points, and gives every channel the loss of its quadratic form there', () => {
    const search = blockSearch(CHANNELS, ALL)
    const [x, y, turn] = positionOf(search)
    expect(x).toBeCloseTo((0.4 - 0.3 + 0.1) / 3, 12)
    expect(y).toBeCloseTo((-0.5 + 0.2 + 0.7) / 3, 12)
    expect(turn).toBe(0)
    const most = search.look()
    const expected = lossesAt(positionOf(search))
    for (const [i, db] of expected.entries()) expect(search.losses[i]).toBeCloseTo(db, 12)
    expect(most).toBeCloseTo(Math.max(...expected), 12)
  })

  test('reaches the least weighted sum of quadratic losses in one step, where no slope is left', () => {
    const search = blockSearch(CHANNELS, ALL)
    search.weights.set(WEIGHTS)
    search.look()
    const before = positionOf(search)
    const length = search.step(0, NONE)
    search.probe(1)
    search.go()
    const position = positionOf(search)
    for (const axis of [0, 1, 2]) expect(slope(weighted, position, axis)).toBeCloseTo(0, 6)
    expect(length).toBeCloseTo(Math.hypot(...position.map((each, i) => each - (before[i] ?? 0))), 9)
    for (const [i, db] of lossesAt(position).entries()) expect(search.losses[i]).toBeCloseTo(db, 9)
  })

  test('goes by a share of the step', () => {
    const search = blockSearch(CHANNELS, ALL)
    search.weights.set(WEIGHTS)
    search.look()
    const from = positionOf(search)
    search.step(0, NONE)
    search.probe(1)
    const whole = Array.from(search.losses)
    search.probe(0.5)
    search.go()
    const half = positionOf(search)
    const to = from.map((each, i) => each + 2 * ((half[i] ?? 0) - each))
    for (const [i, db] of lossesAt(to).entries()) expect(whole[i]).toBeCloseTo(db, 9)
  })

  // The smooth maximum ln(sum of e^(sharpness * loss)) / sharpness; its slopes and curvatures by differences.
  test('with the spread of the slopes, takes Newton’s step of a smooth maximum', () => {
    const sharpness = 3
    const smooth: Function3 = (position) =>
      Math.log(lossesAt(position).reduce((sum, db) => sum + Math.exp(sharpness * db), 0)) / sharpness
    const search = blockSearch(CHANNELS, ALL)
    search.look()
    const from = positionOf(search)
    const shares = lossesAt(from).map((db) => Math.exp(sharpness * (db - smooth(from))))
    search.weights.set(shares)
    search.step(2 * sharpness, Float64Array.from(shares))
    search.probe(1)
    search.go()
    const step = positionOf(search).map((each, i) => each - (from[i] ?? 0))
    // Curvature times the step is minus the slope.
    for (const axis of [0, 1, 2]) {
      const along: Function3 = (position) => slope(smooth, position, axis, 1e-3)
      const curved = step.reduce((sum, each, k) => sum + each * slope(along, from, k, 1e-3), 0)
      expect(curved).toBeCloseTo(-slope(smooth, from, axis, 1e-3), 4)
    }
  })

  test.each([
    ['x', { x: false, y: true, roll: true }, 0],
    ['y', { x: true, y: false, roll: true }, 1],
    ['roll', { x: true, y: true, roll: false }, 2],
  ] as const)('holds %s where the station does, and finds the best of the rest', (_, free, held) => {
    const search = blockSearch(CHANNELS, free)
    search.weights.set(WEIGHTS)
    search.look()
    search.step(0, NONE)
    search.probe(1)
    search.go()
    const position = positionOf(search)
    expect(position[held]).toBe(0)
    for (const axis of [0, 1, 2].filter((each) => each !== held))
      expect(slope(weighted, position, axis)).toBeCloseTo(0, 6)
  })
})
