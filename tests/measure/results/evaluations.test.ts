// What the statement of a measurement does to its result: scales, wavelength, probe, pixel, reference and length, each by its own law.

import { describe, expect, test } from 'vitest'
import { evaluateMeasurement, type MeasurementResult, packNumbers } from '../../../src/measure/index'
import { type Quantity, quantityOf } from '../../../src/model/quantity/quantity'
import type { Measurement, ReadingColumn } from '../../../src/model/schema/measurement'
import { gaussianFarField, gaussianImage, gaussianOffsetScan, randomSource } from '../support/synthetic'

const origin = { id: 'm', name: 'M', fileName: 'm.csv', date: '2026-11-20', notes: [] }
const packed = (values: ArrayLike<number>) => packNumbers(Float64Array.from(values))
const column = (
  role: ReadingColumn['role'],
  coreUnit: ReadingColumn['coreUnit'],
  values: ArrayLike<number>,
  label: string = role,
): ReadingColumn => ({ label, role, coreUnit, values: packed(values) })
const exponent = (value: number, plusMinus = 0) => ({ ...quantityOf(value, '1', 'estimate', plusMinus) })

function result<M extends MeasurementResult['method']>(measurement: object, method: M) {
  const evaluated = evaluateMeasurement({ ...origin, method, ...measurement } as unknown as Measurement)
  if (evaluated.method !== method) throw new Error(`a ${evaluated.method}`)
  return evaluated as Extract<MeasurementResult, { method: M }>
}

const { normal } = randomSource(7)
const scan = gaussianOffsetScan({ probeMfdUm: 4, mfdUm: 6, centreUm: 0.3, constant: 1e-3, normal })
const wideScan = gaussianOffsetScan({ probeMfdUm: 4, mfdUm: 8, centreUm: -0.2, constant: 1e-3, normal })
const offset = (columns: readonly ReadingColumn[], more: object = {}) =>
  result({ columns, probeMfd: quantityOf(4, 'um'), stageScale: exponent(1), ...more }, 'offset')

describe('an offset scan', () => {
  const [positions, powers] = [column('position', 'um', scan.positionUm), column('power', 'uW', scan.power)]
  /** Radii add in squares: W² = w² + v². */
  const modeOf = (radiusUm: number, probeUm: number) => 2 * Math.sqrt(radiusUm ** 2 - (probeUm / 2) ** 2)
  const radiusUm = Math.hypot(2, 3)

  test('scales with its stage and follows its probe', () => {
    const mfd = (more: object) => offset([positions, powers], more).mfds[0]
    expect(mfd({})?.valueUm).toBeCloseTo(6, 1)
    expect(mfd({})?.method).toBe('transverse-offset scan, power, probe MFD 4 µm')
    expect(mfd({ stageScale: exponent(1.2) })?.valueUm).toBeCloseTo(modeOf(1.2 * radiusUm, 4), 1)
    expect(mfd({ probeMfd: quantityOf(5, 'um') })?.valueUm).toBeCloseTo(modeOf(radiusUm, 5), 1)
    const parts = (more: object) => mfd(more)?.budget.contributions.map(({ standardUm }) => standardUm) ?? []
    // A scale of 1.2 that is known to 1 % of itself, as a standard uncertainty of a uniform tolerance.
    const scaled = parts({ stageScale: exponent(1.2, 0.012) })
    const plain = parts({ stageScale: exponent(1.2) })
    expect(Math.hypot(...scaled) ** 2 - Math.hypot(...plain) ** 2).toBeCloseTo(
      ((0.01 / Math.sqrt(3)) *
        modeOf(1.2 * radiusUm, 4) *
        ((1.2 * radiusUm) / (modeOf(1.2 * radiusUm, 4) / 2)) ** 2) **
        2,
      4,
    )
  })

  test('undoes a detector that reads a power of the power', () => {
    const bent = column(
      'power',
      'uW',
      scan.power.map((p) => Math.sign(p) * Math.abs(p) ** 1.1),
    )
    const straight = offset([positions, powers]).mfds[0]?.valueUm ?? 0
    expect(offset([positions, bent], { detectorExponent: exponent(1.1) }).mfds[0]?.valueUm).toBeCloseTo(
      straight,
      6,
    )
    expect(offset([positions, bent]).mfds[0]?.valueUm).toBeLessThan(straight - 0.1)
  })

  test('reads every power column, with the axis that its heading names', () => {
    const axes = offset([
      positions,
      column('power', 'uW', scan.power, 'Px'),
      column('power', 'uW', wideScan.power, 'power along y'),
      column('power', 'uW', scan.power, ''),
    ]).mfds
    expect(axes.map(({ label, axis }) => [label, axis])).toEqual([
      ['Px', 'x'],
      ['power along y', 'y'],
      ['power 3', null],
    ])
    expect(axes[1]?.valueUm).toBeCloseTo(8, 1)
    expect(offset([positions, column('power', 'uW', scan.power, '')]).mfds[0]?.label).toBe('MFD')
  })

  test('follows the stage that moves, whichever column that is', () => {
    const still = column(
      'position',
      'um',
      scan.positionUm.map(() => 5),
      'other',
    )
    const alone = offset([positions, powers]).mfds[0]?.valueUm
    expect(offset([still, positions, powers]).mfds[0]?.valueUm).toBe(alone)
    expect(offset([positions, still, powers]).mfds[0]?.valueUm).toBe(alone)
  })

  test('evaluates each of two lines over its own stage, both scaled', () => {
    const zeros = scan.positionUm.map(() => 0)
    const cross = offset(
      [
        column('position', 'um', [...scan.positionUm, ...zeros], 'x'),
        column('position', 'um', [...zeros, ...wideScan.positionUm], 'y'),
        column('power', 'uW', [...scan.power, ...wideScan.power]),
      ],
      { stageScale: exponent(1.1) },
    )
    expect(cross.mfds.map(({ label, axis }) => [label, axis])).toEqual([
      ['power along x', 'x'],
      ['power along y', 'y'],
    ])
    expect(cross.mfds[0]?.valueUm).toBeCloseTo(modeOf(1.1 * radiusUm, 4), 1)
    expect(cross.mfds[1]?.valueUm).toBeCloseTo(modeOf(1.1 * Math.hypot(2, 4), 4), 1)
  })

  test('keeps its outcome where one column cannot be evaluated, and names what is missing', () => {
    const { signals, mfds } = offset([
      positions,
      column(
        'power',
        'uW',
        scan.power.map(() => 0),
        'dark',
      ),
      powers,
    ])
    expect(signals.map(({ outcome }) => outcome.ok)).toEqual([false, true])
    expect(mfds).toHaveLength(1)
    expect(() => offset([positions])).toThrow(/number of power columns is 0; must be 1 or more/)
    expect(() => offset([powers])).toThrow(/number of position columns is 0; must be 1 or more/)
  })
})

describe('a far field', () => {
  const field = gaussianFarField(9, 1.55, 20, 0.25)
  const evaluated = (more: object = {}, powers = [column('power', 'uW', field.power)]) =>
    result(
      {
        columns: [column('angle', 'rad', field.angleRad), ...powers],
        wavelength: quantityOf(1550, 'nm'),
        angleScale: exponent(1),
        detectorExponent: exponent(1),
        ...more,
      },
      'far-field',
    )

  test('is in proportion to the wavelength, and to one over a small scale of the angles', () => {
    const value = (more: object = {}) => evaluated(more).mfds[0]?.valueUm ?? Number.NaN
    expect(value()).toBeCloseTo(9, 2)
    expect(value({ wavelength: quantityOf(1310, 'nm') }) / value()).toBeCloseTo(1310 / 1550, 9)
    expect(value({ angleScale: exponent(0.5) }) / value()).toBeCloseTo(2, 1)
    const squared = column(
      'power',
      'uW',
      field.power.map((p) => p ** 2),
    )
    expect(evaluated({ detectorExponent: exponent(2) }, [squared]).mfds[0]?.valueUm).toBeCloseTo(9, 2)
  })

  test('has two diameters a column, and is both axes together only where there are exactly two', () => {
    expect(evaluated().mfds.map(({ label }) => label)).toEqual([
      'Petermann II',
      'best-fit Gaussian of the far field',
    ])
    expect(evaluated().axes).toBeNull()
    const named = (...labels: readonly string[]) =>
      evaluated(
        {},
        labels.map((label) => column('power', 'uW', field.power, label)),
      )
    const two = named('Px', 'Py')
    expect(two.axes).not.toBeNull()
    expect(two.mfds.map(({ label, axis }) => `${label}: ${axis}`)).toEqual([
      'Petermann II, Px: x',
      'best-fit Gaussian of the far field, Px: x',
      'Petermann II, Py: y',
      'best-fit Gaussian of the far field, Py: y',
    ])
    expect(named('Px', 'Py', 'third').axes).toBeNull()
  })
})

describe('a loopback series', () => {
  const lengthsUm = [5000, 10_000, 20_000, 40_000]
  // Two facets of 1.5 dB and 2 dB/cm.
  const lossesDb = lengthsUm.map((length) => 3 + (2 * length) / 10_000)
  const series = (columns: readonly ReadingColumn[], more: object = {}) =>
    result({ columns, ...more }, 'loopback')
  const lengths = column('length', 'um', lengthsUm)

  test('counts lengths in centimetres, and losses from the column or from the powers against their reference', () => {
    const asked = [
      series([lengths, column('loss', 'dB', lossesDb)]),
      series([
        lengths,
        column(
          'power',
          'relative',
          lossesDb.map((loss) => 10 ** (-loss / 10)),
        ),
      ]),
      series(
        [
          lengths,
          column(
            'power',
            'uW',
            lossesDb.map((loss) => 500 * 10 ** (-loss / 10)),
          ),
        ],
        {
          referencePower: quantityOf(0.5, 'mW'),
        },
      ),
    ]
    for (const { result: found, rows } of asked) {
      expect(found.facetLossDb.value).toBeCloseTo(1.5, 9)
      expect(found.propagationDbPerCm.value).toBeCloseTo(2, 9)
      expect(rows.map(({ lengthCm }) => lengthCm)).toEqual([0.5, 1, 2, 4])
    }
    expect(() => series([lengths, column('power', 'uW', [1, 1, 1, 1])])).toThrow(/reference power/)
    expect(() => series([lengths, column('power', 'relative', [1, 0, 1, 1])])).toThrow(
      /power 2 is 0; must be above 0/,
    )
    expect(() => series([lengths])).toThrow(/number of loss or power columns is 0/)
  })

  test('of one length takes the stated propagation loss, in dB per length, with its uncertainty', () => {
    const one = column('length', 'um', [20_000, 20_000, 20_000])
    const stated = (propagation: Quantity) =>
      series([one, column('loss', 'dB', [5, 5.1, 4.9])], { propagation }).result
    expect(stated(quantityOf(1.2, 'dB/cm')).facetLossDb.value).toBeCloseTo((5 - 2.4) / 2, 9)
    expect(stated(quantityOf(120, 'dB/m')).facetLossDb.value).toBeCloseTo((5 - 2.4) / 2, 9)
    // Twice the standard uncertainty of a uniform tolerance of 0.3 dB/cm.
    expect(stated(quantityOf(1.2, 'dB/cm', 'estimate', 0.3)).propagationDbPerCm.plusMinus).toBeCloseTo(
      0.6 / Math.sqrt(3),
      9,
    )
  })

  test('marks outliers among the readings of one length, at their row', () => {
    const far = [5, 5.02, 4.98, 5.01, 8, 3, 3.01]
    const places = [20_000, 20_000, 20_000, 20_000, 20_000, 10_000, 10_000]
    const { rows, groups } = series([
      column('length', 'um', [...places, 5000]),
      column('loss', 'dB', [...far, 2]),
    ])
    expect(rows.map(({ flagged }) => flagged)).toEqual([
      false,
      false,
      false,
      false,
      true,
      false,
      false,
      false,
    ])
    expect(groups.map(({ lengthCm, readings }) => [lengthCm, readings.count])).toEqual([
      [1, 2],
      [2, 5],
    ])
  })
})

describe('an image', () => {
  const beam = gaussianImage({
    size: 96,
    pixelUm: 0.2,
    majorUm: 6,
    minorUm: 4,
    azimuthDeg: 0,
    peak: 40_000,
    background: 500,
  })
  const taken = (more: object = {}) =>
    result(
      {
        width: beam.width,
        height: beam.height,
        fullScale: 65_535,
        pixelPitch: quantityOf(0.2, 'um'),
        binning: 1,
        pixels: packed(beam.pixels),
        ...more,
      },
      'image',
    )

  test('scales with pixel and binning, and gives the longer axis to the side on which it lies', () => {
    const values = (more: object = {}) =>
      Object.fromEntries(taken(more).mfds.map(({ id, valueUm }) => [id, valueUm]))
    const plain = values()
    expect(plain['d4s major']).toBeCloseTo(6, 1)
    expect(plain['fit minor']).toBeCloseTo(4, 2)
    expect(plain['d4s x']).toBeCloseTo(6, 1)
    expect(plain['d4s y']).toBeCloseTo(4, 1)
    for (const more of [{ binning: 2 }, { pixelPitch: quantityOf(0.4, 'um') }])
      for (const [id, valueUm] of Object.entries(values(more)))
        expect(valueUm).toBeCloseTo(2 * (plain[id] as number), 6)
    const budgets = (image: typeof beam) => {
      const { mfds } = taken({ pixels: packed(image.pixels) })
      const of = (id: string) => mfds.find((mfd) => mfd.id === id)?.budget
      return [of('d4s x') === of('d4s major'), of('d4s y') === of('d4s minor')]
    }
    const upright = gaussianImage({
      size: 96,
      pixelUm: 0.2,
      majorUm: 6,
      minorUm: 4,
      azimuthDeg: 90,
      peak: 40_000,
      background: 500,
    })
    expect(budgets(beam)).toEqual([true, true])
    expect(budgets(upright)).toEqual([false, false])
  })

  test('carries the uncertainty of its pixel as a share of every width', () => {
    const expanded = (more: object) =>
      taken(more).mfds.find(({ id }) => id === 'fit major')?.budget.contributions ?? []
    const share = (more: object) => expanded(more).find(({ source }) => source === 'pixel scale')?.standardUm
    expect(share({ pixelPitch: quantityOf(0.2, 'um', 'estimate', 0.004) })).toBeCloseTo(
      (6 * 0.02) / Math.sqrt(3),
      3,
    )
    expect(share({})).toBe(0)
  })
})

describe('lots and stress tests', () => {
  const labels = (names: readonly string[], values: readonly number[]) => [
    { role: 'assembly' as const, names, values: packed(values) },
  ]

  test('a stress test compares the last reading of each series with its first, where that is later', () => {
    const stress = (exposure: readonly number[], lossDb: readonly number[], owners: readonly number[]) =>
      result(
        {
          rows: {
            labels: labels(['A', 'B', 'C'], owners),
            lossDb: packed(lossDb),
            exposure: packed(exposure),
            exposureUnit: 'h',
          },
          lossUncertainty: quantityOf(0.1, 'dB'),
        },
        'stress',
      ).stress
    // A rises by 0.3, B falls by 0.1, and C was measured only once.
    expect(stress([0, 500, 0, 1000, 0], [1, 1.3, 0.9, 0.8, 2], [0, 0, 1, 1, 2])).toEqual({
      unit: 'h',
      last: 1000,
      readings: 5,
      assemblies: 3,
      series: 3,
      meanChangeDb: expect.closeTo(0.1, 12),
      greatestChangeDb: expect.closeTo(0.3, 12),
    })
    expect(stress([500, 500], [1, 2], [0, 1])).toMatchObject({ meanChangeDb: null, greatestChangeDb: null })
  })

  test('a lot has its mean, its assemblies and the stated uncertainty of its losses', () => {
    const { lot } = result(
      {
        rows: { labels: labels(['A', 'B', 'C'], [0, 1, 2]), lossDb: packed([1, 1.2, 1.7]) },
        lossUncertainty: quantityOf(0.1, 'dB'),
      },
      'lot',
    )
    expect(lot.meanDb).toBeCloseTo(1.3, 12)
    expect(lot.assemblies).toHaveLength(3)
  })
})

test('a raster has its widths along both stages, scaled by the stage', () => {
  const [xUm, yUm, power]: [number[], number[], number[]] = [[], [], []]
  for (let i = -12; i <= 12; i++)
    for (let j = -12; j <= 12; j++) {
      xUm.push(i * 0.5)
      yUm.push(j * 0.5)
      // Probe 4 µm; modes 6 along x and 3 along y.
      power.push(
        100 * Math.exp(-2 * ((i * 0.5) ** 2 / (2 ** 2 + 3 ** 2) + (j * 0.5) ** 2 / (2 ** 2 + 1.5 ** 2))) +
          0.01 * normal(),
      )
    }
  const raster = (more: object = {}) =>
    result(
      {
        columns: [
          column('position', 'um', xUm, 'x'),
          column('position', 'um', yUm, 'y'),
          column('power', 'uW', power),
        ],
        probeMfd: quantityOf(4, 'um'),
        stageScale: exponent(1),
        ...more,
      },
      'raster',
    )
  const plain = raster()
  expect(plain.mfds.map(({ id, valueUm }) => [id, Number(valueUm.toFixed(1))])).toEqual([
    ['x', 6],
    ['y', 3],
    ['major', 6],
    ['minor', 3],
  ])
  expect(plain.mfds[0]?.budget).toBe(plain.mfds[2]?.budget)
  expect(plain.mfds[1]?.budget).toBe(plain.mfds[3]?.budget)
  const wide = raster({ stageScale: exponent(1.2) }).mfds[0]?.valueUm
  expect(wide).toBeCloseTo(2 * Math.sqrt(1.2 ** 2 * 13 - 4), 1)
  expect(() => raster({ columns: [column('position', 'um', xUm), column('power', 'uW', power)] })).toThrow(
    /number of position columns is 1; must be 2/,
  )
})
