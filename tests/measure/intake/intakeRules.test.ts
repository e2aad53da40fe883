// What is read, shown, asked and kept of small files, rule by rule.

import { describe, expect, test } from 'vitest'
import { readFieldImage } from '../../../src/measure/intake/fieldImage'
import { readFieldTable } from '../../../src/measure/intake/fieldTable'
import { importedShape } from '../../../src/measure/intake/importedShape'
import { readIndexMap } from '../../../src/measure/intake/indexMap'
import { keptImage } from '../../../src/measure/intake/keptReadings'
import { neededFacts, newMeasurement } from '../../../src/measure/intake/newMeasurement'
import {
  answersForKind,
  factForKind,
  measurementAs,
  needsAngleUnit,
  possibleKinds,
} from '../../../src/measure/intake/otherKind'
import { readMeasurement } from '../../../src/measure/intake/readMeasurement'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Measurement, MeasurementOf } from '../../../src/model/schema/measurement'
import { packNumbers, unpackNumbers } from '../../../src/numerics/compactNumbers'
import type { SampledField } from '../../../src/optics/index'

const bytes = (text: string) => new TextEncoder().encode(text)
const origin = { id: 'm', fileName: 'm.csv', date: '2026-03-14' }
const [wavelength, probeMfd] = [quantityOf(1550, 'nm'), quantityOf(9, 'um')]

describe('a file', () => {
  const table = (text: string, answers = {}) => {
    const read = readMeasurement(bytes(text), 'a', answers)
    if (read.kind !== 'table') throw new Error(read.kind)
    return read
  }

  test('of a scan shows each signal over the coordinate, and what each column spans', () => {
    const read = table('time s,x um,P mW,Q mW\n1,-2,3,5\n2,0,8,2\n3,2,4,7\n')
    expect(read.previews.map(({ label, x, y, power }) => [label, [...x], [...y], power])).toEqual([
      ['P', [-2, 0, 2], [3000, 8000, 4000], null],
      ['Q', [-2, 0, 2], [5000, 2000, 7000], null],
    ])
    expect(read.columns.map(({ role, low, high }) => [role, low, high])).toEqual([
      ['other', 1, 3],
      ['position', -2, 2],
      ['power', 3000, 8000],
      ['power', 2000, 7000],
    ])
    expect(read.kept.map(({ role, values }) => [role, [...unpackNumbers(values)]])).toEqual([
      ['position', [-2, 0, 2]],
      ['power', [3000, 8000, 4000]],
      ['power', [5000, 2000, 7000]],
    ])
    const loss = table('length mm,loss dB\n1,3\n2,4\n')
    expect([...(loss.previews[0]?.y ?? [])]).toEqual([3, 4])
  })

  test('of a raster is shown in both directions, of crossing lines along each', () => {
    const raster = table('x um,y um,P mW\n0,0,1\n1,0,2\n0,1,3\n1,1,4\n')
    expect(raster.previews.map(({ x, y, power }) => [[...x], [...y], [...(power ?? [])]])).toEqual([
      [
        [0, 1, 0, 1],
        [0, 0, 1, 1],
        [1000, 2000, 3000, 4000],
      ],
    ])
    const along = [-2, -1, 0, 1, 2]
    const crossed = table(
      `x um,y um,P mW\n${[...along.map((x) => `${x},7,${x + 5}`), ...along.map((y) => `0,${y + 7},${y + 9}`)].join('\n')}\n`,
    )
    expect(crossed.previews.map(({ label, x, y }) => [label, [...x], [...y]])).toEqual([
      ['P along x', [-2, -1, 0, 1, 2, 0], [3000, 4000, 5000, 6000, 7000, 9000]],
      ['P along y', [7, 5, 6, 7, 8, 9], [5000, 7000, 8000, 9000, 10_000, 11_000]],
    ])
  })

  test('with an error, or of unknown columns, keeps nothing', () => {
    expect(table('x um,P mW\n1,0\n2,0\n').kept).toEqual([])
    expect(table('time s,P mW\n1,3\n2,4\n').kept).toEqual([])
    expect(table('x um,P mW\n1e10,3\n2,4\n')).toMatchObject({
      kept: [],
      findings: expect.arrayContaining([expect.objectContaining({ code: 'too-large', severity: 'error' })]),
    })
    const columns = (count: number) =>
      table(
        [
          ['x um', ...Array.from({ length: count }, (_, i) => `P${i} mW`)],
          ...[1, 2, 3].map((row) => [row, ...Array.from({ length: count }, (_, i) => row + i)]),
        ]
          .map((line) => line.join(','))
          .join('\n'),
      )
    expect(columns(39).kept).toHaveLength(40)
    expect(columns(40)).toMatchObject({
      kept: [],
      findings: [{ message: 'the table is 41 columns of readings; must be at most 40' }],
    })
  })

  test('of one column is repeated readings, of losses unless its words or the answer say diameters', () => {
    const list = (text: string, answers = {}) => {
      const read = readMeasurement(bytes(text), 'a', answers)
      if (read.kind !== 'list') throw new Error(read.kind)
      return { ...read, says: read.findings.map(({ severity, message }) => `${severity}: ${message}`) }
    }
    const two = list('3\n1\n2\n')
    expect(two).toMatchObject({
      quantity: 'loss in dB',
      rowsRead: 3,
      preview: { label: 'loss in dB', power: null },
    })
    expect([[...two.preview.x], [...two.preview.y], [...unpackNumbers(two.values)]]).toEqual([
      [1, 2, 3],
      [3, 1, 2],
      [3, 1, 2],
    ])
    expect(two.doubts).toMatchObject([{ assumed: 'loss in dB', alternatives: ['mode-field diameter in µm'] }])
    expect(list('MFD\n3\n1\n').quantity).toBe('mode-field diameter in µm')
    expect(list('MFD\n3\n1\n', { quantity: 'loss in dB' }).quantity).toBe('loss in dB')
    expect(list('3\n1\n', { quantity: 'mode-field diameter in µm' })).toMatchObject({
      quantity: 'mode-field diameter in µm',
      doubts: [{ alternatives: ['loss in dB'] }],
    })
    expect(list('3\n1\n', { quantity: 'colour' }).quantity).toBe('loss in dB')
    expect(two.says).toEqual([expect.stringMatching(/^remark: There is one column of numbers only/)])
    expect(list('-10000\n10000\n').says[0]).toMatch(/^remark/)
    expect(list('1\n10001\n').says).toEqual(['error: A reading is 10001; must be −10000 to 10000.'])
    expect(list('MFD um\n1\n10001\n').says[0]).toMatch(/^remark/)
    expect(list('1\n1e10\n', { quantity: 'mode-field diameter in µm' }).says).toEqual([
      'error: A reading is 10000000000; must be −1000000000 to 1000000000.',
    ])
    const measurement = (text: string) => newMeasurement(list(text), {}, origin)
    expect(measurement('3\n1\n')).toMatchObject({ method: 'repeated', unit: 'dB' })
    expect(measurement('MFD\n3\n1\n')).toMatchObject({ method: 'repeated', unit: 'um' })
    expect(measurement('1\n10001\n')).toBeNull()
  })

  test('of an image says what it is, and what is wrong with it', () => {
    const image = (text: string) => {
      const read = readMeasurement(bytes(text), 'a')
      if (read.kind !== 'image') throw new Error(read.kind)
      return { ...read, says: read.findings.map(({ severity, message }) => `${severity}: ${message}`) }
    }
    const pixels = Array.from({ length: 20 }, (_, i) => i + 1).join(' ')
    for (const blank of ['\n', '\r', ' ', '\t'])
      expect(image(`P2${blank}# 0.5 um/px\n5 4 255\n${pixels}`)).toMatchObject({
        format: 'PGM',
        width: 5,
        height: 4,
        bitDepth: 8,
        pixelUm: 0.5,
        says: [],
      })
    expect(readMeasurement(bytes('P2,x\n1,2\n2,3\n'), 'a').kind).toBe('table')
    expect(readMeasurement(bytes('XX\n1,2\n2,3\n'), 'a').kind).toBe('table')
    const bare = image(`P2 5 4 255\n${pixels}`)
    expect(bare).toMatchObject({
      pixelUm: null,
      view: { stepUm: 1, width: 5, height: 4 },
      kept: { width: 5, height: 4, binning: 1, fullScale: 255 },
    })
    expect(image(`P2\n# 0.5 um/px\n5 4 255\n${pixels}`).view.stepUm).toBe(0.5)
    expect(image(`P2 5 3 255\n${pixels}`).says).toEqual([
      'error: The image is 5 × 3 pixels; at least 4 × 4 are needed.',
    ])
    expect(image(`P2 3 5 255\n${pixels}`).says).toEqual([
      'error: The image is 3 × 5 pixels; at least 4 × 4 are needed.',
    ])
    expect(image(`P2 4 4 255\n${pixels}`).says).toEqual([])
    expect(image(`P2 4 4 255\n${'7 '.repeat(16)}`).says).toEqual([
      'error: Every pixel has 7 counts: no beam found in this image.',
    ])
    expect(image(`P2 4 4 16\n${pixels.replace(/ 1[6-9].*/, ' 16 16')}`).says).toEqual([
      'remark: Saturated pixels: 1.',
    ])
    const kept = newMeasurement(bare, { pixelPitch: quantityOf(0.5, 'um') }, origin)
    expect(kept).toMatchObject({ method: 'image', width: 5, height: 4, fullScale: 255, binning: 1 })
    expect(newMeasurement(bare, {}, origin)).toBeNull()
    expect(neededFacts(bare)).toMatchObject([{ name: 'pixelPitch', found: null, breach: null }])
    expect(neededFacts(image(`P2\n# 0.5 um/px\n5 4 255\n${pixels}`))).toMatchObject([
      { found: { value: 0.5, unit: 'um' }, breach: null },
    ])
  })
})

describe('what must be known of a series of lengths', () => {
  const facts = (text: string) => {
    const read = readMeasurement(bytes(text), 'a')
    return neededFacts(read).map(({ name }) => name)
  }

  test('is the propagation loss of one length, and the reference of absolute powers without a loss', () => {
    expect(facts('length mm,loss dB\n10,3\n20,4\n')).toEqual([])
    expect(facts('length mm,loss dB\n10,3\n10,4\n')).toEqual(['propagation'])
    expect(facts('length mm,P mW\n10,3\n20,4\n')).toEqual(['referencePower'])
    expect(facts('length mm,P V\n10,3\n20,4\n')).toEqual([])
    expect(facts('length mm,P mW\n10,3\n10,4\n')).toEqual(['propagation', 'referencePower'])
    expect(facts('length mm,loss dB,P mW\n10,3,5\n20,4,6\n')).toEqual([])
  })

  test('is kept with the measurement where it was given, and words and other columns are not', () => {
    const read = readMeasurement(bytes('length mm,P mW,time s\n10,3,1\n20,4,2\n'), 'a')
    const given = { propagation: quantityOf(2, 'dB/cm'), referencePower: quantityOf(5, 'mW') }
    const measurement = newMeasurement(read, given, origin)
    expect(measurement).toMatchObject({ method: 'loopback', ...given })
    expect(measurement?.method === 'loopback' && measurement.columns.map(({ role }) => role)).toEqual([
      'length',
      'power',
    ])
    expect(Object.keys(newMeasurement(read, {}, origin) ?? {})).not.toContain('propagation')
    expect(Object.keys(newMeasurement(read, {}, origin) ?? {})).not.toContain('referencePower')
  })
})

describe('another kind', () => {
  const offset = newMeasurement(
    readMeasurement(bytes('x um,P mW\n1,3\n2,4\n3,3\n'), 'a'),
    { probeMfd, referencePower: quantityOf(5, 'mW') },
    origin,
  ) as Measurement
  const loopback = newMeasurement(
    readMeasurement(bytes('length mm,loss dB\n10,3\n20,10\n'), 'a'),
    {},
    origin,
  ) as Measurement
  const list = newMeasurement(readMeasurement(bytes('3\n1\n'), 'a'), {}, origin) as Measurement
  const values = (measurement: Measurement | null, at: number) =>
    measurement !== null && 'columns' in measurement
      ? [...unpackNumbers(measurement.columns[at]!.values)]
      : []

  test('of angles takes each µm for one unit, and back', () => {
    const far = measurementAs(offset, 'far-field', { wavelength }, 'mrad')
    expect(values(far, 0)).toEqual([1e-3, 2e-3, 3e-3])
    expect(values(measurementAs(offset, 'far-field', { wavelength }), 0)).toEqual(
      [1, 2, 3].map((deg) => expect.closeTo((deg * Math.PI) / 180, 12)),
    )
    const back = measurementAs(far!, 'offset', { probeMfd }, 'mrad')
    expect(values(back, 0)).toEqual([1, 2, 3].map((um) => expect.closeTo(um, 12)))
    expect(values(measurementAs(offset, 'loopback'), 0)).toEqual([1, 2, 3])
    expect([
      needsAngleUnit(offset, 'far-field'),
      needsAngleUnit(far!, 'loopback'),
      needsAngleUnit(far!, 'far-field'),
      needsAngleUnit(offset, 'loopback'),
    ]).toEqual([true, true, false, false])
    expect(needsAngleUnit(list, 'far-field')).toBe(false)
  })

  test('keeps what was stated, takes what is given, and is none without what it needs', () => {
    const stated = {
      ...offset,
      stageScale: quantityOf(1.1, '1'),
      detectorExponent: quantityOf(0.9, '1'),
      referencePower: quantityOf(7, 'mW'),
    } as Measurement
    expect(
      measurementAs(stated, 'offset', { probeMfd: quantityOf(4, 'um'), referencePower: quantityOf(5, 'mW') }),
    ).toMatchObject({
      ...{
        probeMfd: { value: 9 },
        stageScale: { value: 1.1 },
        detectorExponent: { value: 0.9 },
        referencePower: { value: 7 },
      },
    })
    expect(
      measurementAs(loopback, 'offset', { probeMfd, referencePower: quantityOf(5, 'mW') }),
    ).toMatchObject({
      ...{
        probeMfd: { value: 9 },
        stageScale: { value: 1 },
        detectorExponent: { value: 1 },
        referencePower: { value: 5 },
      },
    })
    expect(Object.keys(measurementAs(loopback, 'loopback') ?? {})).not.toContain('referencePower')
    expect(measurementAs(loopback, 'offset')).toBeNull()
    expect(measurementAs(loopback, 'far-field')).toBeNull()
    expect([
      factForKind(offset, 'offset'),
      factForKind(loopback, 'offset'),
      factForKind(offset, 'far-field'),
      factForKind(offset, 'loopback'),
    ]).toEqual([null, 'probeMfd', 'wavelength', null])
    expect([possibleKinds(list), measurementAs(list, 'offset', { probeMfd })]).toEqual([[], null])
    const raster = newMeasurement(
      readMeasurement(bytes('x um,y um,P mW\n0,0,1\n1,0,2\n0,1,3\n1,1,4\n'), 'a'),
      { probeMfd },
      origin,
    ) as Measurement
    expect(measurementAs(raster, 'raster')).toMatchObject({ method: 'raster', probeMfd: { value: 9 } })
    expect(measurementAs({ ...raster, probeMfd: undefined } as unknown as Measurement, 'raster')).toBeNull()
    expect(measurementAs(offset, 'raster', { probeMfd })).toBeNull()
  })

  test('reads losses as the powers that remain, except in a series of lengths', () => {
    expect(values(measurementAs(loopback, 'offset', { probeMfd }), 1)).toEqual([
      expect.closeTo(10 ** -0.3, 9),
      expect.closeTo(0.1, 9),
    ])
    expect(values(measurementAs(loopback, 'loopback'), 1)).toEqual([3, 10])
  })

  test('asks for the layout of two positions only', () => {
    const of = (
      roles: readonly ('position' | 'angle' | 'power')[],
      kind: 'offset' | 'raster' | 'far-field',
    ) =>
      answersForKind(
        roles.map((role) => ({ role })),
        kind,
      )
    expect(of(['position', 'position', 'power'], 'offset')).toEqual({
      'role:0': 'position',
      'role:1': 'position',
      layout: 'two line scans',
    })
    expect(of(['position', 'power'], 'offset')).toEqual({ 'role:0': 'position' })
    expect(of(['position', 'power', 'angle'], 'far-field')).toEqual({ 'role:0': 'angle', 'role:2': 'angle' })
  })
})

describe('an index map', () => {
  const places = [-4, -2, 0, 2, 4]
  const rows = (of: (x: number, y: number) => number, scale = 1) =>
    places.flatMap((y) => places.map((x) => `${x * scale},${y * scale},${of(x, y)}`))
  const core = (x: number, y: number) => 1.45 + (x === 0 && y === 0 ? 0.01 : 0)
  const read = (lines: readonly string[], answers = {}) => readIndexMap(lines.join('\n'), 'm.csv', answers)

  test('has the median along all four sides as its background', () => {
    // 16 points along the border: seven along two sides are higher, which the median does not follow.
    const high = (side: (x: number, y: number) => boolean) =>
      read(['x um,y um,n', ...rows((x, y) => core(x, y) + (side(x, y) ? 0.002 : 0))]).map
    for (const side of [
      (x: number) => x === -4,
      (x: number) => x === 4,
      (_: number, y: number) => y === -4,
      (_: number, y: number) => y === 4,
    ]) {
      const map = high(side)
      expect(map.background).toBe(1.45)
      // Five of sixteen points, 20 % of the step.
      expect(map.notes.join()).toMatch(
        /^5 of 16 border points are above the surrounding index by more than 2 % of the peak step/,
      )
    }
    expect(high((x, y) => Math.max(Math.abs(x), Math.abs(y)) === 4).background).toBe(1.452)
    // 2 % of a step of 0.01 is 0.0002.
    const edge = (by: number) =>
      read(['x um,y um,n', ...rows((x, y) => core(x, y) + (x === 4 ? by : 0))]).map.notes.join()
    expect(edge(0.00019)).not.toMatch(/border points/)
    expect(edge(0.00021)).toMatch(/5 of 16 border points/)
    expect(edge(-0.001)).not.toMatch(/border points/)
  })

  test('takes the unit of either axis for both, and asks where neither has one', () => {
    const unit = (head: string, scale = 1, answers = {}) => read([head, ...rows(core, scale)], answers)
    expect(unit('x nm,y,n', 1000).map).toMatchObject({ dxUm: 2, dyUm: 2 })
    expect(unit('x,y nm,n', 1000).map).toMatchObject({ dxUm: 2, dyUm: 2 })
    expect(unit('x mm,y um,n').map).toMatchObject({ dxUm: 2000, dyUm: 2 })
    expect(unit('x,y,n', 125).doubts).toMatchObject([{ assumed: 'um', alternatives: ['nm', 'mm'] }])
    expect(unit('x,y,n', 126).doubts).toMatchObject([
      {
        id: 'unit:positions',
        question: 'Positions have no unit; they span 1008. What is their unit?',
        assumed: 'nm',
        alternatives: ['um', 'mm'],
      },
    ])
    expect(unit('x,y,n', 1, { 'unit:positions': 'mm' })).toMatchObject({
      map: { dxUm: 2000 },
      doubts: [{ alternatives: ['um', 'nm'] }],
    })
    expect(read(['x,y,n', 'um,um,a.u.', ...rows(core)]).doubts).toEqual([])
  })

  test('has indices of 1 to 6, and is refused by what it lacks', () => {
    const withCore = (index: number) => () =>
      read(['x um,y um,n', ...rows((x, y) => (x === 0 && y === 0 ? index : 1))])
    expect(withCore(6)).not.toThrow()
    expect(withCore(6.01)).toThrow(/index of row 13 at \(0, 0\) is 6\.01; must be 1 to 6/)
    expect(() => read(['x um,y um,n', ...rows((x, y) => (x === 0 && y === 0 ? 0.99 : 1.5))])).toThrow(
      /row 13/,
    )
    expect(() => read(['x um,y um,n', ...rows(() => 1.45)])).toThrow(
      /highest index of the map is .*1\.45000.*above 1\.45000/,
    )
    expect(() => read(['x um,y um,n', ...rows((x, y) => (x === 0 && y === 0 ? 1.44 : 1.45))])).toThrow(
      /highest index of the map is .*1\.45000/,
    )
    for (const head of ['x um,b,n', 'a,y um,n', 'x um,y um,c'])
      expect(() => read([head, ...rows(core)])).toThrow(/heading row is .*x, y and index/)
    expect(() => read(['a b c'])).toThrow(/number of rows with x, y and index is 0/)
  })

  test('is read with the marks that are answered', () => {
    const comma = ['x um;y um;n', ...rows(core).map((row) => row.replaceAll(',', ';').replaceAll('.', ','))]
    expect(read(comma, { delimiter: ';', 'decimal-mark': ',' }).map.dxUm).toBe(2)
    expect(() => read(comma, { delimiter: ',' })).toThrow()
    expect(() => read(comma, { 'decimal-mark': '.' })).toThrow()
    const grid = ['um,-4,-2,0,2,4', ...places.map((y) => [y, ...places.map((x) => core(x, y))].join(','))]
    expect(read(grid).doubts).toMatchObject([{ id: 'grid', assumed: 'x', alternatives: ['y'] }])
    expect(read(grid).doubts[0]?.question).toMatch(/^The table is a grid of indices/)
  })
})

describe('a field', () => {
  const places = [-2, -1, 0, 1, 2]
  const text = (head: string, of: (x: number, y: number) => readonly number[]) =>
    [head, ...places.flatMap((y) => places.map((x) => [x, y, ...of(x, y)].join(',')))].join('\n')

  test('may be given by amplitude and phase, by intensity, or by real and imaginary parts', () => {
    const at = (head: string, of: (x: number, y: number) => readonly number[]) => {
      const { field, notes } = readFieldTable(text(head, of), 1.3)
      return { re: field.re[8]!, im: field.im[8]!, notes, field }
    }
    // Place 8 is (1, -1).
    const polar = at('x um,y um,amplitude,phase deg', (x, y) => [2 + x, 30 * x - 30 * y])
    expect([polar.re, polar.im]).toEqual(
      [3 * Math.cos(Math.PI / 3), 3 * Math.sin(Math.PI / 3)].map((each) => expect.closeTo(each, 9)),
    )
    expect(polar.notes).toEqual([])
    const power = at('x um,y um,intensity', (x) => [(3 + x) ** 2])
    expect([power.re, power.im]).toEqual([4, 0])
    expect(power.notes).toEqual([
      'The file gives no phase; a flat phase is assumed.',
      'Amplitudes are the square roots of the intensities.',
    ])
    const cartesian = at('x um,y um,real,imag', (x, y) => [x, 5 * y])
    expect([cartesian.re, cartesian.im, cartesian.notes]).toEqual([1, -5, []])
    const real = at('x um,y um,real,phase rad', (x) => [x, 1])
    expect([real.re, real.im, real.notes]).toEqual([
      1,
      0,
      ['The file gives no phase; a flat phase is assumed.'],
    ])
    expect(at('x um,y um,amplitude,imag', (x) => [3 + x, 9]).im).toBe(0)
    // The first column of a role counts.
    expect(at('x um,y um,amplitude,amplitude', (x) => [3 + x, 9]).re).toBe(4)
    expect(real.field).toMatchObject({ nx: 5, ny: 5, dxUm: 1, x0Um: -2, y0Um: -2, wavelengthUm: 1.3 })
    for (const head of ['x um,b,amplitude', 'a,y um,amplitude', 'x um,y um,c'])
      expect(() =>
        readFieldTable(
          text(head, () => [1]),
          1.3,
        ),
      ).toThrow(/heading row/)
  })

  test('from an image has its top as +y, pixels as large as their blocks, and darkness below three deviations', () => {
    const [width, height] = [7, 6]
    // Border counts of 99 to 101 in turn: median 100, deviation 1.4826.
    const counts = Array.from({ length: width * height }, (_, k) => 99 + (k % 3))
    counts[1 * width + 4] = 125
    counts[3 * width + 2] = 104
    counts[4 * width + 3] = 105
    const image = {
      width,
      height,
      binning: 3,
      pixels: packNumbers(Float64Array.from(counts)),
      pixelPitch: quantityOf(0.2, 'um'),
    } as unknown as MeasurementOf<'image'>
    const { field } = readFieldImage(image, 1.3)
    expect(field).toMatchObject({ nx: 7, ny: 6, wavelengthUm: 1.3 })
    expect([field.dxUm, field.dyUm]).toEqual([0.6, 0.6].map((each) => expect.closeTo(each, 12)))
    const light = [...field.re.entries()].filter(([, value]) => value > 0)
    expect(light).toEqual([
      [1 * width + 3, expect.closeTo(Math.sqrt(5), 9)],
      [4 * width + 4, expect.closeTo(5, 9)],
    ])
  })

  test('is kept about its centroid as far as 1.6 diameters or the farther edge, in whole steps, its peak 1', () => {
    // exp(−r²/w²): D4σ of the intensity is 2 w.
    const gaussian = (
      nx: number,
      ny: number,
      step: number,
      w: number,
      cx: number,
      cy: number,
    ): SampledField => ({
      ...{ nx, ny, dxUm: step, dyUm: step, x0Um: 10, y0Um: -20, wavelengthUm: 1.3, index: 1 },
      re: Float64Array.from(
        { length: nx * ny },
        (_, k) =>
          7 * Math.exp(-(((k % nx) * step - cx) ** 2 + (Math.floor(k / nx) * step - cy) ** 2) / w ** 2),
      ),
      im: new Float64Array(nx * ny),
    })
    const kept = (field: SampledField) => importedShape({ field, notes: ['n'] }, 'f.csv')
    const wide = kept(gaussian(81, 61, 0.25, 1.5, 8, 9))
    // Half of 1.6 · 3 µm each side: 20 steps of 0.24.
    expect([wide.nx, wide.ny]).toEqual([40, 40])
    expect([wide.dxUm, wide.dyUm]).toEqual([0.24, 0.24].map((each) => expect.closeTo(each, 3)))
    const re = unpackNumbers(wide.re)
    expect(Math.max(...re)).toBeGreaterThan(0.97)
    expect(Math.max(...re)).toBeLessThanOrEqual(1)
    expect(wide.im).toBeUndefined()
    // The file ends 2.5 µm to the left and 3.5 µm to the right of the axis along x, 3 and 2 along y.
    const cut = kept(gaussian(25, 21, 0.25, 1.5, 2.5, 3))
    expect(cut.nx * cut.dxUm).toBeCloseTo(2 * 3.5, 0)
    expect(cut.ny * cut.dyUm).toBeCloseTo(2 * 3, 0)
    expect(cut.nx % 2).toBe(0)
    const fine = kept(gaussian(401, 401, 0.05, 3, 10, 10))
    expect([fine.nx, fine.ny]).toEqual([128, 128])
    expect(() => kept(gaussian(9, 9, 0.5, 0.4, 2, 2))).toThrow(
      /width along x is .*; must be at least two samples, 1(\.00)? µm/,
    )
  })
})

test('an image whose beam is longer than a project keeps is averaged in blocks', () => {
  const [width, height] = [41_000, 6]
  const pixels = Float64Array.from(
    { length: width * height },
    (_, k) =>
      Math.round(
        2000 * Math.exp(-((((k % width) - 20_000) / 3500) ** 2) - ((Math.floor(k / width) - 3) / 1.8) ** 2),
      ) +
      (k % 3),
  )
  const kept = keptImage({ width, height, pixels, fullScale: 65_535 } as unknown as Parameters<
    typeof keptImage
  >[0])
  // 41 000 pixels in blocks of three are fewer than the 20 000 that one side may have.
  expect(kept).toMatchObject({ width: 13_666, height: 2, binning: 3 })
  expect(kept.remark).toBe('41000 × 6 of 41000 × 6 pixels kept, around the beam, averaged 3 × 3.')
  const block = [0, 1, 2].flatMap((row) =>
    [0, 1, 2].map((column) => pixels[(3 + row) * width + 3 * 6700 + column]!),
  )
  expect(kept.pixels[13_666 + 6700]).toBe(Math.fround(block.reduce((sum, each) => sum + each, 0) / 9))
})
