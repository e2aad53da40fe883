import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { jointBodies } from '../../src/figures/drawing/jointBodies'
import { jointPlane } from '../../src/figures/drawing/jointPlane'
import { nearSide, reachUm } from '../../src/figures/drawing/nearSide'
import { demoProject } from '../../src/model/index'

test('how far bodies reach is read off their edges, and is nothing where there is no body', () => {
  const wedge = [
    { zUm: -10, vUm: 4 },
    { zUm: 2, vUm: 0 },
    { zUm: -10, vUm: -4 },
  ]
  expect(reachUm([wedge], 0)).toBe(2)
  expect(reachUm([wedge], 1)).toBeCloseTo(-1, 12)
  expect(reachUm([wedge], -3)).toBeCloseTo(-7, 12)
  expect(reachUm([wedge], 5)).toBe(Number.NEGATIVE_INFINITY)
  const shorter = wedge.map(({ zUm, vUm }) => ({ zUm: zUm - 5, vUm: 2 * vUm }))
  expect(reachUm([shorter, wedge], 1)).toBeCloseTo(-1, 12)
  expect(reachUm([shorter, wedge], 5)).toBeGreaterThan(Number.NEGATIVE_INFINITY)
})

test('a lensed end reaches to its gap on the axis, and falls back from it as a sphere does', () => {
  const project = demoProject()
  const design = project.candidates.find(({ id }) => id === 'lensed-fibre')!
  const view = evaluateCandidate(project, 'lensed-fibre').joints[0]!
  const parts = jointBodies(project, design, view)!
  const { bodies } = nearSide({
    axis: 'x',
    view,
    plane: jointPlane(view, parts, 'x'),
    parts,
    scale: { pxPerUm: 10, middleXPx: 200, middleYPx: 80, centreZUm: -6 },
    widthPx: 400,
  })
  expect(reachUm(bodies, 0)).toBeCloseTo(-view.joint.gapUm, 9)
  // Sagitta of a sphere of radius R: R - sqrt(R^2 - v^2); the outline is a polygon in it.
  const radiusUm = view.near.tip?.radiusUm ?? 10
  for (const vUm of [2, -4, 6]) {
    const sagUm = radiusUm - Math.sqrt(radiusUm ** 2 - vUm ** 2)
    expect(Math.abs(reachUm(bodies, vUm) + view.joint.gapUm + sagUm)).toBeLessThan(0.1)
  }
})
