import { encode as encodePng } from 'fast-png'
import { describe, expect, test } from 'vitest'
import { readImage, secondMomentWidths } from '../../src/measure'
import { petermann1Over2 } from '../../src/measure/farField/petermannRatio'
import { pixelScaleUm, saturatedPixels } from '../../src/measure/images/image'
import { fitImageGaussian, lineCuts } from '../../src/measure/nearField/imageFit'
import { principalWidths } from '../../src/measure/nearField/imageMoments'
import { KNIFE_EDGE_FACTORS, knifeEdgeWidth } from '../../src/measure/nearField/knifeEdge'
import { gaussianImage, randomSource } from './support/synthetic'
import { benchBytes, truth } from './support/truth'

const relative = (value: number, reference: number) => Math.abs(value / reference - 1)
const rad = (deg: number) => (deg * Math.PI) / 180
const beam = {
  size: 200,
  pixelUm: 0.2,
  majorUm: 9,
  minorUm: 6,
  azimuthDeg: -35,
  peak: 50_000,
  background: 300,
  noise: 20,
}

describe('reference image (numpy: turned elliptical Gaussian, background, noise)', () => {
  const image = readImage(benchBytes('near-field-1.pgm'))
  const known = truth['near-field-1.pgm']!
  const input = { ...image, pixelUm: image.pixelUm! }
  const moments = secondMomentWidths(input)

  test('size, depth and pixel scale are read from the file', () => {
    expect(image).toMatchObject({ width: 256, height: 256, bitDepth: 16, pixelUm: 0.25, saturatedCount: 0 })
  })

  test('second moments: axes within 0.5 % and stated uncertainty, azimuth within 0.5°', () => {
    expect(relative(moments.majorUm, known.majorMfdUm)).toBeLessThan(0.005)
    expect(relative(moments.minorUm, known.minorMfdUm)).toBeLessThan(0.005)
    expect(Math.abs(moments.majorUm - known.majorMfdUm)).toBeLessThan(moments.majorUncertaintyUm)
    expect(Math.abs(moments.azimuthRad - rad(known.azimuthDeg))).toBeLessThan(rad(0.5))
    expect([moments.centroidXUm, moments.centroidYUm]).toEqual([
      expect.closeTo(30.3, 1),
      expect.closeTo(33.1, 1),
    ])
    expect(moments.warnings).toEqual([])
  })

  test('2-D Gaussian fit: ten times closer, with a flat residual map and cuts that follow it', () => {
    const fit = fitImageGaussian(input, moments)
    expect(relative(fit.majorUm, known.majorMfdUm)).toBeLessThan(5e-4)
    expect(relative(fit.minorUm, known.minorMfdUm)).toBeLessThan(5e-4)
    expect(Math.abs(fit.azimuthRad - rad(known.azimuthDeg))).toBeLessThan(rad(0.05))
    expect(Math.abs(fit.majorUm - known.majorMfdUm)).toBeLessThan(4 * fit.majorStandardUm)
    expect(fit.residualRms).toBeCloseTo(25 / 52_000, 4)
    expect(fit.residualMap.values.every((v) => Math.abs(v) < 0.005)).toBe(true)
    const [major] = lineCuts(input, fit)
    expect(major.measured.every((v, i) => Math.abs(v - major.fitted[i]!) < 0.01)).toBe(true)
  })

  test('knife edges along both axes agree with 2w for every pair of clip levels', () => {
    for (const clip of ['10-90', '16-84', '20-80'] as const) {
      expect(
        relative(knifeEdgeWidth(input, moments, moments.azimuthRad, clip).mfdUm, known.majorMfdUm),
      ).toBeLessThan(0.005)
      expect(
        relative(
          knifeEdgeWidth(input, moments, moments.azimuthRad + Math.PI / 2, clip).mfdUm,
          known.minorMfdUm,
        ),
      ).toBeLessThan(0.005)
    }
  })
})

describe('published relations', () => {
  test('ISO 11146 example: ⟨x²⟩ 1.9375, ⟨y²⟩ 1.3125, ⟨xy⟩ 0.541266 um² is 6.000 × 4.000 um at 30°', () => {
    const widths = principalWidths(1.9375, 1.3125, 0.541265877365274)
    expect(widths.major).toBeCloseTo(6, 9)
    expect(widths.minor).toBeCloseTo(4, 9)
    expect(widths.azimuthRad).toBeCloseTo(rad(30), 9)
  })

  test('knife-edge travels of a Gaussian over w (error function): 1.281552, 0.994458, 0.841621', () => {
    expect(Object.values(KNIFE_EDGE_FACTORS).map((f) => Number(f.toFixed(6)))).toEqual([
      1.281552, 0.994458, 0.841621,
    ])
  })

  test('Petermann I exceeds II by 4.0 % at V = 2.0 and by 10.1 % at V = 1.6 (exact step-index table)', () => {
    for (const [v, one, two] of [
      [1.6, 1.716394, 1.558721],
      [2.0, 1.291198, 1.241216],
      [2.405, 1.101627, 1.080185],
    ] as const) {
      expect(relative(petermann1Over2(v), one / two)).toBeLessThan(2e-6)
    }
  })
})

describe('laws and warnings', () => {
  test('turning the beam turns the azimuth and keeps the widths', () => {
    for (const azimuthDeg of [-80, -35, 0, 20, 60, 89]) {
      const result = secondMomentWidths(gaussianImage({ ...beam, azimuthDeg, noise: 0 }))
      expect(relative(result.majorUm, 9)).toBeLessThan(0.002)
      expect(relative(result.minorUm, 6)).toBeLessThan(0.002)
      const turn = Math.abs(result.azimuthRad - rad(azimuthDeg)) % Math.PI
      expect(Math.min(turn, Math.PI - turn)).toBeLessThan(rad(0.1))
    }
  })

  test('cuts take every point with two pixels on each side of it, and no other', () => {
    // Cubic convolution reproduces straight lines exactly (R. G. Keys, IEEE Trans. Acoust. Speech Signal Process. 29 (1981) 1153), so
    // that a plane of counts gives its own value at every point of a cut.
    const [width, height, pixelUm] = [16, 12, 0.5]
    const plane = (x: number, y: number) => 100 + 3 * x + 7 * y
    const pixels = Float64Array.from({ length: width * height }, (_, i) =>
      plane(i % width, Math.floor(i / width)),
    )
    const level = gaussianImage({ ...beam, size: 16, pixelUm })
    const input = { ...level, width, height, pixels, pixelUm }
    const fit = {
      ...fitImageGaussian(gaussianImage(beam), secondMomentWidths(gaussianImage(beam))),
      ...{ majorUm: 6.1, minorUm: 5.3, azimuthRad: 0, centreXUm: 3.6, centreYUm: 2.7 },
      ...{ amplitude: 2, background: 10 },
    }
    for (const { axis, positionUm, measured } of lineCuts(input, fit)) {
      const isMajor = axis === 'major'
      const half = 1.5 * (isMajor ? 6.1 : 5.3)
      const wanted = Array.from({ length: 201 }, (_, k) => half * (k / 100 - 1)).filter((at) => {
        const [x, y] = [(3.6 + (isMajor ? at : 0)) / pixelUm, (2.7 + (isMajor ? 0 : at)) / pixelUm]
        return x >= 1 && x < width - 2 && y >= 1 && y < height - 2
      })
      expect(positionUm.length).toBe(wanted.length)
      wanted.forEach((at, i) => {
        const [x, y] = [(3.6 + (isMajor ? at : 0)) / pixelUm, (2.7 + (isMajor ? 0 : at)) / pixelUm]
        expect(positionUm[i]).toBeCloseTo(at, 9)
        expect(measured[i]).toBeCloseTo((plane(x, y) - 10) / 2, 6)
      })
    }
  })

  test('a sloped background is taken off, and said with its size across the image', () => {
    const image = gaussianImage(beam)
    const { width, height } = image
    const pixels = Float64Array.from(
      image.pixels,
      (value, i) => value + (1200 * (i % width)) / width + (400 * Math.floor(i / width)) / height,
    )
    const level = secondMomentWidths(image)
    const sloped = secondMomentWidths({ ...image, pixels })
    expect(relative(sloped.majorUm, level.majorUm)).toBeLessThan(0.005)
    const [, share] = /changes by ([\d.]+) % of the peak/.exec(sloped.warnings.join()) ?? []
    expect(Number(share)).toBeCloseTo((100 * 1600) / beam.peak, 1)
  })

  test('a beam binned for the fit keeps its width (blur of the blocks removed)', () => {
    const image = gaussianImage({
      ...beam,
      size: 700,
      pixelUm: 0.05,
      noise: 20,
      normal: randomSource(4).normal,
    })
    const fit = fitImageGaussian(image, secondMomentWidths(image))
    expect(fit.residualMap.stepUm).toBeGreaterThan(0.05)
    expect(relative(fit.majorUm, 9)).toBeLessThan(1e-3)
    expect(relative(fit.minorUm, 6)).toBeLessThan(1e-3)
  })

  test('a saturated camera is recognised by a plateau below full scale, and the widths are reported as too large', () => {
    const image = gaussianImage({ ...beam, peak: 9000, fullScale: 4095 })
    const result = secondMomentWidths({ ...image, fullScale: 65_535 })
    expect(result.saturatedCount).toBeGreaterThan(100)
    expect(result.warnings.join()).toMatch(/Saturated pixels: \d+ \(4095 counts\)/)
    expect(result.majorUm).toBeGreaterThan(9.2)
  })

  test('a clipped beam, a faint beam and coarse pixels are warned of', () => {
    const edge = secondMomentWidths(gaussianImage({ ...beam, noise: 0, centreUm: [3, 20] }))
    expect(edge.warnings.join()).toMatch(/clipped/)
    const faint = secondMomentWidths(
      gaussianImage({ ...beam, peak: 300, noise: 25, normal: randomSource(8).normal }),
    )
    expect(faint.warnings.join()).toMatch(/times the background noise/)
    const coarse = secondMomentWidths(gaussianImage({ ...beam, size: 60, pixelUm: 1.5 }))
    expect(coarse.warnings.join()).toMatch(/sampling is too coarse/)
  })

  test('wrong sizes, pixels that are not finite and images without a beam are refused by name', () => {
    const image = gaussianImage({ ...beam, size: 40, pixelUm: 1 })
    expect(() => secondMomentWidths({ ...image, width: 41 })).toThrow(/pixels is .*width × height/)
    expect(() => secondMomentWidths({ ...image, pixelUm: 0 })).toThrow(/pixelUm is 0/)
    expect(() => secondMomentWidths({ ...image, pixels: image.pixels.map(() => 7) })).toThrow(/7 everywhere/)
    expect(() =>
      secondMomentWidths({ ...image, pixels: image.pixels.map((p, i) => (i === 9 ? Number.NaN : p)) }),
    ).toThrow(/pixel 10 is/)
  })
})

describe('image files', () => {
  const ascii = (text: string) => new TextEncoder().encode(text)

  test('plain graymap, 8-bit binary graymap and pixel scale in a comment', () => {
    const plain = readImage(ascii('P2\n# pixel_um = 0.4\n4 2\n255\n0 1 2 3\n4 5 6 250\n'))
    expect(plain).toMatchObject({ width: 4, height: 2, bitDepth: 8, pixelUm: 0.4 })
    expect([...plain.pixels]).toEqual([0, 1, 2, 3, 4, 5, 6, 250])
    const binary = readImage(new Uint8Array([...ascii('P5 2 2 255\n'), 9, 8, 7, 255]))
    expect([...binary.pixels]).toEqual([9, 8, 7, 255])
    expect(binary.saturatedCount).toBe(1)
  })

  test('a peak that several pixels share at 8 bit is not saturated; an accumulation at the highest count is', () => {
    const round = gaussianImage({ ...beam, noise: 0, peak: 150, background: 3, fullScale: 255 })
    expect(saturatedPixels(round.pixels, 255)).toBe(0)
    const heap = round.pixels.map((value) => Math.min(value, 120))
    expect(saturatedPixels(heap, 255)).toBe(heap.filter((value) => value === 120).length)
    // Compared with the most frequent of the four counts below the highest, wherever among them it is.
    const counts = [119, 118, 117, 116].map((usual) => [
      ...new Array(19).fill(120),
      ...new Array(5).fill(usual),
    ])
    for (const few of counts) {
      const others = [119, 118, 117, 116].filter((value) => !few.includes(value))
      expect(saturatedPixels([...few, ...others], 255)).toBe(0)
    }
    expect(saturatedPixels([...new Array(21).fill(120), ...new Array(5).fill(119), 118, 117], 255)).toBe(21)
    expect(
      saturatedPixels([...new Array(19).fill(120), 119, 118, 117, 116, ...new Array(9).fill(115)], 255),
    ).toBe(19)
  })

  test.each([
    '0.25 um/px',
    '0.25 µm per pixel',
    'pixel pitch 0.25 um',
    'Pixel size: 250 nm',
    'pixel_um=0.25',
  ])('the comment "%s" tells the pixel pitch', (comment) => {
    expect(pixelScaleUm([comment])).toBeCloseTo(0.25, 12)
  })

  test('PNG of 8 and 16 bit, grey with alpha and colour', () => {
    const grey16 = encodePng({
      width: 2,
      height: 2,
      data: Uint16Array.of(1, 300, 40_000, 65_535),
      depth: 16,
      channels: 1,
    })
    expect([...readImage(grey16).pixels]).toEqual([1, 300, 40_000, 65_535])
    const alpha = encodePng({
      width: 2,
      height: 1,
      data: Uint8Array.of(10, 255, 20, 255),
      depth: 8,
      channels: 2,
    })
    expect([...readImage(alpha).pixels]).toEqual([10, 20])
    const colour = readImage(
      encodePng({ width: 1, height: 1, data: Uint8Array.of(30, 60, 90), depth: 8, channels: 3 }),
    )
    expect([...colour.pixels]).toEqual([60])
    expect(colour.notes).toContain('colour channels averaged')
  })

  /** The smallest 16-bit little-endian grey TIFF: header, one strip, eight tags. */
  const tiff = (pixels: number[], width: number) => {
    const tags = [
      [256, 3, 1, width],
      [257, 3, 1, pixels.length / width],
      [258, 3, 1, 16],
      [259, 3, 1, 1],
      [262, 3, 1, 1],
      [273, 4, 1, 8],
      [277, 3, 1, 1],
      [278, 3, 1, pixels.length / width],
      [279, 4, 1, 2 * pixels.length],
    ]
    const ifd = 8 + 2 * pixels.length
    const view = new DataView(new ArrayBuffer(ifd + 2 + 12 * tags.length + 4))
    view.setUint32(0, 0x49492a00)
    view.setUint32(4, ifd, true)
    for (const [i, p] of pixels.entries()) view.setUint16(8 + 2 * i, p, true)
    view.setUint16(ifd, tags.length, true)
    tags.forEach(([id, type, count, value], i) => {
      const at = ifd + 2 + 12 * i
      view.setUint16(at, id!, true)
      view.setUint16(at + 2, type!, true)
      view.setUint32(at + 4, count!, true)
      if (type === 3) view.setUint16(at + 8, value!, true)
      else view.setUint32(at + 8, value!, true)
    })
    return new Uint8Array(view.buffer)
  }

  test('an uncompressed 16-bit TIFF', () => {
    const image = readImage(tiff([1, 2, 3, 500, 60_000, 7], 3))
    expect(image).toMatchObject({ width: 3, height: 2, bitDepth: 16, format: 'tiff' })
    expect([...image.pixels]).toEqual([1, 2, 3, 500, 60_000, 7])
  })

  test('cut-short, unknown and JPEG files are refused with what is allowed', () => {
    expect(() => readImage(benchBytes('near-field-1.pgm').subarray(0, 5000))).toThrow(
      /PGM data is .*131072 bytes/,
    )
    const png = encodePng({ width: 2, height: 1, data: Uint8Array.of(1, 2), depth: 8, channels: 1 })
    expect(() => readImage(png.subarray(0, 30), 'a.png')).toThrow(/a.png is a PNG that cannot be decoded/)
    expect(() => readImage(Uint8Array.of(0xff, 0xd8, 0xff), 'a.jpg')).toThrow(
      /JPEG compression and its gamma distort/,
    )
    expect(() => readImage(Uint8Array.of(1, 2, 3))).toThrow(/PNG, TIFF or PGM/)
  })
})
