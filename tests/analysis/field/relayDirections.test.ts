// Independent directions of what moves a relay, against what defines them: draws of independent quantities become uncorrelated.

import { expect, test } from 'vitest'
import {
  fromDirections,
  relayDirections,
  toDirections,
} from '../../../src/analysis/field/fit/relayDirections'
import { unitPoints } from '../../../src/numerics/random/unitPoints'

const AXES = 14
const ACROSS = 12

/** Moves of some quantities, the entries of each between -1 and 1, in units as different as um and mrad. */
function movesOf(count: number, seed: number): readonly Float64Array[] {
  const points = unitPoints('random', AXES, seed)
  return Array.from({ length: count }, (_, i) => {
    const move = new Float64Array(AXES)
    points.point(i, move)
    return move.map((u, axis) => (2 * u - 1) * ([1, 1, 1e-3, 1e-3][axis % 4] ?? 1))
  })
}

test('there and back is where one was', () => {
  const directions = relayDirections(movesOf(20, 3), false)
  const [start = new Float64Array(AXES)] = movesOf(1, 8)
  const point = Float64Array.from(start)
  toDirections(directions, point)
  expect(Math.abs((point[0] ?? 0) - (start[0] ?? 0))).toBeGreaterThan(0.01)
  fromDirections(directions, point)
  for (const [i, value] of start.entries()) expect(point[i]).toBeCloseTo(value, 12)
})

test('moves of independent quantities are uncorrelated along the directions of a plane, and of length 1', () => {
  const moves = movesOf(20, 5)
  const directions = relayDirections(moves, false)
  const turned = moves.map((move) => {
    const point = Float64Array.from(move)
    toDirections(directions, point)
    return point
  })
  for (let i = 0; i < ACROSS; i++) {
    for (let j = i; j < ACROSS; j += 2) {
      const sum = turned.reduce((total, move) => total + (move[i] ?? 0) * (move[j] ?? 0), 0)
      // Directions are rounded to two digits.
      expect(Math.abs(sum - (i === j ? 1 : 0)), `${i} ${j}`).toBeLessThan(0.15)
    }
  }
})

test('directions of a round relay are the same in both planes: those of the mean square of both', () => {
  const move = new Float64Array(AXES)
  move[0] = 3
  move[1] = 4
  const directions = relayDirections([move], true)
  expect(directions[0]).toBeCloseTo(Math.sqrt((9 + 16) / 2), 1)
  expect(directions.slice(0, directions.length / 2)).toEqual(directions.slice(directions.length / 2))
  expect(relayDirections([move], false)[0]).toBe(3)
})

test('the first directions are those of the image, each in its plane, and distances stay as they are', () => {
  const directions = relayDirections(movesOf(20, 5), false)
  const point = new Float64Array(AXES)
  point[1] = 1
  point[12] = 900
  point[13] = 30
  toDirections(directions, point)
  expect(point.filter((value, i) => i % 2 === 0 && i < ACROSS && value !== 0)).toHaveLength(0)
  expect([point[12], point[13]]).toEqual([900, 30])
  const along = new Float64Array(AXES)
  along[0] = 1
  fromDirections(directions, along)
  const lengths = movesOf(20, 5).reduce((sum, move) => sum + (move[0] ?? 0) ** 2, 0)
  expect(along[0]).toBeCloseTo(Math.sqrt(lengths), 1)
})

test('a coordinate that the ones before determine counts as still, and one that nothing moves keeps its unit', () => {
  // One quantity moves the image and the guide before its lens alike; nothing else moves.
  const move = new Float64Array(AXES)
  move[0] = 2
  move[4] = 3
  const directions = relayDirections([move], false)
  const point = Float64Array.from(move)
  point[4] = 3.1
  point[8] = 0.7
  toDirections(directions, point)
  expect(point[0]).toBeCloseTo(1, 12)
  expect(Math.abs(point[4] ?? 1)).toBeLessThan(1e-6)
  expect(point[8]).toBe(0.7)
  fromDirections(directions, point)
  expect(point[4]).toBeCloseTo(3.1, 9)
})
