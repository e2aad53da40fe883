// Contact of a joint with angled faces in either plane: by the budget's own path, and by the directions that its view states.

import { describe, expect, test } from 'vitest'
import { contactFromUm, contactOf } from '../../../src/analysis/clearance/contact'
import { clearanceSetup } from '../../../src/analysis/clearance/jointClearance'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { matchedProject } from '../yield/cases'

const um = (value: number) => quantityOf(value, 'um')
const deg = (value: number) => quantityOf(value, 'deg')

describe.each(['x', 'y'] as const)('faces angled in %s', (facePlane) => {
  const project = matchedProject(6, 2, {
    ...{ facePlane, gap: um(90), nearFaceAngle: deg(8), farFaceAngle: deg(-5), roll: deg(10) },
    ...{ offsetX: um(3), offsetY: um(-4), tiltX: deg(1.5), tiltY: deg(-2) },
  })
  for (const fibre of project.fibres) fibre.index = { kind: 'value', index: quantityOf(1.45, '1') }
  for (const facet of project.facets) {
    facet.index = { kind: 'value', index: quantityOf(2, '1') }
    facet.chipEdge = { recess: um(15), ledgeDepth: um(10), chipThickness: um(700) }
  }
  const result = compileCandidate(project, 'matched')
  if (!result.ok) throw new Error('compiles')
  const { joins, nominal, variables } = result.value
  const [join] = joins
  const setup = clearanceSetup(project, project.candidates[0]!, 1)
  if (join === undefined || setup === null) throw new Error('a joint with an edge')
  const poseAt = (v: Float64Array) => {
    const { joint, directions } = join.view!(v)
    return {
      ...{ axisXRad: directions!.nearAxisXRad, axisYRad: directions!.nearAxisYRad, rollRad: joint.rollRad },
      ...{ beamXRad: directions!.farBeamXRad, beamYRad: directions!.farBeamYRad },
      ...{ offsetXUm: joint.offsetXUm, offsetYUm: joint.offsetYUm },
    }
  }

  test('the guide is turned by what both faces refract, in the plane of the angles alone', () => {
    const pose = poseAt(nominal)
    const inPlane = (deg_: number, index: number) => {
      const face = (deg_ * Math.PI) / 180
      return Math.asin(index * Math.sin(face)) - face
    }
    // Snell at either face: the beam leaves the fibre and the chip's own beam leaves the facet at these slopes against their axes.
    const [near, far] = [inPlane(8, 1.45), inPlane(-5, 2)]
    const [along, across] =
      facePlane === 'x' ? [pose.axisXRad, pose.axisYRad] : [pose.axisYRad, pose.axisXRad]
    const [tiltAlong, tiltAcross] = facePlane === 'x' ? [1.5, -2] : [-2, 1.5]
    expect(Math.abs(Math.abs(along - (tiltAlong * Math.PI) / 180) - Math.abs(far - near))).toBeLessThan(2e-3)
    expect(across).toBeCloseTo((tiltAcross * Math.PI) / 180, 3)
  })

  test('contact is that of the stated directions', () => {
    const expected = contactOf(setup.solids, setup.obstacles, poseAt(nominal))
    expect(join.contact?.gapUm).toBeCloseTo(expected?.gapUm ?? Number.NaN, 9)
    expect([join.contact?.body, join.contact?.obstacle]).toEqual([expected?.body, expected?.obstacle])
    expect(expected?.gapUm).toBeGreaterThan(15.5)
    const slot = variables.findIndex(({ path }) => path.at(-1) === 'gap')
    const clearanceAt = (gapUm: number) => join.clearanceUm!(nominal.with(slot, gapUm))
    // Clearance is counted from contact straight ahead of where the fibre stands.
    const ahead = contactFromUm(setup.solids, setup.obstacles, poseAt(nominal), 90) ?? Number.NaN
    expect(clearanceAt(90)).toBeCloseTo(90 - ahead, 9)
    // Below contact the budget stays there, and the clearance says by how much glass and chip would overlap.
    const touching = join.contact?.gapUm ?? 0
    expect(clearanceAt(touching - 2)).toBeLessThan(-1)
    expect(join.view!(nominal.with(slot, touching - 2)).joint.gapUm).toBeCloseTo(touching, 9)
  })
})
