import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { farFieldMfd, readScan } from '../../../src/measure'
import { lp01Intensity, lp01Petermann2Ratio } from '../../../src/measure/farField/farFieldShape'
import { petermann2MfdUm, petermannIntegrals } from '../../../src/measure/farField/petermannIntegral'
import { solveLp01 } from '../../../src/optics/fibre/stepIndexMode'
import { gaussianFarField, randomSource } from '../support/synthetic'
import { benchText, truth } from '../support/truth'

const relative = (value: number, reference: number) => Math.abs(value / reference - 1)
const rad = (deg: number) => (deg * Math.PI) / 180

/** Exact LP01 scan with the reference files' kind of noise. */
function stepIndexScan(
  a: number,
  na: number,
  wavelengthUm: number,
  spanDeg: number,
  stepDeg: number,
  seed?: number,
) {
  const ka = (2 * Math.PI * a) / wavelengthUm
  const roots = solveLp01(ka * na)
  const random = randomSource(seed ?? 1)
  const axisRad = rad(seed === undefined ? 0.37 : 2.4 * random.uniform() - 1.2)
  const angleRad: number[] = []
  const power: number[] = []
  for (let deg = -spanDeg; deg <= spanDeg + 1e-9; deg += stepDeg) {
    const intensity = lp01Intensity(roots, ka * Math.abs(Math.sin(rad(deg) - axisRad)))
    angleRad.push(rad(deg))
    power.push(
      seed === undefined
        ? intensity
        : intensity * (1 + 0.004 * random.normal()) + 2e-5 * Math.abs(1 + 0.3 * random.normal()),
    )
  }
  return { angleRad, power, wavelengthUm, axisRad, mfdUm: 2 * a * lp01Petermann2Ratio(roots) }
}

type Fibre = readonly [a: number, na: number, wavelengthUm: number, spanDeg: number, stepDeg: number]
const MIDDLE: Fibre = [2.2, 0.2, 1.31, 45, 0.7]
const known = new Map<string, ReturnType<typeof evaluate>>()

function evaluate(fibre: Fibre, seed: number) {
  const scan = stepIndexScan(...fibre, seed)
  return { scan, result: farFieldMfd(scan) }
}

/** A noisy scan and its result, worked out once. */
function evaluated(fibre: Fibre, seed: number) {
  const key = `${fibre.join()} ${seed}`
  const found = known.get(key) ?? evaluate(fibre, seed)
  known.set(key, found)
  return found
}

describe('reference scans (exact LP01 modes; near-field Petermann II by adaptive quadrature)', () => {
  for (const name of ['far-field-1.csv', 'far-field-2.csv', 'far-field-3.csv']) {
    const known = truth[name]!
    const limit = known.noise ? 0.01 : 0.003
    test(`${name} gives the Petermann II diameter within ${100 * limit} %, and the axis`, () => {
      const scan = readScan(benchText(name))
      const result = farFieldMfd({
        angleRad: scan.columns[0]!.values,
        power: scan.columns[1]!.values,
        wavelengthUm: known.wavelengthUm,
      })
      expect(relative(result.petermann2MfdUm, known.petermann2MfdUm)).toBeLessThan(limit)
      expect(Math.abs(result.petermann2MfdUm - known.petermann2MfdUm)).toBeLessThan(result.uncertaintyUm)
      expect(Math.abs(result.axisRad - rad(known.axisDeg))).toBeLessThan(rad(0.01))
      expect(result.fittedShape).toBe('step-index')
    })
  }

  test('eighteen noisy scans of other fibres, axes and spans stay within 0.3 % and mostly inside their own uncertainty', () => {
    let outside = 0
    for (let seed = 1; seed <= 6; seed++) {
      for (const fibre of [[1.6, 0.26, 1.55, 62, 1], [4.1, 0.12, 1.55, 28, 0.5], MIDDLE] as const) {
        const { scan, result } = evaluated(fibre, seed)
        expect(relative(result.petermann2MfdUm, scan.mfdUm)).toBeLessThan(0.003)
        if (Math.abs(result.petermann2MfdUm - scan.mfdUm) > result.uncertaintyUm) outside++
        expect(result.warnings.join()).not.toMatch(/Neither a Gaussian/)
      }
    }
    expect(outside).toBeLessThanOrEqual(3) // k = 2: about 5 % of 18; `npm run bench coverage` counts over 500
  })
})

test('noise moves the diameter of twenty scans by as much as the budget says', () => {
  let square = 0
  let stated = 0
  for (let seed = 1; seed <= 20; seed++) {
    const { scan, result } = evaluated(MIDDLE, seed)
    const { petermann2MfdUm: mfdUm, budget } = result
    square += (mfdUm - scan.mfdUm) ** 2 / 20
    stated += budget.contributions.find(({ source }) => source === 'noise of the scan')!.standardUm / 20
  }
  // A standard deviation of 20 draws is known to 16 %.
  expect(Math.sqrt(square) / stated).toBeGreaterThan(0.6)
  expect(Math.sqrt(square) / stated).toBeLessThan(1.6)
})

describe('Gaussian far field in sin θ (published table, Petermann integral with the scan cut off)', () => {
  // MFD, wavelength, last angle in degrees, what the integral returns: direct integration with scipy.
  const table: [number, number, number, number][] = [
    [10.4, 1.55, 90, 10.4],
    [10.4, 1.55, 20, 10.4],
    [10.4, 1.55, 15, 10.400027],
    [10.4, 1.55, 12, 10.403372],
    [10.4, 1.55, 10, 10.443241],
    [10.4, 1.55, 8, 10.721098],
    [9.2, 1.31, 90, 9.2],
    [3.2, 1.55, 90, 3.2],
    [3.2, 1.55, 40, 3.202342],
    [3.2, 1.55, 30, 3.244942],
    [3.2, 1.55, 25, 3.354254],
    [3.2, 1.55, 20, 3.646115],
  ]
  for (const [mfd, wavelength, limit, expected] of table) {
    test(`MFD ${mfd} at ${wavelength} um cut at ${limit}° reads ${expected}`, () => {
      const intensity = (angle: number) =>
        Math.exp(-2 * ((Math.PI * mfd * Math.sin(angle)) / (2 * wavelength)) ** 2)
      expect(
        relative(petermann2MfdUm(petermannIntegrals(intensity, rad(limit)), wavelength), expected),
      ).toBeLessThan(2e-7)
    })
  }

  test('a 3.2 um mode scanned to 20° reads overestimates the MFD by about 14 %, says so, and its uncertainty reaches the truth', () => {
    const result = farFieldMfd(gaussianFarField(3.2, 1.55, 20, 0.5))
    expect(relative(result.petermann2MfdUm, 3.646115)).toBeLessThan(1e-3)
    expect(result.truncationBias).toBeCloseTo(0.1394, 2)
    expect(result.warnings.join()).toMatch(/ends at 20.0°.*overestimates the MFD by about 14 %/)
    expect(result.petermann2MfdUm - result.uncertaintyUm).toBeLessThan(3.2)
    expect(result.petermann2MfdUm / (1 + result.truncationBias)).toBeCloseTo(3.2, 2)
  })

  test('a wide scan gives MFD, 1/e² angle and Gaussian MFD of the closed form, without a warning', () => {
    const result = farFieldMfd(gaussianFarField(9.2, 1.31, 25, 0.4, 0.83))
    expect(relative(result.petermann2MfdUm, 9.2)).toBeLessThan(1e-4)
    expect(relative(result.gaussianMfdUm, 9.2)).toBeLessThan(1e-3)
    expect(relative(Math.sin(result.halfAngleE2Rad!), 1.31 / (Math.PI * 4.6))).toBeLessThan(1e-3)
    expect(relative(result.na!, (1.31 / (Math.PI * 4.6)) * Math.sqrt(Math.log(20) / 2))).toBeLessThan(1e-3)
    expect(result.axisRad).toBeCloseTo(rad(0.83), 7)
    expect(result.warnings).toEqual([])
  })
})

describe('step-index identities', () => {
  const modes: {
    modes: {
      coreRadiusUm: number
      na: number
      wavelengthUm: number
      petermann2MfdUm: number
      bestGaussianMfdUm: number
    }[]
  } = JSON.parse(readFileSync(new URL('../../reference/data/step-index-lp01.json', import.meta.url), 'utf8'))

  test('near-field and far-field Petermann II of sixteen exact LP01 modes agree to 1e-4 (scipy quadrature)', () => {
    expect(modes.modes).toHaveLength(16)
    for (const mode of modes.modes) {
      const ka = (2 * Math.PI * mode.coreRadiusUm) / mode.wavelengthUm
      const roots = solveLp01(ka * mode.na)
      expect(relative(2 * mode.coreRadiusUm * lp01Petermann2Ratio(roots), mode.petermann2MfdUm)).toBeLessThan(
        1e-6,
      )
      // In the transform variable itself, to 400 core radii' worth of it: no cut-off at k and no cos θ.
      let power = 0
      let moment = 0
      const step = 0.01
      for (let alpha = step / 2; alpha < 400; alpha += step) {
        const intensity = lp01Intensity(roots, alpha)
        power += intensity * alpha * step
        moment += intensity * alpha ** 3 * step
      }
      const farField = 2 * mode.coreRadiusUm * Math.SQRT2 * Math.sqrt(power / moment)
      expect(relative(farField, mode.petermann2MfdUm)).toBeLessThan(1e-4)
    }
  })

  test("the overlapping Gaussian of a far field is the near field's best Gaussian within 1 %", () => {
    const scan = stepIndexScan(4.1, 0.12, 1.55, 28, 0.5)
    expect(relative(farFieldMfd(scan).gaussianMfdUm, 10.34855)).toBeLessThan(0.01) // scipy: bestGaussianMfdUm
  })

  test('LP01 example of the published table: a = 4.1 um, V = 2.2 at 1310 nm', () => {
    const ka = (2 * Math.PI * 4.1) / 1.31
    const roots = solveLp01(2.2)
    const upTo = (deg: number) =>
      petermann2MfdUm(
        petermannIntegrals((angle) => lp01Intensity(roots, ka * Math.sin(angle)), rad(deg)),
        1.31,
      )
    for (const [deg, mfd] of [
      [10, 9.5319],
      [15, 9.4789],
      [20, 9.4436],
      [25, 9.4406],
      [30, 9.4351],
      [90, 9.4313],
    ] as const) {
      expect(Math.abs(upTo(deg) - mfd)).toBeLessThan(1e-4)
    }
  })
})

describe('laws and odd input', () => {
  const scan = stepIndexScan(2.2, 0.2, 1.31, 45, 0.7, 5)
  const base = farFieldMfd(scan)

  test('power scale, reversed order and repeated points change nothing', () => {
    const scaled = farFieldMfd({ ...scan, power: scan.power.map((p) => p * 37.2) })
    const reversed = farFieldMfd({
      ...scan,
      angleRad: [...scan.angleRad].reverse(),
      power: [...scan.power].reverse(),
    })
    const doubled = farFieldMfd({
      ...scan,
      angleRad: [...scan.angleRad, ...scan.angleRad],
      power: [...scan.power, ...scan.power],
    })
    expect(relative(scaled.petermann2MfdUm, base.petermann2MfdUm)).toBeLessThan(1e-6)
    expect(relative(scaled.gaussianMfdUm, base.gaussianMfdUm)).toBeLessThan(1e-6)
    expect(reversed.petermann2MfdUm).toBe(base.petermann2MfdUm)
    expect(doubled.petermann2MfdUm).toBe(base.petermann2MfdUm)
    expect(doubled.warnings.join()).toMatch(/repeated positions were averaged/)
  })

  test('a scan that ends early on one side is completed from the other side', () => {
    // Its floor is not reached on the short side: 2° beyond the 1/e² angle.
    const full = gaussianFarField(4, 1.55, 45, 0.5, 9)
    const keep = full.angleRad.map((angle) => angle > rad(9 - 16))
    const short = {
      ...full,
      angleRad: full.angleRad.filter((_, i) => keep[i]),
      power: full.power.filter((_, i) => keep[i]),
    }
    expect(relative(farFieldMfd(full).petermann2MfdUm, 4)).toBeLessThan(1e-4)
    expect(relative(farFieldMfd(short).petermann2MfdUm, 4)).toBeLessThan(1e-3)
    expect(farFieldMfd(short).axisRad).toBeCloseTo(rad(9), 4)
  })

  test('stated uncertainties of wavelength, angle and detector enter the budget with their sensitivities', () => {
    const result = farFieldMfd({
      ...scan,
      wavelengthStandardUm: 0.0131,
      angleScaleStandard: 0.002,
      linearityStandard: 0.01,
    })
    const part = (source: string) => result.budget.contributions.find((c) => c.source === source)!.standardUm
    expect(part('wavelength')).toBeCloseTo(0.01 * result.petermann2MfdUm, 9)
    expect(part('angular scale')).toBeCloseTo(0.002 * result.petermann2MfdUm, 9)
    expect(part('detector linearity')).toBeCloseTo(0.005 * result.petermann2MfdUm, 9)
    expect(result.uncertaintyUm).toBeGreaterThan(base.uncertaintyUm)
  })

  test('backlash enters with the change that it makes to a scan to and fro', () => {
    const backlash = rad(1.5)
    const one = gaussianFarField(4, 1.55, 45, 1)
    const there = one.angleRad
    const both = {
      angleRad: [...there, ...there.toReversed()],
      power: [
        ...there.map((angle) => gaussianAt(angle + backlash / 2)),
        ...there.toReversed().map((angle) => gaussianAt(angle - backlash / 2)),
      ],
      wavelengthUm: 1.55,
    }
    function gaussianAt(angle: number) {
      return Math.exp(-2 * ((Math.PI * 4 * Math.sin(angle)) / (2 * 1.55)) ** 2)
    }
    const result = farFieldMfd(both)
    expect(Math.abs(result.backlashRad ?? 0)).toBeCloseTo(backlash, 3)
    const stated = result.budget.contributions.find(({ source }) => source === 'backlash')?.standardUm ?? 0
    // A uniform distribution up to the change itself.
    expect((Math.sqrt(3) * stated) / Math.abs(result.petermann2MfdUm - 4)).toBeCloseTo(1, 1)
  })

  test('a detector exponent of 1 % really moves a Gaussian scan by half a per cent', () => {
    const ideal = gaussianFarField(9.2, 1.31, 25, 0.4)
    const bent = farFieldMfd({ ...ideal, power: ideal.power.map((p) => p ** 1.01) })
    expect(bent.petermann2MfdUm / farFieldMfd(ideal).petermann2MfdUm - 1).toBeCloseTo(0.005, 4)
  })

  test('a Lorentzian far field is neither Gaussian nor of a step-index mode, and is said to be', () => {
    const { angleRad, wavelengthUm } = gaussianFarField(9.2, 1.31, 25, 0.4)
    const power = angleRad.map((angle) => 1 / (1 + (angle / rad(3)) ** 2))
    expect(farFieldMfd({ angleRad, wavelengthUm, power }).warnings.join()).toMatch(
      /Neither a Gaussian nor a step-index mode/,
    )
  })

  test('what cannot be evaluated is an error that names the field', () => {
    const wrong = (change: object) => () => farFieldMfd({ ...scan, ...change })
    expect(wrong({ angleRad: scan.angleRad.map((a) => a * 57.3) })).toThrow(
      /range of the angles is −[\d.]+ to [\d.]+ rad; must be within ± 1.5708 rad; check whether they are in degrees/,
    )
    const shifted = (byRad: number) => wrong({ angleRad: scan.angleRad.map((angle) => angle + byRad) })
    for (const byRad of [-0.81, 0.81]) expect(shifted(byRad)).toThrow(/within ± 1.5708/) // one end beyond 90°
    expect(wrong({ power: scan.power.map(() => 0) })).toThrow(
      /the highest power is 0; must be above 0: no signal/,
    )
    expect(wrong({ power: scan.power.map((p, i) => (i === 7 ? Number.NaN : p)) })).toThrow(/power 8 is NaN/)
    expect(wrong({ wavelengthUm: 1550 })).toThrow(/wavelengthUm is 1550; must be 0.2 to 20/)
    expect(wrong({ power: [1] })).toThrow(/number of powers is 1; must be \d+, one per angle/)
    expect(() => farFieldMfd({ angleRad: [0], power: [1], wavelengthUm: 1.55 })).toThrow(
      /number of different angles is 1; must be 8 or more/,
    )
    expect(() =>
      farFieldMfd({ angleRad: scan.angleRad.slice(66), power: scan.power.slice(66), wavelengthUm: 1.31 }),
    ).toThrow(
      /range of the scan is −?[\d.]+° to [\d.]+°; must be wide enough for both flanks of the peak near −?\d+\.\d°/,
    )
  })
})
