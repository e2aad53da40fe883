import { describe, expect, test } from 'vitest'
import { fieldPictures } from '../../../src/analysis/field/fieldPictures'
import { fieldToleranceSteps } from '../../../src/analysis/field/fieldTolerance'
import { jointByField } from '../../../src/analysis/field/jointField'
import { remembering } from '../../../src/analysis/field/remembering'
import { toleranceWindows } from '../../../src/analysis/tolerance/toleranceCurve'
import { axisRange } from '../../../src/analysis/tolerance/toleranceMap'
import type { FieldJointSpec, GaussianJoint, MisalignmentAxis, ModeAtFace } from '../../../src/optics/index'
import { jointLossDb, lossDb } from '../../../src/optics/index'

const JOINT: GaussianJoint = {
  wavelengthUm: 1.55,
  index: 1,
  emitterMfdXUm: 10.4,
  emitterMfdYUm: 10.4,
  receiverMfdXUm: 6,
  receiverMfdYUm: 5,
  offsetXUm: 0.3,
  offsetYUm: 0,
  gapUm: 8,
  tiltXRad: 0.01,
  tiltYRad: 0,
  rollRad: 0,
  waistXUm: 0,
  waistYUm: 0,
}
const gaussian = (mfdXUm: number, mfdYUm: number): ModeAtFace => ({
  mode: { kind: 'gaussian', mfdXUm, mfdYUm, waistXUm: 0, waistYUm: 0 },
  tip: null,
  stretchX: 1,
  stretchY: 1,
})
const SPEC: FieldJointSpec = {
  emitter: gaussian(10.4, 10.4),
  receiver: gaussian(6, 5),
  wavelengthUm: 1.55,
  index: 1,
  propagation: 'paraxial',
}

function finished<T>(steps: Generator<number, T, void>): { value: T; shares: number[] } {
  const shares: number[] = []
  for (;;) {
    const step = steps.next()
    if (step.done) return { value: step.value, shares }
    shares.push(step.value)
  }
}

const toleranceOf = (x: MisalignmentAxis, y: MisalignmentAxis, spec = SPEC) =>
  finished(fieldToleranceSteps({ spec, joint: JOINT, x, y }))

describe('tolerance by fields', () => {
  test('has windows at whose edges the exact joint has lost 1 dB more, though they are found on a coarser grid', () => {
    const core: ModeAtFace = { ...gaussian(1, 1), mode: { kind: 'step index', coreRadiusUm: 4.1, na: 0.125 } }
    const spec: FieldJointSpec = { ...SPEC, emitter: core, receiver: gaussian(3, 2.5), propagation: 'exact' }
    const { windows } = toleranceOf('offsetXUm', 'offsetYUm', spec).value
    const lossOf = (pose: GaussianJoint) => lossDb(jointByField(spec, pose).efficiency)
    for (const { axis, marks } of windows) {
      const above = marks.find(({ excessDb }) => excessDb === 1)?.above
      if (above == null) continue
      const moved = lossOf({ ...JOINT, [axis]: JOINT[axis] + above })
      expect(moved - lossOf(JOINT), axis).toBeCloseTo(1, 2)
    }
  })

  test.each([
    ['offsetXUm', 'offsetYUm'],
    ['offsetYUm', 'offsetXUm'],
    ['gapUm', 'tiltXRad'],
    ['tiltYRad', 'offsetYUm'],
  ] as const)('of Gaussians over %s and %s is that of the closed form', (x, y) => {
    const { value, shares } = toleranceOf(x, y)
    const { map, curve } = value
    let worst = 0
    map.rowsDb.forEach((row, j) => {
      row.forEach((loss, i) => {
        const exact = jointLossDb({ ...JOINT, [x]: map.x[i] ?? 0, [y]: map.y[j] ?? 0 })
        if (exact < 20) worst = Math.max(worst, Math.abs(loss - exact))
      })
    })
    expect(worst).toBeLessThan(1e-3)
    // From end to end of its range, less a step of the grid where offsets are read from one.
    for (const [axis, xPositions] of [
      [x, map.x],
      [y, map.y],
    ] as const) {
      const [from, to] = axisRange(JOINT, axis)
      const step = (xPositions[1] ?? 0) - (xPositions[0] ?? 0)
      expect(xPositions[0]).toBeGreaterThanOrEqual(from)
      expect(xPositions[0]).toBeLessThan(from + step)
      expect(xPositions.at(-1)).toBeLessThan(to + 1e-9)
      expect(xPositions.at(-1)).toBeGreaterThan(to - step)
    }
    curve.positions.forEach((position, i) => {
      const exact = jointLossDb({ ...JOINT, [x]: position })
      if (exact < 20) expect(Math.abs((curve.lossesDb[i] ?? 0) - exact)).toBeLessThan(1e-3)
    })
    expect(shares.at(-1)).toBeLessThanOrEqual(1)
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
  })

  test('has the windows of the closed form for Gaussians', () => {
    const { windows, errorDb } = toleranceOf('offsetXUm', 'offsetYUm').value
    const exact = toleranceWindows(JOINT)
    windows.forEach((window, at) => {
      window.marks.forEach((mark, i) => {
        const expected = exact[at]?.marks[i]
        for (const side of ['below', 'above'] as const) {
          const [own, known] = [mark[side], expected?.[side]]
          if (known == null || window.axis === 'rollRad') continue
          expect(Math.abs((own ?? 0) - known) / known).toBeLessThan(1e-3)
        }
      })
    })
    expect(errorDb).toBeLessThan(1e-4)
  })

  test('a joint that cannot be sampled is refused by name', () => {
    const far = { spec: SPEC, joint: { ...JOINT, gapUm: 9e5 }, x: 'offsetXUm', y: 'offsetYUm' } as const
    expect(() => finished(fieldToleranceSteps(far))).toThrow(/points along x/)
  })
})

describe('pictures of the fields', () => {
  const spec: FieldJointSpec = {
    ...SPEC,
    emitter: { ...gaussian(10.4, 10.4), mode: { kind: 'step index', coreRadiusUm: 4.1, na: 0.12 } },
    propagation: 'exact',
  }
  const { value } = finished(fieldPictures({ spec, joint: JOINT }))

  test('show a Gaussian as wide as its MFD, and its cuts as the parabola that it is in decibels', () => {
    const { receiving } = value
    expect(receiving.widthXUm).toBeCloseTo(6, 3)
    expect(receiving.widthYUm).toBeCloseTo(5, 3)
    expect(receiving.gaussianOverlap).toBeCloseTo(1, 6)
    receiving.cutX.positionsUm.forEach((x, i) => {
      const expected = Math.max(-50, -8.685889638 * (x / 3) ** 2)
      expect(Math.abs((receiving.cutX.fieldDb[i] ?? 0) - expected)).toBeLessThan(0.01)
    })
  })

  test('give the loss in contact, paraxially and exactly, with the closed form', () => {
    expect(value.losses.map(({ label }) => label)).toEqual([
      'faces in contact, coaxial',
      'at the working point, paraxial over the gap',
      'at the working point, exact over the gap',
    ])
    const [, paraxial, exact] = value.losses
    expect(paraxial?.gaussianDb).toBeCloseTo(jointLossDb(JOINT), 12)
    expect(Math.abs((paraxial?.fieldDb ?? 0) - (exact?.fieldDb ?? 0))).toBeLessThan(0.01)
    // dB of a relative change: 10 / ln 10 times it.
    const { efficiency, error } = jointByField({ ...spec, propagation: 'paraxial' }, JOINT)
    expect(paraxial?.errorDb).toBeCloseTo((4.342944819 * error) / efficiency, 12)
    expect(paraxial?.fieldDb).toBeCloseTo(lossDb(efficiency), 12)
  })
})

test('the least used is discarded first', () => {
  const made: string[] = []
  const remember = remembering<string>(2)
  const ask = (key: string) =>
    remember(key, () => {
      made.push(key)
      return key
    })
  for (const key of ['a', 'b', 'a', 'c', 'a', 'b']) ask(key)
  expect(made).toEqual(['a', 'b', 'c', 'b'])
})
