import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  decodeText,
  farFieldAxes,
  measuredLength,
  packNumbers,
  readScan,
  unpackNumbers,
} from '../../src/measure'
import { ruleBreach } from '../../src/model/quantity/quantity'
import { RULES } from '../../src/model/quantity/quantityRules'
import { gaussianFarField } from './support/synthetic'

describe('a result becomes a quantity of the project', () => {
  const origin = { fileName: 'scan.csv', date: '2026-03-14', method: 'offset scan along x' }

  test('value and uncertainty are cut to two digits of the uncertainty (JCGM 100 7.2.6), with origin and k', () => {
    const quantity = measuredLength(3.19869, 0.014192, origin)
    expect(quantity).toEqual({
      value: 3.199,
      unit: 'um',
      provenance: 'measured',
      uncertainty: { plusMinus: 0.014, coverage: 2 },
      note: 'offset scan along x; scan.csv, 2026-03-14; U = 0.014 µm (k = 2)',
    })
    expect(ruleBreach(quantity.value, quantity.unit, RULES.mfd)).toBeNull()
  })

  test('what is no result is refused', () => {
    expect(() => measuredLength(Number.NaN, 0.01, origin)).toThrow(/valueUm is NaN/)
    expect(() => measuredLength(3, 0, origin)).toThrow(/expandedUm is 0/)
    expect(() => measuredLength(3, 0.1, { ...origin, date: '14.3.26' })).toThrow(/ISO date/)
  })
})

describe('raw data in the project file', () => {
  test('any list of numbers comes back bit for bit', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true })), (list) => {
        const values = Float64Array.from(list)
        const back = unpackNumbers(JSON.parse(JSON.stringify(packNumbers(values))))
        return back.every((value, i) => Object.is(value, values[i])) && back.length === values.length
      }),
      { seed: 3 },
    )
  })

  test('camera counts take two bytes, short decimals eight', () => {
    expect(packNumbers(Float64Array.of(0, 255)).type).toBe('u1')
    expect(packNumbers(Float64Array.of(0, 65_535)).type).toBe('u2')
    expect(packNumbers(Float64Array.of(0.5, -3)).type).toBe('f4')
    expect(packNumbers(Float64Array.of(0.1)).type).toBe('f8')
    expect(packNumbers(new Float64Array(60_000).fill(1000)).base64).toHaveLength(160_000)
  })

  test('damaged text is refused by name', () => {
    const packed = packNumbers(Float64Array.of(1, 2, 3))
    expect(() => unpackNumbers({ ...packed, count: 4 })).toThrow(/base64 is .*must be 4 bytes/)
    expect(() => unpackNumbers({ ...packed, base64: '%%' })).toThrow(/base64 text/)
  })
})

describe('bytes become text', () => {
  const text = 'x [µm];P [nW]\n1,5;2\n'
  const utf16 = (little: boolean) => {
    const view = new DataView(new ArrayBuffer(2 + 2 * text.length))
    view.setUint16(0, 0xfeff, little)
    for (let i = 0; i < text.length; i++) view.setUint16(2 + 2 * i, text.charCodeAt(i), little)
    return new Uint8Array(view.buffer)
  }

  test('UTF-8, UTF-16 of both orders and Windows-1252 give the same scan', () => {
    const windows = Uint8Array.from(text, (letter) => letter.charCodeAt(0))
    for (const bytes of [new TextEncoder().encode(text), utf16(true), utf16(false), windows]) {
      const scan = readScan(decodeText(bytes))
      expect([scan.columns[0]!.unit, scan.columns[0]!.values[0]]).toEqual(['µm', 1.5])
    }
  })
})

describe('round trip through a text file', () => {
  test('whatever the dialect, the numbers read are the numbers written', () => {
    const numbers = fc.array(
      fc.tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: -99_999, max: 99_999 })),
      { minLength: 3, maxLength: 40 },
    )
    fc.assert(
      fc.property(
        numbers,
        fc.constantFrom('\t', ';', '|', '  '),
        fc.constantFrom('.', ','),
        fc.constantFrom('\n', '\r\n', '\r'),
        (rows, delimiter, mark, end) => {
          const cell = (value: number) => (value / 1000).toFixed(3).replace('.', mark)
          const text = [
            'x_um'.concat(delimiter, 'P_uW'),
            ...rows.map(([x, p]) => `${cell(x)}${delimiter}${cell(p)}`),
          ].join(end)
          const scan = readScan(text, { 'decimal-mark': mark })
          return (
            scan.rowsRead === rows.length &&
            rows.every(
              ([x, p], i) =>
                scan.columns[0]!.values[i] === x / 1000 && scan.columns[1]!.values[i] === p / 1000,
            )
          )
        },
      ),
      { seed: 8 },
    )
  })
})

describe('far-field scans along both axes', () => {
  test('equal scans give one Petermann II diameter', () => {
    const axes = farFieldAxes(gaussianFarField(9.2, 1.31, 25, 0.4), gaussianFarField(9.2, 1.31, 25, 0.4, 0.5))
    expect(axes.circular).toBe(true)
    expect(axes.petermann2MfdUm).toBeCloseTo(9.2, 3)
  })

  test('unequal scans give none, say that the method holds for circular fields only, and give a Gaussian per axis', () => {
    const axes = farFieldAxes(gaussianFarField(3.4, 1.6537, 60, 1), gaussianFarField(2.8, 1.6537, 60, 1))
    expect(axes.petermann2MfdUm).toBeNull()
    expect(axes.warnings[0]).toMatch(/3\.400 and 2\.800.*circular/)
    expect([axes.gaussianMfdXUm, axes.gaussianMfdYUm]).toEqual([
      expect.closeTo(3.4, 2),
      expect.closeTo(2.8, 2),
    ])
  })
})
