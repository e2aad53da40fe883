// The drawing of a relay of thin lenses against beams carried by their complex parameter and rays by hand, plane by plane.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../../src/analysis/index'
import { compileCandidate } from '../../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { Project } from '../../../../src/model/schema/project'
import { familiesProject, relayElement } from '../../support/families'
import { type Beam, travel } from '../../support/ownRelay'
import { um } from '../../support/realRelays'

const [FRONT, STRETCH, BACK] = [1010, 6000, 295]
const [F1, F2] = [1000, 300]
/** 2.5 mm of index 2 in air. */
const SHORTER = 2500 * (1 - 1 / 2)
const deg = (value: number) => quantityOf(value, 'deg')
const offsets = { offsetX: um(1.5), offsetY: um(-2), tiltX: deg(0.1), tiltY: deg(-0.2) }

const project = familiesProject(
  relayElement({ frontGap: um(FRONT), stretch: um(STRETCH), backGap: um(BACK), ...offsets }),
)
project.requirements.wavelength = quantityOf(1550, 'nm')
for (const fibre of project.fibres)
  if (fibre.id === 'fibre-standard') fibre.mode = { kind: 'mfd', mfdX: um(10.4), mfdY: um(8.2) }
for (const facet of project.facets) Object.assign(facet, { mfdX: um(3), mfdY: um(3.5) })
const evaluation = evaluateCandidate(project, 'relay')
const [view] = evaluation.relays
if (view === undefined) throw new Error('no relay')
// The index of the medium as the design itself reads it.
const INDEX = evaluation.joints[0]?.joint.index ?? 1
const K = (2 * Math.PI * INDEX) / 1.55

const emitted = (mfdUm: number, height = 0, slope = 0): Beam => ({
  height,
  slope,
  qRe: 0,
  qIm: (K * (mfdUm / 2) ** 2) / 2,
})
const radiusOf = ({ qRe, qIm }: Beam) => Math.sqrt((2 * (qRe * qRe + qIm * qIm)) / (K * qIm))
const waistOf = ({ qIm }: Beam) => Math.sqrt((2 * qIm) / K)
/** 1/q less 1/f. */
function focus(beam: Beam, focalUm: number): void {
  beam.slope -= beam.height / focalUm
  const size = beam.qRe ** 2 + beam.qIm ** 2
  const [re, im] = [beam.qRe / size - 1 / focalUm, -beam.qIm / size]
  beam.qRe = re / (re * re + im * im)
  beam.qIm = -im / (re * re + im * im)
}

describe.each([
  ['X', 10.4, 1.5, 0.1, 3],
  ['Y', 8.2, -2, -0.2, 3.5],
] as const)('along %s', (axis, mfdUm, offsetUm, tiltDeg, farUm) => {
  const ray = emitted(mfdUm, offsetUm, (tiltDeg * Math.PI) / 180)
  const at = (zUm: number) => {
    const found = view.path.filter((each) => Math.abs(each.zUm - zUm) < 1e-6)
    return found.map((each) => [each[`radius${axis}Um`], each[`chief${axis}Um`]])
  }
  const here = () => [expect.closeTo(radiusOf(ray), 6), expect.closeTo(ray.height, 6)]

  test('beam and chief ray pass each station', () => {
    expect(at(0)).toEqual([here()])
    travel(ray, FRONT / 2)
    expect(at(FRONT / 2)).toEqual([here()])
    travel(ray, FRONT / 2)
    expect(view.lenses[0][`beamRadius${axis}Um`]).toBeCloseTo(radiusOf(ray), 6)
    const before = here()
    focus(ray, F1)
    expect(at(FRONT)).toEqual([before, before])
    if (axis === 'X') {
      expect(view.collimatedMfdUm).toBeCloseTo(2 * waistOf(ray), 6)
      expect(view.collimatedRayleighUm).toBeCloseTo(ray.qIm, 4)
    }
    travel(ray, STRETCH - SHORTER)
    expect(view.lenses[1][`beamRadius${axis}Um`]).toBeCloseTo(radiusOf(ray), 6)
    const [, chief] = here()
    focus(ray, F2)
    // Behind lens 1 the drawing knows no device: its own end is drawn wider than the beam is.
    expect(at(FRONT + STRETCH).map(([, height]) => height)).toEqual([chief, chief])
    expect(at(FRONT + STRETCH).at(-1)?.[0]).toBeCloseTo(radiusOf(ray), 6)
    travel(ray, BACK)
    expect(at(FRONT + STRETCH + BACK)).toEqual([here()])
    if (axis === 'X') expect(view.magnification).toBeCloseTo(waistOf(ray) / 5.2, 8)
  })

  test('light from the chip arrives at the fibre with its own width', () => {
    const back = emitted(farUm)
    travel(back, BACK)
    expect(view.lenses[1][`fromChipRadius${axis}Um`]).toBeCloseTo(radiusOf(back), 6)
    focus(back, F2)
    travel(back, STRETCH - SHORTER)
    expect(view.lenses[0][`fromChipRadius${axis}Um`]).toBeCloseTo(radiusOf(back), 6)
    focus(back, F1)
    travel(back, FRONT)
    expect(view.fromChipAtNearUm[axis === 'X' ? 0 : 1]).toBeCloseTo(2 * radiusOf(back), 6)
  })
})

/** Without tolerances nothing moves, and no fit of the real lenses is asked for. */
const exactly = (of: Project): Project =>
  JSON.parse(JSON.stringify(of, (key, value) => (key === 'tolerance' ? undefined : value)))

test('lenses of a thickness and a device in the middle of the stretch follow each other', () => {
  const lenses = { lens1Id: 'plano-1', lens2Id: 'plano-2' }
  const gaps = { frontGap: um(700), stretch: um(STRETCH), backGap: um(250) }
  const result = compileCandidate(exactly(familiesProject(relayElement({ ...lenses, ...gaps }))), 'relay')
  const found = result.ok ? result.value.joins[0]?.relay?.(result.value.nominal) : undefined
  if (found === undefined) throw new Error('no relay')
  expect(found.lenses.map(({ frontZUm, thicknessUm }) => [frontZUm, thicknessUm])).toEqual([
    [700, 300],
    [7000, 100],
  ])
  // The curved faces look into the parallel beam.
  const radii = found.lenses.map(({ frontRadiusUm, backRadiusUm }) => [frontRadiusUm, backRadiusUm])
  expect(radii).toEqual([
    [Number.POSITIVE_INFINITY, 450],
    [140, Number.POSITIVE_INFINITY],
  ])
  expect(found.device).toMatchObject({ startZUm: 1000 + (STRETCH - 2500) / 2, lengthUm: 2500 })
  expect([found.lengthUm, found.stretchUm]).toEqual([7350, STRETCH])
  expect([0, 16, 17, 33, 34, 50].map((i) => found.path[i]?.zUm)).toEqual([0, 700, 1000, 7000, 7100, 7350])
})
