// Offset scans and rasters of Gaussian modes without noise: what is stated besides the diameter, in closed form.

import { describe, expect, test } from 'vitest'
import { orderScan } from '../../../src/measure/fit/orderedScan'
import { measuredLossCurve } from '../../../src/measure/offset/measuredLossCurve'
import { fitOffsetScan } from '../../../src/measure/offset/offsetScanFit'
import {
  type OffsetScanInput,
  type OffsetScanResult,
  offsetScanMfd,
} from '../../../src/measure/offset/offsetScanMfd'
import { type RasterScanInput, rasterScanMfd } from '../../../src/measure/offset/rasterScanMfd'
import { randomSource } from '../support/synthetic'

const along = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
/** Radius of the scan of a 5 µm mode by a 4 µm probe. */
const RADIUS = Math.hypot(2.5, 2)
const bell = (x: number) => 80 * Math.exp(-2 * ((x - 0.4) / RADIUS) ** 2) + 3
const scanOf = (positionUm: readonly number[], of = bell, more: object = {}): OffsetScanInput => ({
  ...{ positionUm, power: positionUm.map(of), probeMfdUm: 4 },
  ...more,
})
const partsOf = ({ contributions }: OffsetScanResult['budget']) =>
  Object.fromEntries(contributions.map(({ source, standardUm }) => [source, standardUm]))

describe('an offset scan', () => {
  test('states centre, peak, level, radius and curve, and each uncertainty by its law', () => {
    const result = offsetScanMfd(
      scanOf(along(-9, 9, 41), bell, {
        probeMfdStandardUm: 0.05,
        stageScaleStandard: 0.002,
        linearityStandard: 0.01,
      }),
    )
    expect(result.mfdUm).toBeCloseTo(5, 6)
    expect(result.centreUm).toBeCloseTo(0.4, 6)
    expect(result.peakPower).toBeCloseTo(80, 4)
    expect(result.backgroundPower).toBeCloseTo(3, 4)
    expect(result.scanRadiusUm).toBeCloseTo(RADIUS, 6)
    expect(result.backlashUm).toBeNull()
    // m² = (2 W)² − p²: m dm = −p dp, and m dm = (2 W)² dW / W.
    const parts = partsOf(result.budget)
    const square = (2 * RADIUS) ** 2
    expect(parts['probe MFD']).toBeCloseTo((4 / 5) * 0.05, 7)
    expect(parts['stage scale']).toBeCloseTo((square / 5) * 0.002, 7)
    // A Gaussian to the power 1 + e is narrower by e / 2.
    expect(parts['detector linearity']).toBeCloseTo((square / 5) * 0.005, 7)
    expect(parts['resolution of the numbers']).toBeCloseTo((square / 5) * 1e-6, 9)
    expect(parts.fit).toBeLessThan(1e-6)
    const { positionUm, power, fitted, residual } = result.profile
    positionUm.forEach((x, i) => {
      expect(fitted[i]! - bell(x)).toBeCloseTo(0, 5)
      expect(residual[i]! - (power[i]! - fitted[i]!)).toBeCloseTo(0, 9)
    })
  })

  test('takes a missing uncertainty for none', () => {
    const parts = partsOf(offsetScanMfd(scanOf(along(-9, 9, 25))).budget)
    expect([parts['probe MFD'], parts['stage scale'], parts['detector linearity']]).toEqual([0, 0, 0])
  })

  test.each([
    ['neither side', -9, 9, false],
    ['the left', -3.2, 9, true],
    ['the right', -9, 4, true],
    ['neither, by little', -3.6, 4.4, false],
  ])('that ends within 1.2 radii of the centre on %s says so', (_, from, to, isShort) => {
    const { warnings } = offsetScanMfd(scanOf(along(from, to, 41)))
    expect(warnings.some((each) => each.includes('does not reach the background on both sides'))).toBe(
      isShort,
    )
  })

  test('of both directions states the backlash, and warns of one that is no chance', () => {
    const up = along(-9, 9, 31)
    const at = [...up, ...up.toReversed()]
    const moved = (backlash: number) =>
      offsetScanMfd({
        ...scanOf(at),
        power: at.map((x, i) => bell(x - (i < 31 ? 1 : -1) * (backlash / 2)) + 0.2 * Math.sin(17 * i)),
      })
    const found = moved(-0.6)
    expect(found.backlashUm).toBeCloseTo(-0.6, 1)
    expect(found.warnings.join()).toMatch(/two directions of travel are 0\.(59|60|61|6) µm apart/)
    expect(moved(0).warnings.join()).not.toMatch(/directions of travel/)
  })

  test('that is hardly wider than its probe says how little it tells', () => {
    // 0.5 % of 4 µm, times 4 / 0.4: 0.2 µm and 0.4 expanded, of a mode of 0.4 µm.
    const thin = (standard: number) =>
      offsetScanMfd(
        scanOf(along(-8, 8, 41), (x) => Math.exp(-2 * (x / Math.hypot(2, 0.2)) ** 2), {
          probeMfdStandardUm: standard,
        }),
      ).warnings.join()
    expect(thin(0.02)).toMatch(/probe \(4 µm\) dominates the scan width.* only to ± 0\.40 µm/)
    expect(thin(0.003)).not.toMatch(/dominates/)
  })

  test('without a peak between its ends, or narrower than its probe, is refused', () => {
    expect(() => offsetScanMfd(scanOf(along(2, 9, 30)))).toThrow(
      /range of the scan is .*2 to 9 µm.*both sides of a peak/,
    )
    expect(() => offsetScanMfd(scanOf(along(-9, -1, 30)))).toThrow(/range of the scan is .*−9 to −1 µm/)
    expect(() => offsetScanMfd(scanOf(along(-9, 9, 41), bell, { probeMfdUm: 6.5 }))).toThrow(
      /the scan is .*6\.403 µm wide .*wider than the probe alone, which is 6\.5 µm/,
    )
  })
})

describe('what an offset scan hides', () => {
  const TRUE = { peak: 2, centre: 0.3, radius: 4.1, background: 0.05 }
  const up = along(-9, 9, 61)
  /** In units of the peak, over the distance from the centre in radii, with independent noise of 0.1 %. */
  const fitOf = (
    at: readonly number[],
    added: (u: number, i: number) => number,
    shift: (i: number) => number = () => 0,
  ) => {
    const { normal } = randomSource(1)
    const power = at.map((x, i) => {
      const u = (x - TRUE.centre - shift(i)) / TRUE.radius
      return TRUE.peak * (Math.exp(-2 * u * u) + added(u, i) + 1e-3 * normal()) + TRUE.background
    })
    return fitOffsetScan(orderScan('position', at, power), [1.9, 0.2, 4, 0.06])
  }

  test.each([
    ['nothing', [], () => 0],
    ['a slope', ['the background is sloped'], (u: number) => 0.004 * u],
    ['a slope the other way', ['the background is sloped'], (u: number) => -0.004 * u],
    [
      'a wider side',
      ['the mode is wider on one side'],
      (u: number) => 0.02 * Math.sign(u) * u * u * Math.exp(-2 * u * u),
    ],
    [
      'a side peak',
      ['there is a weak side peak or a scatter skirt under the mode'],
      (u: number) => 0.02 * Math.exp(-2 * ((u - 2) / 0.9) ** 2),
    ],
    [
      'a side peak on the other side',
      ['there is a weak side peak or a scatter skirt under the mode'],
      (u: number) => 0.02 * Math.exp(-2 * ((u + 2) / 0.9) ** 2),
    ],
  ] as const)('%s is named, and allowed for', (_, causes, added) => {
    // In an order in which no drift looks like a shape.
    const fit = fitOf(
      up.map((_x, i) => up[(7 * i) % 61]!),
      added,
    )
    expect(fit?.causes.slice(0, 1)).toEqual(causes)
    for (const [j, key] of (['peak', 'centre', 'radius', 'background'] as const).entries()) {
      // Four standard uncertainties; a tenth of what a fit without the fault would be off by may be among them.
      expect(Math.abs((fit?.parameters[j] ?? 0) - TRUE[key]), key).toBeLessThan(4 * (fit?.standards[j] ?? 0))
      expect(fit?.standards[j], key).toBeLessThan(0.05)
    }
  })

  test('a backlash is fitted where a quarter of the readings or more come from either side, of sixteen at least', () => {
    const parameters = (at: readonly number[], shift: (i: number) => number) =>
      fitOf(at, () => 0, shift)?.parameters ?? []
    const part = (count: number) => [...up, ...along(4, -4, count)]
    // 19 of 80 from above are fewer than a quarter, 21 of 82 are more.
    expect(parameters(part(19), () => 0)).toHaveLength(4)
    const found = parameters(part(21), (i) => (i < 61 ? 0.2 : -0.2))
    expect(found).toHaveLength(5)
    expect(found[4]).toBeCloseTo(0.4, 1)
    // Every place read twice: the second reading is of the direction of the move that follows.
    const twice = [...up, ...up.toReversed()].flatMap((x) => [x, x])
    expect(parameters(twice, (i) => (i < 122 ? 0.2 : -0.2))[4]).toBeCloseTo(0.4, 1)
    expect(parameters([...along(-9, 9, 8), ...along(9, -9, 8)], () => 0)).toHaveLength(5)
    expect(parameters([...along(-9, 9, 8), ...along(9, -9, 7)], () => 0)).toHaveLength(4)
  })

  test('what noise alone would give, and by how much a pattern widens the interval, follow from the budget', () => {
    const { normal } = randomSource(5)
    const noise = up.map(() => normal())
    const of = (added: (u: number) => number, size: number) =>
      offsetScanMfd(
        scanOf(up, (x) => bell(x) + 80 * (added((x - 0.4) / RADIUS) + size * (noise[up.indexOf(x)] ?? 0)), {
          probeMfdStandardUm: 0.002,
        }),
      )
    const quiet = of(() => 0, 0.002)
    const parts = partsOf(quiet.budget)
    const alone = 2 * Math.sqrt(quiet.budget.combinedUm ** 2 - parts['correlated residuals']! ** 2)
    expect(quiet.widening).toBeNull()
    expect(Number(/noise alone would give ± ([\d.]+) µm/.exec(quiet.conservative ?? '')?.[1])).toBeCloseTo(
      alone,
      2,
    )
    expect(alone).toBeLessThan(quiet.uncertaintyUm / 1.02)
    const sloped = of((u) => 0.006 * u, 0.002)
    const own = partsOf(sloped.budget)
    expect(sloped.conservative).toBeNull()
    expect(sloped.warnings).toEqual([sloped.widening?.sentence])
    expect(sloped.widening?.factor).toBeCloseTo(
      Math.hypot(own.fit!, own['correlated residuals']!) / own.fit!,
      6,
    )
    expect(sloped.widening?.readings).toBe(61)
  })
})

describe('a measured loss curve', () => {
  const result = (powers: readonly number[], more: object = {}) =>
    ({
      profile: { positionUm: Float64Array.from(powers, (_, i) => i), power: Float64Array.from(powers) },
      ...{ peakPower: 1, backgroundPower: 0, residualRms: 1e-4, centreUm: 0 },
      ...more,
    }) as unknown as OffsetScanResult

  test('has at most 60 points, evenly taken, and never less than the repeatability of a power meter', () => {
    const flat = (count: number) => measuredLossCurve(result(new Array(count).fill(0.5)), null, false)
    expect(flat(60).positionUm).toHaveLength(60)
    expect(flat(61).positionUm).toEqual(Array.from({ length: 31 }, (_, k) => 2 * k))
    expect(flat(150).positionUm).toEqual(Array.from({ length: 50 }, (_, k) => 3 * k))
    expect(flat(60).standardDb[0]).toBe(0.02)
    expect(
      measuredLossCurve(result([1, 0.5, 0.3], { peakPower: 2, residualRms: 0.01 }), null, false)
        .standardDb[1],
    ).toBeCloseTo(4.342944819 * 0.04, 9)
  })

  test('needs three points within 10 dB of the peak', () => {
    expect(() => measuredLossCurve(result([1, 0.5, 0.099]), null, false)).toThrow(
      /within 10 dB of the peak is 2; must be 3 or more/,
    )
    expect(measuredLossCurve(result([1, 0.5, 0.101]), null, false).lossDb).toHaveLength(3)
  })
})

describe('a raster', () => {
  const [probe, turn] = [3, (20 * Math.PI) / 180]
  const [a, b, p] = [(5 / 2) ** 2, (3.4 / 2) ** 2, (probe / 2) ** 2]
  const surface = (x: number, y: number) => {
    const [dx, dy] = [x - 0.5, y + 0.8]
    const u = Math.cos(turn) * dx + Math.sin(turn) * dy
    const v = Math.cos(turn) * dy - Math.sin(turn) * dx
    return 60 * Math.exp((-2 * u * u) / (a + p) - (2 * v * v) / (b + p)) + 2
  }
  const points = along(-7, 7, 15).flatMap((y) => along(-6, 6, 13).map((x) => [x, y] as const))
  const rasterOf = (of = surface, more: object = {}): RasterScanInput => ({
    ...{ xUm: points.map(([x]) => x), yUm: points.map(([, y]) => y), probeMfdUm: probe },
    power: points.map(([x, y]) => of(x, y)),
    ...more,
  })

  test('states its axes, its widths along the stage, its peak and its level', () => {
    const result = rasterScanMfd(rasterOf())
    expect([result.majorUm, result.minorUm]).toEqual([5, 3.4].map((each) => expect.closeTo(each, 6)))
    expect(result.azimuthRad).toBeCloseTo(turn, 6)
    // Radius matrices turn as tensors: a cos² + b sin².
    const side = (cos: number, sin: number) => 2 * Math.sqrt(a * cos ** 2 + b * sin ** 2)
    expect(result.mfdXUm).toBeCloseTo(side(Math.cos(turn), Math.sin(turn)), 6)
    expect(result.mfdYUm).toBeCloseTo(side(Math.sin(turn), Math.cos(turn)), 6)
    expect([result.centreXUm, result.centreYUm]).toEqual([0.5, -0.8].map((each) => expect.closeTo(each, 6)))
    expect([result.peakPower, result.backgroundPower]).toEqual([60, 2].map((each) => expect.closeTo(each, 5)))
    expect(result.warnings).toEqual([])
    expect([result.majorUncertaintyUm, result.minorUncertaintyUm].every((each) => each < 1e-4)).toBe(true)
  })

  test('states probe, stage and detector by their laws, twice their root sum of squares, and data less fit', () => {
    const more = { probeMfdStandardUm: 0.04, stageScaleStandard: 0.003, linearityStandard: 0.02 }
    const result = rasterScanMfd(rasterOf(surface, more))
    for (const [axis, mfd, expanded] of [
      ['major', 5, result.majorUncertaintyUm],
      ['minor', 3.4, result.minorUncertaintyUm],
    ] as const) {
      const square = (mfd ** 2 + probe ** 2) / mfd
      const parts = [(probe / mfd) * 0.04, square * 0.003, square * 0.01]
      expect(result.budget[axis].contributions.slice(1).map(({ standardUm }) => standardUm)).toEqual(
        parts.map((each) => expect.closeTo(each, 6)),
      )
      expect(expanded).toBeCloseTo(2 * Math.hypot(...parts), 5)
    }
    const spot = rasterScanMfd(rasterOf((x, y) => surface(x, y) + (x === 6 && y === 7 ? 4 : 0)))
    expect(spot.residual.at(-1)).toBeGreaterThan(3)
    expect(spot.residualRms).toBeGreaterThan(0.003)
    expect(spot.residualRms).toBeLessThan(4 / 60 / Math.sqrt(195))
  })

  test('that is no Gaussian, or round within its uncertainty, says so', () => {
    // A flat top of the same widths, several per cent off; turned by nothing.
    const flat = rasterScanMfd(rasterOf((x, y) => 60 * Math.exp(-(((x / 4) ** 2 + (y / 5) ** 2) ** 2)) + 2))
    expect(flat.warnings).toEqual([
      expect.stringMatching(/^The raster departs from a Gaussian by \d\.\d % of the peak/),
    ])
    const round = (majorUm: number, standard: number) =>
      rasterScanMfd(
        rasterOf((x, y) => 60 * Math.exp((-2 * x * x) / ((majorUm / 2) ** 2 + p) - (2 * y * y) / (4 + p)), {
          stageScaleStandard: standard,
        }),
      ).warnings
    // Expanded uncertainties of 2 · (16 + 9) / 4 times the standard one each: 0.25 µm of both at 0.01.
    expect(round(4.1, 0.01)).toEqual([expect.stringMatching(/circular within the uncertainty/)])
    expect(round(4.4, 0.01)).toEqual([])
  })

  test('is refused by what it lacks', () => {
    const cut = (change: object) => () => rasterScanMfd(rasterOf(surface, change))
    expect(cut({ xUm: points.slice(1).map(([x]) => x) })).toThrow(
      /number of powers is 195; must be that of the positions along x \(194\) and along y \(195\)/,
    )
    expect(cut({ yUm: points.slice(1).map(([, y]) => y) })).toThrow(/along y \(194\)/)
    expect(cut({ power: points.slice(1).map(([x, y]) => surface(x, y)) })).toThrow(/number of powers is 194/)
    const first = (count: number) => ({
      xUm: points.slice(0, count).map(([x]) => x),
      yUm: points.slice(0, count).map(([, y]) => y),
      power: points.slice(0, count).map(([x, y]) => surface(x, y)),
    })
    expect(cut(first(11))).toThrow(/points of the raster is 11; must be 12 or more/)
    expect(cut(first(12))).not.toThrow(/12 or more/)
    expect(cut({ power: points.map(() => 5) })).toThrow(/power is 5 everywhere/)
    expect(cut({ probeMfdUm: 3.6 })).not.toThrow()
    expect(cut({ probeMfdUm: 4.6 })).toThrow(/the raster is .*4\.534 µm wide .*which is 4\.6 µm/)
    // The peak beside all points, along either axis: the fit finds it, but not between them.
    for (const [dx, dy] of [
      [7.1, 0],
      [-6.1, 0],
      [0, 7.4],
      [0, -9],
    ] as const)
      expect(() => rasterScanMfd(rasterOf((x, y) => surface(x + dx, y + dy)))).toThrow(
        /peak of the raster is .*unclear or at the border/,
      )
    for (const [dx, dy] of [
      [6.2, 0],
      [-5.2, 0],
      [0, 6.2],
      [0, -7.6],
    ] as const)
      expect(() => rasterScanMfd(rasterOf((x, y) => surface(x + dx, y + dy)))).not.toThrow()
  })
})
