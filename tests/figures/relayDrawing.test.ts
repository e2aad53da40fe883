// A relay drawn to scale: lenses as high as their apertures, faces by their spheres, beam and rays where the evaluation has them.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { jointDrawings } from '../../src/figures/drawing/jointDrawings'
import { relayPlane, relayShapes } from '../../src/figures/drawing/relayShapes'
import { demoProject } from '../../src/model/index'

const project = demoProject()
const evaluation = evaluateCandidate(project, 'relay')
const relay = evaluation.relays[0]!
const PICTURE = { widthPx: 900, heightPx: 300, marginPx: 60, topPx: 0, edgePx: 20 }
const axis = 'x'
const plane = relayPlane(relay, axis, PICTURE)
const shapes = relayShapes(relay, plane)

/** Corners of the shapes of a class, back in micrometres. */
const cornersOf = (className: string) =>
  shapes
    .filter(({ attributes }) => attributes.class === className)
    .map(({ attributes }) =>
      String(attributes.points)
        .split(' ')
        .map((point) => point.split(',').map(Number))
        .map(([x = 0, y = 0]) => ({
          zUm: (x - plane.z(0)) / plane.pxPerUm,
          vUm: (plane.v(0) - y) / plane.pxPerUm,
        })),
    )
/** Coordinates are written to a hundredth of a pixel. */
const GRAIN_UM = 0.02 / plane.pxPerUm

test('the whole relay and its lenses are in the picture, alike in both directions', () => {
  expect(plane.z(0)).toBeGreaterThanOrEqual(PICTURE.marginPx - 1e-9)
  expect(plane.z(relay.lengthUm)).toBeLessThanOrEqual(PICTURE.widthPx - PICTURE.marginPx + 1e-9)
  expect(plane.z(1) - plane.z(0)).toBeCloseTo(plane.pxPerUm, 12)
  expect(plane.v(0) - plane.v(1)).toBeCloseTo(plane.pxPerUm, 12)
})

describe.each([0, 1] as const)('lens %i of the relay', (i) => {
  const lens = relay.lenses[i]
  const outline = cornersOf('drawn-lens')[i] ?? []

  test('is as high as its aperture, and as long between its poles as it is thick', () => {
    const heights = outline.map(({ vUm }) => vUm - lens.offsetXUm)
    expect(Math.max(...heights)).toBeCloseTo(lens.apertureDiameterUm / 2, 0)
    expect(Math.min(...heights)).toBeCloseTo(-lens.apertureDiameterUm / 2, 0)
    const poles = outline.filter(({ vUm }) => Math.abs(vUm - lens.offsetXUm) < GRAIN_UM).map(({ zUm }) => zUm)
    expect(poles).toHaveLength(2)
    expect(Math.abs(Math.min(...poles) - lens.frontZUm)).toBeLessThan(GRAIN_UM)
    expect(Math.abs(Math.max(...poles) - lens.frontZUm - lens.thicknessUm)).toBeLessThan(GRAIN_UM)
  })

  test('has faces on their spheres, both bulging outwards', () => {
    const backZUm = lens.frontZUm + lens.thicknessUm
    for (const [n, { zUm, vUm }] of outline.entries()) {
      const isFront = n < outline.length / 2
      const radiusUm = isFront ? lens.frontRadiusUm : lens.backRadiusUm
      const depthUm = isFront ? zUm - lens.frontZUm : backZUm - zUm
      if (!Number.isFinite(radiusUm)) expect(Math.abs(depthUm)).toBeLessThan(GRAIN_UM)
      // Distance from the centre of the sphere.
      else
        expect(Math.abs(Math.hypot(radiusUm - depthUm, vUm - lens.offsetXUm) - radiusUm)).toBeLessThan(
          2 * GRAIN_UM,
        )
    }
  })
})

test('the beam is as wide as its radius on either side of the chief ray', () => {
  const [beam = []] = cornersOf('drawn-beam')
  const count = relay.path.length
  expect(beam).toHaveLength(2 * count)
  for (const [i, at] of relay.path.entries()) {
    const [above, below] = [beam[i], beam[2 * count - 1 - i]]
    expect(Math.abs((above?.zUm ?? 0) - at.zUm)).toBeLessThan(GRAIN_UM)
    expect(Math.abs((above?.vUm ?? 0) - at.chiefXUm - at.radiusXUm)).toBeLessThan(GRAIN_UM)
    expect(Math.abs((below?.vUm ?? 0) - at.chiefXUm + at.radiusXUm)).toBeLessThan(GRAIN_UM)
  }
})

test('its table has distances that, with both lenses, are the whole way from end face to end face', () => {
  const design = project.candidates.find(({ id }) => id === 'relay')!
  const [figure] = jointDrawings(project, design, evaluation)
  const distances = (figure?.table.rows ?? []).map(([, value]) => Number(value))
  const thick = relay.lenses.reduce((sum, { thicknessUm }) => sum + thicknessUm, 0)
  expect(distances.reduce((sum, each) => sum + each, thick)).toBeCloseTo(relay.lengthUm, 6)
  expect(distances[0]).toBe(relay.lenses[0].frontZUm)
  expect(figure?.sentence).toContain(`collimated beam ${relay.collimatedMfdUm.toFixed(0)} µm`)
})
