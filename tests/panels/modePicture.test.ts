// A solved mode as its pictures show it, for a Gaussian field in a cross-section with leaning walls.

import { describe, expect, test } from 'vitest'
import type { FacetMode } from '../../src/analysis/crossSection/facetMode'
import { newCore, newLayer } from '../../src/model/parts/newCrossSection'
import { quantityOf } from '../../src/model/quantity/quantity'
import { cutLine, modePicture } from '../../src/panels/parts/crossSection/modePicture'
import { boxOf, coreCorners, framed, layerHeights } from '../../src/panels/parts/crossSection/sectionShapes'

const um = (value: number) => quantityOf(value, 'um')
const core = {
  ...newCore('core-1', 2),
  x: um(0.3),
  width: um(1),
  height: um(0.4),
  sidewall: quantityOf(80, 'deg'),
}

describe('a core with leaning walls', () => {
  const [corners = []] = coreCorners({ cores: [core] })

  test('has its width at half its height, and walls of the stated angle', () => {
    const [lowerLeft, lowerRight, upperRight, upperLeft] = corners
    const middle = ((lowerRight?.xUm ?? 0) + (upperRight?.xUm ?? 0)) / 2
    expect(middle).toBeCloseTo(0.3 + 0.5, 12)
    expect(((lowerLeft?.xUm ?? 0) + (upperLeft?.xUm ?? 0)) / 2).toBeCloseTo(0.3 - 0.5, 12)
    expect([lowerLeft?.yUm, upperLeft?.yUm]).toEqual([2, 2.4])
    const lean = (lowerRight?.xUm ?? 0) - (upperRight?.xUm ?? 0)
    expect((Math.atan2(0.4, lean) * 180) / Math.PI).toBeCloseTo(80, 9)
  })

  test('of diffused glass is the box of its 1/e widths, whatever its wall angle', () => {
    const [box = []] = coreCorners({ cores: [{ ...core, profile: 'buried Gaussian' }] })
    expect(boxOf(box)).toEqual({ leftUm: -0.2, rightUm: 0.8, bottomUm: 2, topUm: 2.4 })
  })

  test('is framed with a margin on all sides, in the shape of the picture', () => {
    const box = { leftUm: -2, rightUm: 4, bottomUm: 1, topUm: 2 }
    const wide = framed(box, 1, 2)
    expect([wide.leftUm, wide.rightUm]).toEqual([-3, 5])
    expect([wide.bottomUm, wide.topUm]).toEqual([-0.5, 3.5])
  })

  test('lies on layers whose borders add up from the substrate', () => {
    const layers = [2, 0.5, 3].map((thickness, i) => ({
      ...newLayer(`layer-${i}`),
      thickness: um(thickness),
    }))
    expect(layerHeights({ layers })).toEqual([0, 2, 2.5, 5.5])
  })
})

describe('a Gaussian mode', () => {
  // Amplitude exp(-(x / wx)² - (y / wy)²), 1/e² intensity diameters 4 and 3 um about (1, 5).
  const amplitude = (x: number, y: number) => Math.exp(-((x / 2) ** 2) - (y / 1.5) ** 2)
  const places = Array.from({ length: 9 }, (_, i) => i - 4)
  const mode = {
    picture: {
      wavelengthUm: 1.55,
      index: 1,
      nx: 9,
      ny: 9,
      dxUm: 1,
      dyUm: 0.5,
      x0Um: -4,
      y0Um: -2,
      re: Float64Array.from(places.flatMap((j) => places.map((i) => -3 * amplitude(i, j / 2)))),
      im: new Float64Array(81),
    },
    widths: { gaussian: { centreUm: { x: 1, y: 5 }, mfdUm: { x: 4, y: 3 } } },
  } as unknown as FacetMode
  const drawn = modePicture(mode, { cores: [core], layers: [] })

  test('is in decibels of its intensity below the peak, at its place in the cross-section', () => {
    expect([drawn.xUm[0], drawn.xUm[4], drawn.yUm[4], drawn.yUm[8]]).toEqual([-3, 1, 5, 7])
    for (const [j, i] of [
      [4, 4],
      [4, 6],
      [7, 2],
    ] as const)
      expect(drawn.rowsDb[j]?.[i]).toBeCloseTo(10 * Math.log10(amplitude(i - 4, (j - 4) / 2) ** 2), 9)
    // At the radius of the best-fit Gaussian, 1/e² of the intensity.
    expect(drawn.rowsDb[4]?.[6]).toBeCloseTo(10 * Math.log10(Math.exp(-2)), 9)
    expect(drawn.gaussian).toEqual({ centreX: 1, centreY: 5, mfdX: 4, mfdY: 3 })
    expect(drawn.cores[0]?.x.at(-1)).toBe(drawn.cores[0]?.x[0])
  })

  test('cut through its centre is its own best-fit Gaussian', () => {
    const positionUm = Float64Array.from(places, (x) => x + 1)
    const cut = cutLine('x', { positionUm, field: Float64Array.from(places, (x) => amplitude(x, 0)) }, 1, 4)
    expect(cut.positionUm).toEqual(places)
    for (const [i, db] of cut.db.entries()) expect(cut.gaussianDb[i]).toBeCloseTo(db, 9)
  })
})
