// The fit of a relay against the rays that it stands for, at poses that it has not seen. What may be turned or mirrored about the axis is known
// from symmetry: a round relay in any pose couples as in the pose turned by 90 degrees.

import { describe, expect, test } from 'vitest'
import { fitRelaySteps } from '../../../src/analysis/field/fit/fitRelay'
import type { JointRegion } from '../../../src/analysis/field/fit/jointAxes'
import type { RelaySides } from '../../../src/analysis/field/fit/relayAxes'
import { relayDifference } from '../../../src/analysis/field/fit/relayDifference'
import { aboutAxis, holdsAxis } from '../../../src/analysis/path/relay/relayCoordinates'
import { sparseValue } from '../../../src/numerics/polynomial/sparseValue'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { finish } from '../../../src/numerics/steps'
import { BALL, PLANO_CONVEX } from '../../support/lensPair'

const sideOf = (
  { shape, ...placed }: typeof BALL | typeof PLANO_CONVEX,
  waistRadiusUm: number,
  distanceUm: number,
) => ({
  ...placed,
  lens: shape,
  mode: { wavelengthUm: 1.55, waistRadiusUm, distanceUm },
})
const sides: RelaySides = {
  near: sideOf(PLANO_CONVEX, 5.2, 859),
  far: sideOf(BALL, 1.5, 37),
  nearWaistUm: 0,
  stretchUm: 2800,
}

/** Coordinates are their own directions. */
const PLANE = Array.from({ length: 36 }, (_, i) => (i % 7 === 0 ? 1 : 0))
const directions = [...PLANE, ...PLANE]

const HALF_X = [0.3, 0.006, 1, 0.006, 0.3, 0.006]
/** The region; y reaches so many times as far as x, whose middle is off the axis by `offX` half widths. */
function regionOf(yShare: number, offX = 0): JointRegion {
  const ends = (side: 1 | -1) => HALF_X.flatMap((x) => [(offX + side) * x, side * x * yShare])
  return { from: [...ends(-1), 856, 35], to: [...ends(1), 862, 39] }
}

/** Poses of the region, towards its middle as assemblies lie. */
function posesOf({ from, to }: JointRegion, count: number): readonly Float64Array[] {
  const points = unitPoints('random', from.length, 11)
  return Array.from({ length: count }, (_, i) => {
    const unit = new Float64Array(from.length)
    points.point(i, unit)
    return unit.map((u, axis) => {
      const [low, high] = [from[axis] as number, to[axis] as number]
      return (low + high) / 2 + ((high - low) / 2) * (2 * u - 1) ** 3
    })
  })
}

/** The pose turned by 90 degrees about the axis. */
const turned = (at: Float64Array) =>
  at.map((value, i) => (i >= 12 ? value : i % 2 === 0 ? -(at[i + 1] as number) : (at[i - 1] as number)))

const fitted = (region: JointRegion) => finish(fitRelaySteps(sides, directions, region))

describe.each([
  ['round', regionOf(1), 330],
  ['narrower in y', regionOf(0.7), 600],
  ['beside the axis', regionOf(0.7, 1.2), 900],
] as const)('a region that is %s', (_name, region, mostEvaluations) => {
  const { series, errorDb, evaluations } = fitted(region)
  const value = sparseValue(series)
  const exact = relayDifference(sides)

  test('is fitted to the target by few evaluations, and so it is at other poses', () => {
    expect(errorDb).toBeLessThan(0.02)
    expect(evaluations).toBeLessThan(mostEvaluations)
    const poses = posesOf(region, 24)
    const differences = poses.map((at) => exact(at).differenceDb)
    expect(Math.max(...differences) - Math.min(...differences)).toBeGreaterThan(0.2)
    for (const [i, at] of poses.entries())
      expect(Math.abs(value(at) - (differences[i] as number)), `pose ${i}`).toBeLessThan(0.02)
  })
})

test('a fit about the axis is round as the relay is', () => {
  const region = regionOf(1)
  const value = sparseValue(fitted(region).series)
  const exact = relayDifference(sides)
  for (const at of posesOf(region, 6)) {
    expect(Math.abs(exact(turned(at)).differenceDb - exact(at).differenceDb)).toBeLessThan(0.002)
    expect(value(turned(at))).toBeCloseTo(value(at), 12)
  }
})

test('a region with the axis in it is widened to all sides alike, its distances kept', () => {
  const region = regionOf(1.5, 0.5)
  expect(holdsAxis(region)).toBe(true)
  expect(holdsAxis(regionOf(1, 1.5))).toBe(false)
  expect(holdsAxis(regionOf(1, -1.5))).toBe(false)
  const round = aboutAxis(region)
  expect(round.to[0]).toBeCloseTo(0.3 * 1.5, 12)
  expect(round.to[1]).toBe(round.to[0])
  expect(round.from.slice(0, 12)).toEqual(round.to.slice(0, 12).map((each) => -each))
  expect([round.from.slice(12), round.to.slice(12)]).toEqual([
    [856, 35],
    [862, 39],
  ])
})
