import { describe, expect, test } from 'vitest'
import {
  lossOverLength,
  lossOverTip,
  type TaperRequest,
  taperLossDb,
  taperSteps,
} from '../../../src/analysis/crossSection/taperChain'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { finish } from '../../../src/numerics/steps'

const request: TaperRequest = {
  section: newCrossSection(0.35, 0.3),
  wavelengthUm: 1.55,
  cells: { x: 40, y: 30 },
  tipUm: 0.35,
  routingUm: 1,
}
const chain = finish(taperSteps(request))
const linear = { lengthUm: 100, exponent: 1 }

describe('the modes along a taper', () => {
  test('go from below the tip to the routing waveguide, each bound tighter than the one before', () => {
    const widths = chain.stations.map(({ widthUm }) => widthUm)
    expect(widths).toContain(0.35)
    expect(widths.at(-1)).toBeCloseTo(1, 9)
    expect(widths).toEqual(widths.toSorted((a, b) => a - b))
    const indices = chain.stations.map(({ effectiveIndex }) => effectiveIndex)
    expect(indices).toEqual(indices.toSorted((a, b) => a - b))
    const overlaps = chain.stations.map(({ overlapWithRouting }) => overlapWithRouting)
    expect(overlaps).toEqual(overlaps.toSorted((a, b) => a - b))
    expect(overlaps.at(-1)).toBeCloseTo(1, 9)
    for (const { overlapWithNext } of chain.stations) expect(overlapWithNext).toBeGreaterThan(0.95)
  })

  test('lose at no length what the joint of both ends loses', () => {
    const tip = chain.stations.find(({ widthUm }) => widthUm === 0.35)
    const joint = -20 * Math.log10(tip?.overlapWithRouting ?? 0)
    expect(joint).toBeGreaterThan(0.05)
    expect(taperLossDb(chain, { lengthUm: 1e-3, exponent: 1 })).toBeCloseTo(joint, 4)
  })

  test('lose less over a greater length, and more from a narrower tip', () => {
    const overLength = lossOverLength(chain, linear)
    expect(overLength.at(-1)?.lossDb).toBeLessThan(0.2 * (overLength[0]?.lossDb ?? 0))
    const overTip = lossOverTip(chain, linear)
    expect(overTip.length).toBeGreaterThan(4)
    expect(overTip[0]?.at).toBeLessThan(0.35)
    expect(overTip[0]?.lossDb).toBeGreaterThan(overTip.at(-1)?.lossDb ?? 1)
    expect(overTip.find(({ at }) => at === 0.35)?.lossDb).toBe(taperLossDb(chain, linear))
  })

  test('are refused where the routing waveguide is no wider than the tip', () => {
    expect(() => finish(taperSteps({ ...request, routingUm: 0.3 }))).toThrow(
      'routing width is 0.3 µm; must be',
    )
  })
})
