import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { offsetScanMfd, readScan } from '../../../src/measure'
import { rasterScanMfd } from '../../../src/measure/offset/rasterScanMfd'
import { uniform } from '../../support/arbitrary'
import { gaussianOffsetScan, randomSource } from '../support/synthetic'
import { benchText, truth } from '../support/truth'

const relative = (value: number, reference: number) => Math.abs(value / reference - 1)

describe('reference scans (Gaussian probe and mode, numpy)', () => {
  for (const name of ['offset-scan-1.csv', 'offset-scan-2.csv']) {
    for (const [column, axis] of [
      [1, 'X'],
      [2, 'Y'],
    ] as const) {
      test(`${name}, axis ${axis}: MFD and centre within the stated uncertainty, and within 0.5 %`, () => {
        const known = truth[name]!
        const mfd = known[`mfd${axis}Um`]
        const scan = readScan(benchText(name))
        const result = offsetScanMfd({
          positionUm: scan.columns[0]!.values,
          power: scan.columns[column]!.values,
          probeMfdUm: known.probeMfdUm,
        })
        expect(relative(result.mfdUm, mfd)).toBeLessThan(0.005)
        expect(Math.abs(result.mfdUm - mfd)).toBeLessThan(result.uncertaintyUm)
        expect(Math.abs(result.centreUm - known[`centre${axis}Um`])).toBeLessThan(
          3 * result.centreStandardUm + 1e-6,
        )
        expect(result.warnings).toEqual([])
      })
    }
  }
})

describe('laws', () => {
  test('any Gaussian scan without noise gives back its MFD and centre to 1e-6', () => {
    fc.assert(
      fc.property(uniform(2, 11), uniform(0.3, 1.5), uniform(-1, 1), (probeMfdUm, ratio, centreUm) => {
        const mfdUm = probeMfdUm * ratio
        fc.pre(mfdUm < 11)
        const result = offsetScanMfd(gaussianOffsetScan({ probeMfdUm, mfdUm, centreUm }))
        return relative(result.mfdUm, mfdUm) < 1e-6 && Math.abs(result.centreUm - centreUm) < 1e-6
      }),
      { numRuns: 40 },
    )
  })

  test('a scan whose stage starts far from zero moves the centre with it and keeps the MFD', () => {
    const scan = gaussianOffsetScan({ probeMfdUm: 6, mfdUm: 4.4, centreUm: 0.3 })
    for (const shiftUm of [-4000, 4000]) {
      const moved = offsetScanMfd({ ...scan, positionUm: scan.positionUm.map((x) => x + shiftUm) })
      expect(relative(moved.mfdUm, 4.4)).toBeLessThan(1e-6)
      expect(Math.abs(moved.centreUm - shiftUm - 0.3)).toBeLessThan(1e-6)
    }
  })

  test('order and power scale change nothing; lengths scale together', () => {
    const scan = gaussianOffsetScan({
      probeMfdUm: 6,
      mfdUm: 4.4,
      centreUm: 0.3,
      proportional: 0.005,
      normal: randomSource(3).normal,
    })
    const base = offsetScanMfd(scan)
    const reversed = offsetScanMfd({
      ...scan,
      positionUm: [...scan.positionUm].reverse(),
      power: [...scan.power].reverse(),
    })
    const brighter = offsetScanMfd({ ...scan, power: scan.power.map((p) => 1e-3 * p) })
    const longer = offsetScanMfd({
      positionUm: scan.positionUm.map((x) => 2 * x),
      power: scan.power,
      probeMfdUm: 12,
    })
    expect(reversed.mfdUm).toBe(base.mfdUm)
    expect(relative(brighter.mfdUm, base.mfdUm)).toBeLessThan(1e-6)
    expect(relative(longer.mfdUm, 2 * base.mfdUm)).toBeLessThan(1e-6)
    expect(relative(longer.uncertaintyUm, 2 * base.uncertaintyUm)).toBeLessThan(1e-3)
  })

  test('each stated uncertainty has the sensitivity that moving that input shows', () => {
    const scan = gaussianOffsetScan({ probeMfdUm: 10.4, mfdUm: 3.2, centreUm: 0 })
    const base = offsetScanMfd(scan)
    const part = (input: object, source: string) =>
      offsetScanMfd({ ...scan, ...input }).budget.contributions.find((c) => c.source === source)!.standardUm
    const probe = offsetScanMfd({ ...scan, probeMfdUm: 10.401 }).mfdUm - base.mfdUm
    expect(part({ probeMfdStandardUm: 0.001 }, 'probe MFD')).toBeCloseTo(-probe, 5)
    const stage =
      offsetScanMfd({ ...scan, positionUm: scan.positionUm.map((x) => 1.0001 * x) }).mfdUm - base.mfdUm
    expect(part({ stageScaleStandard: 0.0001 }, 'stage scale')).toBeCloseTo(stage, 5)
    const bent =
      offsetScanMfd({ ...scan, power: scan.power.map((p) => (p - 0.4) ** 1.0001) }).mfdUm - base.mfdUm
    expect(part({ linearityStandard: 0.0001 }, 'detector linearity')).toBeCloseTo(-bent, 5)
  })
})

describe('the scan as a tolerance curve', () => {
  test('measured windows equal the closed form W·[L ln10/20]^½ for a Gaussian', () => {
    // 10.4/3.0 um: 1 dB at 1.83634 um (closed form, published values item 1).
    const result = offsetScanMfd(gaussianOffsetScan({ probeMfdUm: 10.4, mfdUm: 3, centreUm: 0, points: 481 }))
    expect(result.windows.map((w) => w.excessDb)).toEqual([0.5, 1, 3])
    expect(relative(result.windows[1]!.fittedHalfWidthUm, 1.83634)).toBeLessThan(1e-5)
    for (const window of result.windows)
      expect(relative(window.measuredHalfWidthUm!, window.fittedHalfWidthUm)).toBeLessThan(1e-3)
  })

  test('a level that the scan does not reach is null, not a number', () => {
    const scan = gaussianOffsetScan({ probeMfdUm: 10.4, mfdUm: 9, centreUm: 0 })
    const narrow = scan.positionUm.map((x) => x / 4)
    const power = narrow.map((x) => Math.exp((-2 * x * x) / (5.2 ** 2 + 4.5 ** 2)))
    const result = offsetScanMfd({ positionUm: narrow, power, probeMfdUm: 10.4 })
    expect(result.windows[2]!.measuredHalfWidthUm).toBeNull()
    expect(result.warnings.join()).toMatch(/does not reach the background/)
  })
})

describe('what cannot be, and what looks odd', () => {
  const scan = gaussianOffsetScan({ probeMfdUm: 6, mfdUm: 4, centreUm: 0 })

  test('a scan narrower than its probe is an error that explains itself', () => {
    expect(() => offsetScanMfd({ ...scan, probeMfdUm: 8 })).toThrow(
      /7.211 µm wide.*wider than the probe alone, which is 8 µm/,
    )
  })

  test('no peak, no signal, too few points and values that are not finite are named', () => {
    expect(() => offsetScanMfd({ ...scan, power: scan.power.map(() => 0) })).toThrow(/no signal/)
    expect(() => offsetScanMfd({ ...scan, power: scan.positionUm.map((x) => 20 + x) })).toThrow(
      /both sides of a peak|narrower|wider/,
    )
    expect(() => offsetScanMfd({ ...scan, positionUm: [1, 2], power: [1, 2] })).toThrow(
      /number of different positions is 2; must be 8 or more/,
    )
    expect(() =>
      offsetScanMfd({ ...scan, power: scan.power.map((p, i) => (i === 3 ? Infinity : p)) }),
    ).toThrow(/power 4 is Infinity/)
    expect(() => offsetScanMfd({ ...scan, probeMfdUm: -1 })).toThrow(/probeMfdUm is -1/)
  })

  test('a saturated top, a mode that is not Gaussian and a probe that hides the mode are warned of', () => {
    const clipped = offsetScanMfd({ ...scan, power: scan.power.map((p) => Math.min(p, 150)) })
    expect(clipped.warnings.join()).toMatch(/saturated/)
    const twoLobes = scan.positionUm.map((x) => Math.exp(-((x - 2.4) ** 2)) + Math.exp(-((x + 2.4) ** 2)))
    expect(offsetScanMfd({ ...scan, probeMfdUm: 2, power: twoLobes }).warnings.join()).toMatch(
      /departs from a Gaussian by/,
    )
    const noisy = gaussianOffsetScan({
      probeMfdUm: 10.4,
      mfdUm: 2.5,
      centreUm: 0,
      constant: 0.02,
      normal: randomSource(11).normal,
    })
    expect(offsetScanMfd(noisy).warnings.join()).toMatch(/probe \(10.4 µm\) dominates/)
  })

  test('200 000 points are averaged in groups and said so, without moving the result', () => {
    const long = gaussianOffsetScan({
      probeMfdUm: 6,
      mfdUm: 4,
      centreUm: 0.2,
      points: 200_000,
      proportional: 0.01,
      normal: randomSource(2).normal,
    })
    const result = offsetScanMfd(long)
    expect(Math.abs(result.mfdUm - 4)).toBeLessThan(1.5 * result.uncertaintyUm)
    expect(result.warnings.join()).toMatch(/averaged in groups of 49/)
  })
})

describe('raster', () => {
  const raster = (majorUm: number, minorUm: number, azimuthDeg: number, probeMfdUm: number, noise = 0) => {
    const { normal } = randomSource(9)
    const t = (azimuthDeg * Math.PI) / 180
    const [a, b, p] = [(majorUm / 2) ** 2, (minorUm / 2) ** 2, (probeMfdUm / 2) ** 2]
    const xUm: number[] = []
    const yUm: number[] = []
    const power: number[] = []
    for (let y = -8; y <= 8; y += 0.5) {
      for (let x = -8; x <= 8; x += 0.5) {
        const u = Math.cos(t) * (x - 0.4) + Math.sin(t) * (y + 0.7)
        const v = Math.cos(t) * (y + 0.7) - Math.sin(t) * (x - 0.4)
        xUm.push(x)
        yUm.push(y)
        power.push(50 * Math.exp((-2 * u * u) / (a + p) - (2 * v * v) / (b + p)) + 1 + 50 * noise * normal())
      }
    }
    return { xUm, yUm, power, probeMfdUm }
  }

  test('a turned elliptical mode comes back with widths, azimuth and centre', () => {
    const result = rasterScanMfd(raster(4, 2.6, 25, 5))
    expect(relative(result.majorUm, 4)).toBeLessThan(1e-6)
    expect(relative(result.minorUm, 2.6)).toBeLessThan(1e-6)
    expect(result.azimuthRad).toBeCloseTo((25 * Math.PI) / 180, 6)
    expect([result.centreXUm, result.centreYUm]).toEqual([expect.closeTo(0.4, 6), expect.closeTo(-0.7, 6)])
  })

  test('with noise the truth lies within the stated uncertainty', () => {
    const result = rasterScanMfd(raster(4, 2.6, 25, 5, 0.005))
    expect(Math.abs(result.majorUm - 4)).toBeLessThan(1.5 * result.majorUncertaintyUm)
    expect(Math.abs(result.minorUm - 2.6)).toBeLessThan(1.5 * result.minorUncertaintyUm)
  })

  test('stated uncertainties of probe, stage and detector enter with the effect that each has on the widths', () => {
    const scan = raster(4, 2.6, 25, 5)
    const [probe, stage, detector] = [0.05, 0.003, 0.004]
    const { budget, majorUm, minorUm } = rasterScanMfd({
      ...scan,
      probeMfdStandardUm: probe,
      stageScaleStandard: stage,
      linearityStandard: detector,
    })
    const background = 1
    const shifted = {
      'probe MFD': rasterScanMfd({ ...scan, probeMfdUm: 5 + probe }),
      'stage scale': rasterScanMfd({
        ...scan,
        xUm: scan.xUm.map((x) => x * (1 + stage)),
        yUm: scan.yUm.map((y) => y * (1 + stage)),
      }),
      'detector linearity': rasterScanMfd({
        ...scan,
        power: scan.power.map((p) => Math.max(0, p - background) ** (1 + detector) + background),
      }),
    }
    for (const [source, moved] of Object.entries(shifted)) {
      const stated = (axis: 'major' | 'minor') =>
        budget[axis].contributions.find((each) => each.source === source)?.standardUm ?? 0
      expect(stated('major') / Math.abs(moved.majorUm - majorUm)).toBeCloseTo(1, 1)
      expect(stated('minor') / Math.abs(moved.minorUm - minorUm)).toBeCloseTo(1, 1)
    }
  })

  test('a circular mode says that its azimuth is not meaningful; one narrower than the probe is refused', () => {
    expect(rasterScanMfd(raster(4, 4, 0, 5, 0.01)).warnings.join()).toMatch(/azimuth is not meaningful/)
    expect(() => rasterScanMfd({ ...raster(4, 2.6, 25, 5), probeMfdUm: 6 })).toThrow(
      /wider than the probe alone/,
    )
  })
})
