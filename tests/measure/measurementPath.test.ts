// The way of a file through the bench: bytes, reading, measurement in the project, result.

import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  evaluateMeasurement,
  type Facts,
  type MeasurementResult,
  measuredLossCurve,
  neededFacts,
  newMeasurement,
  readMeasurement,
} from '../../src/measure'
import { demoProject, parseProject, projectText } from '../../src/model'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Measurement } from '../../src/model/schema/measurement'
import { gaussianImage } from './support/synthetic'
import { benchBytes, truth } from './support/truth'

const origin = { id: 'measurement-1', date: '2026-03-14' }
const bytesOf = (text: string) => new TextEncoder().encode(text)

function taken(fileName: string, bytes: Uint8Array, given: Facts = {}, answers = {}): Measurement {
  const reading = readMeasurement(bytes, fileName, answers)
  const found = Object.fromEntries(
    neededFacts(reading).flatMap(({ name, found }) => (found ? [[name, found]] : [])),
  )
  const measurement = newMeasurement(reading, { ...found, ...given }, { ...origin, fileName })
  if (measurement === null) throw new Error('nothing to take')
  return measurement
}

/** Through a project file and back, as a saved project has it. */
function reopened(measurement: Measurement): Measurement {
  const project = { ...demoProject(), measurements: [measurement] }
  const [back] = parseProject(JSON.parse(projectText(project))).measurements
  if (back === undefined) throw new Error('lost')
  return back
}

function result<M extends MeasurementResult['method']>(measurement: Measurement, method: M) {
  const evaluated = evaluateMeasurement(measurement)
  if (evaluated.method !== method) throw new Error(`a ${evaluated.method}`)
  return evaluated as Extract<MeasurementResult, { method: M }>
}

const um = (value: number) => quantityOf(value, 'um', 'data sheet')

describe('each reference file, taken as read and evaluated from the saved project', () => {
  test.each([
    ['far-field-1.csv', 0.003],
    ['far-field-2.csv', 0.01],
    ['far-field-3.csv', 0.003],
  ] as const)("%s gives the near field's Petermann II diameter", (name, tolerance) => {
    const known = truth[name]!
    const wavelength = quantityOf(known.wavelengthUm * 1000, 'nm', 'data sheet')
    const measurement = reopened(taken(name, benchBytes(name), { wavelength }))
    const [petermann] = result(measurement, 'far-field').mfds
    expect(Math.abs(petermann!.valueUm / known.petermann2MfdUm - 1)).toBeLessThan(tolerance)
  })

  test.each(['offset-scan-1.csv', 'offset-scan-2.csv'] as const)('%s gives both diameters', (name) => {
    const known = truth[name]!
    const measurement = reopened(taken(name, benchBytes(name), { probeMfd: um(known.probeMfdUm) }))
    const { mfds } = result(measurement, 'offset')
    expect(mfds.map((mfd) => mfd.axis)).toEqual(['x', 'y'])
    for (const [mfd, value] of [
      [mfds[0]!, known.mfdXUm],
      [mfds[1]!, known.mfdYUm],
    ] as const) {
      const allowed = name === 'offset-scan-1.csv' ? mfd.expandedUm : 0.005 * value
      expect(Math.abs(mfd.valueUm - value)).toBeLessThan(allowed)
    }
  })

  test('near-field-1.pgm gives both axes and the azimuth, by moments and by fit', () => {
    const known = truth['near-field-1.pgm']!
    const { moments, fit } = result(reopened(taken('n.pgm', benchBytes('near-field-1.pgm'))), 'image')
    for (const found of [moments, fit]) {
      expect(found.majorUm / known.majorMfdUm).toBeCloseTo(1, 2)
      expect(Math.abs(found.majorUm / known.majorMfdUm - 1)).toBeLessThan(0.005)
      expect(Math.abs(found.minorUm / known.minorMfdUm - 1)).toBeLessThan(0.005)
      expect(Math.abs((found.azimuthRad * 180) / Math.PI - known.azimuthDeg)).toBeLessThan(0.5)
    }
  })
})

describe('what a result cannot do without', () => {
  test('is found in the file or asked for', () => {
    const asked = (name: string) =>
      neededFacts(readMeasurement(benchBytes(name), name)).map((fact) => [fact.name, fact.found?.value])
    expect(asked('far-field-1.csv')).toEqual([['wavelength', 1550]])
    expect(asked('far-field-3.csv')).toEqual([['wavelength', undefined]])
    expect(asked('offset-scan-1.csv')).toEqual([['probeMfd', undefined]])
    expect(asked('near-field-1.pgm')).toEqual([['pixelPitch', 0.25]])
  })

  test('withholds the measurement until it is known', () => {
    const reading = readMeasurement(benchBytes('offset-scan-1.csv'), 'a.csv')
    expect(newMeasurement(reading, {}, { ...origin, fileName: 'a.csv' })).toBeNull()
  })

  test('includes the propagation loss where all guides have one length', () => {
    const text = 'length [mm],insertion loss [dB]\n10,3.1\n10,3.2\n10,3.0\n'
    const reading = readMeasurement(bytesOf(text), 'one.csv')
    expect(neededFacts(reading).map((fact) => fact.name)).toEqual(['propagation'])
    const propagation = quantityOf(0.5, 'dB/cm', 'estimate')
    const { result: loss } = result(taken('one.csv', bytesOf(text), { propagation }), 'loopback')
    expect(loss.facetLossDb.value).toBeCloseTo((3.1 - 0.5) / 2, 9)
  })
})

describe('calibration that a measurement states', () => {
  const scan = () => taken('offset-scan-2.csv', benchBytes('offset-scan-2.csv'), { probeMfd: um(6) })

  test('a stage scale of 1.01 widens the scan by 1 %, and its tolerance enters the budget', () => {
    const measurement = scan()
    if (measurement.method !== 'offset') throw new Error('not an offset scan')
    const stageScale = quantityOf(1.01, '1', 'estimate', {
      plusMinus: 0.0202,
      distribution: 'normal',
      coverage: 2,
    })
    const [mfd] = result({ ...measurement, stageScale }, 'offset').mfds
    // W² = 3² + 2.2² in the file; the unknown is what is left of (1.01 W)² by the probe's 3².
    const unknownUm = 2 * Math.sqrt(1.01 ** 2 * (9 + 2.2 ** 2) - 9)
    expect(mfd!.valueUm).toBeCloseTo(unknownUm, 3)
    const part = mfd!.budget.contributions.find((each) => each.source === 'stage scale')
    // dMFD = (2W)² / MFD · u(scale), docs/measurements.md
    expect(part!.standardUm).toBeCloseTo(((4 * 1.01 ** 2 * (9 + 2.2 ** 2)) / unknownUm) * 0.01, 4)
  })

  test('a detector that reads power^1.05 is undone', () => {
    const [plain] = result(scan(), 'offset').mfds
    const text = new TextDecoder().decode(benchBytes('offset-scan-2.csv'))
    const bent = text.replace(/;([\d,]+);([\d,]+)/g, (_, x: string, y: string) =>
      [x, y].map((p) => `;${(Number(p.replace(',', '.')) ** 1.05).toFixed(9).replace('.', ',')}`).join(''),
    )
    const measurement = taken('bent.csv', bytesOf(bent), { probeMfd: um(6) })
    if (measurement.method !== 'offset') throw new Error('not an offset scan')
    const detectorExponent = quantityOf(1.05, '1', 'estimate')
    expect(result(measurement, 'offset').mfds[0]!.valueUm).not.toBeCloseTo(plain!.valueUm, 1)
    expect(result({ ...measurement, detectorExponent }, 'offset').mfds[0]!.valueUm).toBeCloseTo(
      plain!.valueUm,
      3,
    )
  })
})

describe('a column of numbers alone', () => {
  test('is taken as repeated readings, with the doubt as a question', () => {
    const reading = readMeasurement(bytesOf('loss\n2,31\n2,30\n2,33\n2,90\n2,32\n2,31\n'), 'r.txt', {
      delimiter: ';',
    })
    expect(reading).toMatchObject({ kind: 'list', rowsRead: 6, refusedCount: 0, quantity: 'loss in dB' })
    expect(reading.kind === 'list' && reading.doubts[0]?.alternatives).toEqual(['mode-field diameter in µm'])
  })

  test('gives mean and outliers, and as diameters a value to apply', () => {
    const text = '3.41\n3.39\n3.40\n3.42\n3.38\n4.90\n'
    const measurement = taken('r.txt', bytesOf(text), {}, { quantity: 'mode-field diameter in µm' })
    const { result: repeated, mfds } = result(reopened(measurement), 'repeated')
    expect(repeated.flagged).toEqual([false, false, false, false, false, true])
    expect(mfds[0]!.valueUm).toBeCloseTo(21.9 / 6, 9)
  })

  test('names lines that are no numbers', () => {
    const reading = readMeasurement(bytesOf('2.1\n2.2\nn/a\n2.0\n'), 'r.txt')
    expect(reading.kind === 'list' && reading.refusedLines).toEqual([
      { line: 3, text: 'n/a', reason: 'holds "n/a", not a number' },
    ])
  })
})

describe('what is too large to keep', () => {
  test('a scan of 150 000 rows is kept as means of neighbours, says so, and gives the same diameter', () => {
    const rows = Array.from({ length: 150_000 }, (_, i) => {
      const x = -10 + (20 * i) / 149_999
      return `${x.toFixed(6)},${(100 * Math.exp((-2 * x * x) / (5.2 ** 2 + 1.6 ** 2)) + 0.1).toFixed(6)}`
    })
    const bytes = bytesOf(`position um,power uW\n${rows.join('\n')}\n`)
    const shares: number[] = []
    const reading = readMeasurement(bytes, 'long.csv', {}, (share) => shares.push(share))
    expect(reading.kind === 'table' && reading.findings.map((finding) => finding.message)).toContain(
      '150000 rows kept as 75000 means of up to 2 neighbours.',
    )
    expect(shares.length).toBeGreaterThan(2)
    const measurement = taken('long.csv', bytes, { probeMfd: um(10.4) })
    expect(measurement.notes.at(-1)).toContain('means of up to 2')
    expect(result(measurement, 'offset').mfds[0]!.valueUm).toBeCloseTo(3.2, 2)
  })

  test('an image of 2.2 megapixels is kept around its beam, and gives the same widths', () => {
    const size = 1480
    const beam = { size, pixelUm: 1, majorUm: 300, minorUm: 240, azimuthDeg: 20, peak: 3000, background: 50 }
    const { pixels } = gaussianImage(beam)
    const header = bytesOf(`P5\n# pixel pitch 0.02 um\n${size} ${size}\n65535\n`)
    const bytes = new Uint8Array(header.length + 2 * pixels.length)
    bytes.set(header)
    const view = new DataView(bytes.buffer, header.length)
    pixels.forEach((value, i) => {
      view.setUint16(2 * i, value, false)
    })
    const measurement = taken('big.pgm', bytes)
    expect(measurement.notes.at(-1)).toMatch(/1\d\d\d × 1\d\d\d of 1480 × 1480 pixels kept, around the beam/)
    const { moments } = result(reopened(measurement), 'image')
    expect(moments.majorUm / 6).toBeCloseTo(1, 2)
    expect(moments.minorUm / 4.8).toBeCloseTo(1, 2)
  })
})

describe('files that hold nothing to evaluate', () => {
  test.each([
    ['an empty file', new Uint8Array(), /empty\.bin is "empty"/],
    ['a workbook', Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0), /copy its cells and paste them/],
    ['a JPEG', Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), /JPEG compression/],
    ['a PNG cut short', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a), /PNG without a header/],
    ['more than 50 MB', new Uint8Array(50_000_001), /50\.0 MB; must be at most 50 MB/],
  ])('%s is refused by name', (_, bytes, message) => {
    expect(() => readMeasurement(bytes, 'empty.bin')).toThrow(message)
  })

  test('junk, text and a table of words are readings with an error and nothing to take', () => {
    const junk = Uint8Array.from({ length: 4000 }, (_, i) => (i * 7919) % 251)
    for (const bytes of [junk, bytesOf('no numbers here\nat all\n'), bytesOf('a,b\nc,d\n')]) {
      const reading = readMeasurement(bytes, 'bad')
      expect(reading.kind === 'table' && reading.findings[0]?.severity).toBe('error')
      expect(neededFacts(reading)).toEqual([])
      expect(newMeasurement(reading, {}, { ...origin, fileName: 'bad' })).toBeNull()
    }
  })
})

test('an offset scan against its reference power is the loss curve of the joint', () => {
  const text = readFileSync(
    new URL('../../src/panels/measurements/reading/examples/facet-offset-scan.csv', import.meta.url),
  )
  const { signals } = result(taken('facet-offset-scan.csv', text), 'offset')
  const { outcome } = signals[0]!
  if (!outcome.ok) throw new Error(outcome.message)
  const curve = measuredLossCurve(outcome.value, 200, true)
  const at = curve.positionUm.findIndex((x) => Math.abs(x) < 0.1)
  // The example's model: 150 uW of 200 uW at its peak.
  expect(curve.lossDb[at]).toBeCloseTo(-10 * Math.log10(150 / 200), 1)
  expect(Math.max(...curve.lossDb)).toBeLessThan(12)
  const shape = measuredLossCurve(outcome.value, null, true)
  expect(shape.lossDb[at]).toBeCloseTo(0, 1)
})

describe('a detector that is not linear', () => {
  const exponent = (value: number, plusMinus: number) => ({
    ...quantityOf(value, '1', 'estimate'),
    tolerance: { plusMinus, distribution: 'normal' as const, coverage: 2 },
  })
  const beam = { size: 96, pixelUm: 0.25, majorUm: 8, minorUm: 6, azimuthDeg: 20, peak: 1, background: 0 }
  const counts = gaussianImage({ ...beam, peak: 50_000 })
  const graymap = (of: (count: number) => number) =>
    bytesOf(
      `P2\n# 0.25 um/px\n96 96\n65535\n${[...counts.pixels].map((count) => Math.round(of(count))).join(' ')}\n`,
    )
  const camera = (count: number) => 60_000 * (count / 60_000) ** 1.1
  const grid = (of: (power: number) => number) => {
    const at = Array.from({ length: 21 }, (_, i) => i / 2 - 5)
    const rows = at.map((y) => [y, ...at.map((x) => of(Math.exp(-(x * x) / 4 - (y * y) / 3)))].join(','))
    return bytesOf(`y\\x [um],${at.join(',')}\n${rows.join('\n')}`)
  }

  test('is undone for images and rasters by its exponent, which a project keeps', () => {
    const bent = reopened({
      ...taken('a.pgm', graymap(camera)),
      detectorExponent: exponent(1.1, 0),
    } as Measurement)
    expect(result(bent, 'image').moments.majorUm).toBeCloseTo(8, 1)
    const straight = taken('a.pgm', graymap(camera))
    // Widths go as 1 / sqrt(exponent).
    expect(result(straight, 'image').moments.majorUm).toBeCloseTo(8 / Math.sqrt(1.1), 1)
    const probe = { probeMfd: um(2) }
    const scan = taken(
      'a.csv',
      grid((power) => power ** 1.1),
      probe,
    )
    const undone = reopened({ ...scan, detectorExponent: exponent(1.1, 0) } as Measurement)
    expect(result(undone, 'raster').result.mfdXUm).toBeCloseTo(Math.sqrt(32 - 4), 3)
  })

  test('known to 2 % (k = 2) only, puts half a per cent of a width into the budget', () => {
    const stated = {
      ...taken(
        'a.pgm',
        graymap((count) => count),
      ),
      detectorExponent: exponent(1, 0.02),
    }
    const { mfds } = result(stated as Measurement, 'image')
    for (const { valueUm, budget } of mfds.filter((each) => each.axis === null)) {
      const part = budget.contributions.find((each) => each.source === 'detector linearity')
      expect(part?.standardUm).toBeCloseTo(0.005 * valueUm, 9)
    }
  })
})
