// Headings, units, roles and comments of tables, as instruments and people write them, one rule at a time.

import { describe, expect, test } from 'vitest'
import { bareUnit, isUnitRow, roleOf, splitLabel } from '../../../src/measure/reading/columnLabel'
import { readColumns } from '../../../src/measure/reading/columnRoles'
import { exposureScale, isExposureHeading } from '../../../src/measure/reading/exposureColumn'
import { isLotHeading, lotColumns } from '../../../src/measure/reading/lotColumns'
import { metadataOf } from '../../../src/measure/reading/metadata'
import { parseNumber, whyNotNumber } from '../../../src/measure/reading/numberText'
import type { Doubt } from '../../../src/measure/reading/scan'
import type { TextTable } from '../../../src/measure/reading/tableText'
import { commentText, decodeText, looksBinary, numberedLines } from '../../../src/measure/reading/textLines'
import { unitRule } from '../../../src/measure/reading/units'

describe('a heading', () => {
  test.each([
    ['Angle [deg]', 'Angle', 'deg'],
    ['"angle (deg)"', 'angle', 'deg'],
    ['angle/deg', 'angle', 'deg'],
    ['stage position um', 'stage position', 'um'],
    ['x{mm}', 'x', 'mm'],
    ['um', 'um', 'um'],
    ['[um]', '', 'um'],
    ['P_W', 'P', 'W'],
    ['power along x W', 'power along x', 'W'],
    ['shift m', 'shift m', null],
    ['x m', 'x m', null],
    ['V', 'V', null],
    ['loss -', 'loss -', null],
    ['/deg', '/deg', null],
    ['deg/', 'deg/', null],
    ['angle / ', 'angle /', null],
    ['a (b) (um)', 'a (b)', 'um'],
    ['a (um) b', 'a (um) b', null],
    ['power (of two words)', 'power (of two words)', null],
    ['power ()', 'power ()', null],
    ['A°', 'A°', null],
    ['x µm', 'x', 'µm'],
  ])('%s is %s in %s', (heading, label, unit) => {
    expect(splitLabel(heading)).toEqual({ label, unit })
  })

  test('below another is a row of units where every cell with anything in it is one', () => {
    expect(isUnitRow(['[um]', '(dBm)'])).toBe(true)
    expect(isUnitRow(['um', '', ' '])).toBe(true)
    expect(isUnitRow(['um', 'x'])).toBe(false)
    expect(isUnitRow(['x', 'um'])).toBe(false)
    expect(isUnitRow(['', ''])).toBe(false)
    expect(isUnitRow([])).toBe(false)
    expect(bareUnit(' ["um"] ')).toBe('um')
  })

  test.each([
    ['Return', 'dB', 'power'],
    ['insertion loss', 'dB', 'loss'],
    ['insertion loss', null, 'loss'],
    ['guide length', 'mm', 'length'],
    ['anything', 'mm', 'position'],
    ['anything', 'mrad', 'angle'],
    ['anything', 'nW', 'power'],
    ['elapsed', null, 'other'],
    ['reading', null, undefined],
  ] as const)('%s in %s is a %s', (label, unit, role) => {
    expect(roleOf({ label, unit })).toBe(role)
  })
})

describe('columns without a heading that says what they are', () => {
  const read = (columns: readonly (readonly number[])[], more: Partial<TextTable> = {}, answers = {}) => {
    const doubts: Doubt[] = []
    const table = {
      headings: [],
      units: [],
      notes: [],
      columns: columns.map((each) => Float64Array.from(each)),
      ...more,
    }
    const found = readColumns(table as unknown as TextTable, answers, doubts)
    return {
      roles: found.map(({ role }) => role),
      units: found.map(({ assumedUnit }) => assumedUnit),
      doubts,
    }
  }
  const powers = [1, 2, 3]

  test.each([
    // From a narrow cone in radians to a quarter circle; in degrees wider than stages travel over a mode, up to 90.
    [[-0.04, 0.05], 'position'],
    [[-0.051, 0.04], 'angle'],
    [[0, 1.57], 'angle'],
    [[0, 1.58], 'position'],
    [[-15, 3], 'position'],
    [[-15.1, 3], 'angle'],
    [[0, 90], 'angle'],
    [[0, 90.1], 'position'],
  ] as const)('a first one up to %j is a %s', (values, role) => {
    const { roles, doubts } = read([values, powers])
    expect(roles).toEqual([role, 'power'])
    expect(doubts[0]).toMatchObject({ id: 'role:0', assumed: role })
    expect(doubts[0]?.question).toBe(
      `Column 1 has no recognised heading; its values run from ${Math.min(...values)} to ${Math.max(...values)}. Which quantity is it?`,
    )
    expect(doubts[0]?.alternatives).toEqual(
      ['angle', 'position', 'length', 'power', 'loss', 'other'].filter((each) => each !== role),
    )
  })

  test('are what the comments are about, or what is answered', () => {
    expect(read([[-3, 3], powers], { notes: ['far field of facet 3'] }).roles[0]).toBe('angle')
    expect(read([[0, 30], powers], { notes: ['offset of the probe'] }).roles[0]).toBe('position')
    expect(read([[0, 30], powers], {}, { 'role:0': 'length', 'role:1': 'loss' }).roles).toEqual([
      'length',
      'loss',
    ])
    expect(read([[0, 30], powers], {}, { 'role:0': 'nonsense' }).roles[0]).toBe('angle')
  })

  test('next to a known coordinate are powers; the first unknown one is the coordinate where there is none', () => {
    for (const heading of ['angle', 'position', 'length'])
      expect(read([[0, 30], powers], { headings: ['s', heading] }).roles).toEqual(['power', heading])
    expect(read([powers, [0, 30], powers], { headings: ['power', 's', 't'] }).roles).toEqual([
      'power',
      'angle',
      'power',
    ])
    expect(read([powers, powers], { headings: ['power', 'power'] }).roles).toEqual(['power', 'power'])
  })

  test.each([
    ['angle', [0, 1.57], 'rad'],
    ['angle', [0, -1.58], 'deg'],
    ['angle', [0, 90], 'deg'],
    ['angle', [0, 91], 'mrad'],
    ['position', [0, 0.19], 'mm'],
    ['position', [0, 0.2], 'um'],
    ['position', [0, -1000], 'um'],
    ['position', [0, 1001], 'nm'],
    ['length', [0, 199], 'mm'],
    ['length', [0, 200], 'um'],
    ['loss', [0, 3], 'dB'],
    ['power', [-1, -2, 0, 3, -1], 'linear'],
    ['power', [-1, -2, 0, -3, -1], 'dB'],
    ['time', [-1, -2, -3], 'linear'],
  ] as const)('a %s of %j without a unit is taken to be in %s', (heading, values, unit) => {
    const { units, doubts } = read([values], { headings: [heading] })
    expect(units).toEqual([unit])
    const asked = doubts.filter(({ id }) => id === 'unit:0')
    if (heading === 'loss' || heading === 'time') expect(asked).toEqual([])
    else {
      expect(asked).toMatchObject([{ assumed: unit }])
      expect(asked[0]?.question).toMatch(
        new RegExp(`^Column 1 "${heading}" has no unit; its values run from`),
      )
      expect(asked[0]?.alternatives).not.toContain(unit)
      expect(asked[0]?.alternatives).toHaveLength(2)
    }
  })

  test('take their unit from the row below, where that is one, and an empty one says so', () => {
    expect(read([[1], [2]], { headings: ['x', 'P [nW]'], units: ['(mm)', 'pW'] }).units).toEqual(['mm', 'nw'])
    expect(read([[1], [2]], { headings: ['x', 'P'], units: ['hello', 'mW'] }).units).toEqual(['um', 'mw'])
    expect(read([[]], { headings: ['x'] }).doubts[0]?.question).toMatch(/it is empty/)
  })
})

describe('the exposure of a stress test', () => {
  test.each([
    ['hours', 'h', 1],
    ['time_[h]', 'h', 1],
    ['temperature cycles', 'cycles', 1],
    ['exposure [days]', 'h', 24],
    ['elapsed weeks', 'h', 168],
    ['stress time min', 'h', 1 / 60],
  ])('%s is in %s times %s', (heading, unit, factor) => {
    const doubts: Doubt[] = []
    expect(isExposureHeading(heading)).toBe(true)
    expect(exposureScale(heading, { 'exposure-unit': 'weeks' }, doubts)).toEqual({ unit, factor })
    expect(doubts).toEqual([])
  })

  test('without a unit is asked for it, hours unless answered', () => {
    const asked = (answers = {}) => {
      const doubts: Doubt[] = []
      return { scale: exposureScale('exposure', answers, doubts), doubts }
    }
    expect(asked()).toEqual({
      scale: { unit: 'h', factor: 1 },
      doubts: [
        {
          id: 'exposure-unit',
          question: 'Unit of column "exposure"?',
          assumed: 'hours',
          alternatives: ['cycles', 'days', 'weeks', 'minutes'],
        },
      ],
    })
    expect(asked({ 'exposure-unit': 'days' })).toMatchObject({
      scale: { unit: 'h', factor: 24 },
      doubts: [{ assumed: 'days', alternatives: ['hours', 'cycles', 'weeks', 'minutes'] }],
    })
    expect(asked({ 'exposure-unit': 'fortnights' }).scale).toEqual({ unit: 'h', factor: 1 })
    expect(isExposureHeading('loss')).toBe(false)
  })
})

describe('the headings of a lot', () => {
  const read = (headings: readonly string[], answers = {}) => {
    const doubts: Doubt[] = []
    return { columns: lotColumns(headings, answers, doubts), doubts }
  }

  test('say what each column is; of several losses each is a channel by its heading', () => {
    const { columns, doubts } = read([
      'serial',
      'ch1 [dB]',
      'loss after 500 h',
      'return loss',
      'hours',
      'date',
    ])
    expect(columns.map(({ role, channel }) => [role, channel])).toEqual([
      ['assembly', null],
      ['loss', 'ch1'],
      ['loss', 'loss after 500 h'],
      ['return loss', null],
      ['exposure', null],
      ['date', null],
    ])
    expect(doubts).toEqual([])
    expect(read(['serial', 'ch1']).columns[1]).toMatchObject({ role: 'loss', channel: null })
    expect(isLotHeading(['return loss after 3 cycles', 'serial'])).toBe(false)
    expect(isLotHeading(['loss', 'cycles'])).toBe(true)
    expect(isLotHeading(['loss', 'serial'])).toBe(true)
    expect(isLotHeading(['serial', 'cycles'])).toBe(false)
  })

  test('that are not known are asked for, and the answers count', () => {
    const { columns, doubts } = read(['serial', 'loss', 'remark'])
    expect(columns[2]).toMatchObject({ label: 'remark', unit: null, role: 'not used', channel: null })
    expect(doubts).toMatchObject([
      {
        id: 'role:2',
        question: 'Column 3 "remark" is not a recognised heading of a lot table. Which quantity is it?',
        assumed: 'not used',
      },
    ])
    expect(doubts[0]?.alternatives).toEqual([
      'assembly',
      'channel',
      'loss',
      'exposure',
      'return loss',
      'date',
      'station',
      'batch',
    ])
    expect(
      read(['serial', 'loss', 'remark'], { 'role:2': 'loss' }).columns.map(({ channel }) => channel),
    ).toEqual([null, 'loss', 'remark'])
    expect(
      read(['serial', 'ch1', 'ch2'], { 'role:1': 'not used' }).columns.map(({ role, channel }) => [
        role,
        channel,
      ]),
    ).toEqual([
      ['assembly', null],
      ['not used', null],
      ['loss', null],
    ])
  })
})

describe('comments above the data', () => {
  const found = (...notes: readonly string[]) => metadataOf(notes)

  test.each([
    ['wavelength: 1550 nm', 1.55],
    ['Wavelength (um) = 1.31', 1.31],
    ['lambda 1.55', 1.55],
    ['wavelength 50', 50],
    ['wavelength 51', 0.051],
    ['wavelength 1,55 um', 1.55],
    ['wavelength_nm 980 um', 980],
    ['wavelength 0 nm', undefined],
  ])('%s', (note, um) => {
    const { wavelengthUm } = found('no number here', note)
    if (um === undefined) expect(wavelengthUm).toBeUndefined()
    else expect(wavelengthUm).toBeCloseTo(um, 12)
  })

  test('name the probe, and the first that is above zero counts', () => {
    expect(found('probe fibre MFD 10.4 um').probeMfdUm).toBeCloseTo(10.4, 12)
    expect(found('wavelength 0 nm', 'wavelength 1310 nm').wavelengthUm).toBeCloseTo(1.31, 12)
    expect(found('nothing')).toEqual({ notes: ['nothing'] })
  })
})

describe('a number', () => {
  test('is read up to 400 characters, with exponents of older programs, and not beyond a double', () => {
    expect(parseNumber(`${'0'.repeat(399)}7`, '.')).toBe(7)
    expect(parseNumber(`${'0'.repeat(400)}7`, '.')).toBeNaN()
    expect(parseNumber('1.5d3', '.')).toBe(1500)
    expect(parseNumber('1.5D-2', '.')).toBe(0.015)
    expect([
      parseNumber('d3', '.'),
      parseNumber('1.5dx', '.'),
      parseNumber('1d2d3', '.'),
      parseNumber('1e400', '.'),
    ]).toEqual([NaN, NaN, NaN, NaN])
  })

  test.each([
    ['', 'is empty'],
    ['-inf', 'is -inf'],
    ['1e400', 'is 1e400, which is too large for a number'],
    [`${'1'.repeat(396)}e400`, `is ${'1'.repeat(396)}e400, which is too large for a number`],
    [`${'1'.repeat(397)}e400`, `holds "${'1'.repeat(40)}", not a number`],
    ['open', 'holds "open", not a number'],
  ])('%s is none because it %s', (text, why) => {
    expect(whyNotNumber(text)).toBe(why)
  })
})

describe('lines of a text', () => {
  const lines = (text: string) =>
    Array.from(numberedLines(text), ({ number, text: each }) => `${number} ${each}`)

  test('end with LF, CR LF or CR alone, with or without an end at the last, and after a byte-order mark', () => {
    expect(lines('a\nb\n')).toEqual(['1 a', '2 b'])
    expect(lines('a\r\n\r\nb')).toEqual(['1 a', '2 ', '3 b'])
    expect(lines('a\rb\r')).toEqual(['1 a', '2 b'])
    expect(lines('\ufeffa\n\nb')).toEqual(['1 a', '2 ', '3 b'])
    expect(lines('\na')).toEqual(['1 ', '2 a'])
    expect(lines('ab')).toEqual(['1 ab'])
    expect(lines('\r\na')).toEqual(['1 ', '2 a'])
    expect(lines('')).toEqual([])
  })

  test('are comments by their first sign', () => {
    expect(['# a b', '  % c', '// d', '! e', '* f', '; note', ';1;2', 'a # b', '#'].map(commentText)).toEqual(
      [...['a b', 'c', 'd', 'e', 'f', 'note'], ...[null, null, '']],
    )
  })

  test('are none where more than 1 % of the first 8192 characters are no text', () => {
    const of = (strange: number, length: number, sign = '\u0001') =>
      looksBinary(sign.repeat(strange) + 'a'.repeat(length - strange))
    expect([
      of(1, 100),
      of(2, 100),
      of(2, 100, '\ufffd'),
      of(9, 100, '\t'),
      of(9, 100, '\n'),
      of(9, 100, '\r'),
      of(9, 100, '\f'),
      of(9, 100, '\u001f'),
    ]).toEqual([false, true, true, false, false, false, false, true])
    expect([
      of(81, 8192),
      of(82, 8192),
      looksBinary(`${'a'.repeat(8192)}${'\u0001'.repeat(900)}`),
      looksBinary(''),
    ]).toEqual([false, true, false, false])
  })

  test('are decoded by their byte-order mark, as UTF-8, or as older instruments wrote', () => {
    const of = (...bytes: readonly number[]) => decodeText(Uint8Array.from(bytes))
    expect(of(0xff, 0xfe, 0xb5, 0, 0x6d, 0)).toBe('µm')
    expect(of(0xfe, 0xff, 0, 0xb5, 0, 0x6d)).toBe('µm')
    expect(of(0xc2, 0xb5, 0x6d)).toBe('µm')
    expect(of(0xb5, 0x6d)).toBe('µm')
    // One byte of a mark alone is none.
    expect(of(0xff, 0x41)).toBe('ÿA')
    expect(of(0x41, 0xfe)).toBe('Aþ')
    expect(of(0xfe, 0x41)).toBe('þA')
    expect(of(0x41, 0xff)).toBe('Aÿ')
  })
})

test('a unit is known by any of its spellings', () => {
  expect(
    ['Degrees', '°', 'MICRONS', 'μm', 'a.u.', 'furlong', ' mm '].map((each) => unitRule(each)?.factor),
  ).toEqual([...[Math.PI / 180, Math.PI / 180, 1, 1, 1], ...[undefined, 1000]])
})
