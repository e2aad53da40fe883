import { describe, expect, test } from 'vitest'
import { ballLens, thickLens, thinLens } from '../../../src/optics/beam/abcd'
import { throughDisplaced } from '../../../src/optics/joint/displaced'

describe('an element off the axis', () => {
  test('a thin lens bends an axial ray by its offset over its focal length, whatever its tilt (geometry)', () => {
    for (const tiltRad of [0, 0.05]) {
      const out = throughDisplaced(thinLens(500), 0, 3, tiltRad, { heightUm: 0, slopeRad: 0 })
      expect(out.heightUm).toBeCloseTo(0, 12)
      expect(out.slopeRad).toBeCloseTo(3 / 500, 12)
    }
  })

  test('a ball turned about its middle does nothing new', () => {
    const ball = ballLens({ index: 1.5, diameterUm: 300 })
    const ray = { heightUm: 4, slopeRad: 0.01 }
    const straight = throughDisplaced(ball, 300, 0, 0, ray)
    const turned = throughDisplaced(ball, 300, 0, 0.1, ray)
    expect(turned.heightUm).toBeCloseTo(straight.heightUm, 9)
    expect(turned.slopeRad).toBeCloseTo(straight.slopeRad, 12)
  })

  test('a flat plate tilted by phi shifts a ray by t phi (1 - 1/n) and keeps its direction (paraxial plate)', () => {
    const plate = thickLens({ index: 1.5, frontRadiusUm: Infinity, backRadiusUm: Infinity, thicknessUm: 300 })
    const out = throughDisplaced(plate, 300, 7, 0.02, { heightUm: 0, slopeRad: 0 })
    expect(out.heightUm).toBeCloseTo(300 * 0.02 * (1 - 1 / 1.5), 9)
    expect(out.slopeRad).toBeCloseTo(0, 12)
  })
})
