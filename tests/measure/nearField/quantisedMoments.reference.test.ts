import { describe, expect, test } from 'vitest'
import { secondMomentWidths } from '../../../src/measure'
import { fitImageGaussian } from '../../../src/measure/nearField/imageFit'
import { roundingStandard } from '../../../src/measure/nearField/quantisedMoments'
import { gaussianImage, randomSource } from '../support/synthetic'

const TURNED = { size: 128, pixelUm: 0.25, majorUm: 8, minorUm: 6, azimuthDeg: 20 }

/** An 8-bit image of a turned elliptical Gaussian, its background anywhere between two counts. */
function camera8(seed: number, noise: number) {
  const { uniform, normal } = randomSource(seed)
  const majorUm = 7 + 3 * uniform()
  const minorUm = majorUm * (0.6 + 0.3 * uniform())
  const azimuthDeg = 160 * uniform() - 80
  const image = gaussianImage({
    size: 160,
    pixelUm: 0.25,
    majorUm,
    minorUm,
    azimuthDeg,
    peak: 120 + 110 * uniform(),
    background: 1 + 4 * uniform(),
    noise,
    normal,
    fullScale: 255,
  })
  return { image, majorUm, minorUm, azimuthDeg }
}

describe('an 8-bit camera that rounds more than it rustles', () => {
  test.each([0, 0.1, 0.2])(
    'with noise of %s counts gives both axes within 0.5 % and the azimuth within 0.5°',
    (noise) => {
      for (let seed = 1; seed <= 25; seed++) {
        const { image, majorUm, minorUm, azimuthDeg } = camera8(seed, noise)
        const result = secondMomentWidths(image)
        expect(result.warnings.join()).toMatch(/the same count/)
        expect(Math.abs(result.majorUm / majorUm - 1), `seed ${seed}`).toBeLessThan(0.005)
        expect(Math.abs(result.minorUm / minorUm - 1), `seed ${seed}`).toBeLessThan(0.005)
        expect(Math.abs((result.azimuthRad * 180) / Math.PI - azimuthDeg)).toBeLessThan(0.5)
        expect(Math.abs(result.majorUm - majorUm)).toBeLessThan(result.majorUncertaintyUm)
        const fit = fitImageGaussian(image, result)
        expect(Math.abs(fit.majorUm / majorUm - 1)).toBeLessThan(0.006)
      }
    },
  )

  test('finds the centroid and the azimuth of a beam that is not in the middle', () => {
    const image = gaussianImage({
      ...TURNED,
      peak: 150,
      background: 2.3,
      fullScale: 255,
      centreUm: [13.1, 18.7],
    })
    const result = secondMomentWidths(image)
    expect(result.warnings.join()).toMatch(/the same count/)
    expect(result.centroidXUm).toBeCloseTo(13.1, 2)
    expect(result.centroidYUm).toBeCloseTo(18.7, 2)
    expect(Math.abs((result.azimuthRad * 180) / Math.PI - 20)).toBeLessThan(0.2)
  })

  test('says how unsure the wings leave the width, and less so for a deeper camera', () => {
    const { image } = camera8(3, 0)
    const part = secondMomentWidths(image).budget.major.contributions.find((each) =>
      /rounding/.test(each.source),
    )!
    expect(part.standardUm).toBeGreaterThan(0)
    expect(roundingStandard(4000)).toBeLessThan(0.1 * roundingStandard(200))
  })

  test('a 16-bit image with noise is none of it', () => {
    const { normal } = randomSource(1)
    const image = gaussianImage({
      ...TURNED,
      peak: 50_000,
      background: 200,
      noise: 25,
      normal,
    })
    const result = secondMomentWidths(image)
    expect(result.warnings).toEqual([])
    expect(result.budget.major.contributions.find((each) => /rounding/.test(each.source))?.standardUm).toBe(0)
  })
})

test('for a camera that clips its noise at zero, a raised black level is advised', () => {
  const { normal } = randomSource(4)
  const image = gaussianImage({
    ...TURNED,
    peak: 3000,
    background: 0,
    noise: 8,
    normal,
  })
  const cut = { ...image, pixels: image.pixels.map((value) => Math.max(0, value)) }
  expect(secondMomentWidths(cut).warnings.join()).toMatch(/exactly zero.*black level/)
})
