import { describe, expect, test } from 'vitest'
import { textWidthPx } from '../../../src/figures/render/textWidth'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { coatingWords, lensCoating } from '../../../src/report/coatingWords'
import {
  documentCellText,
  fixedCell,
  lossCell,
  percentCell,
  plainCell,
  throughputCell,
  toleranceWords,
} from '../../../src/report/document/cells'
import { evidenceOf } from '../../../src/report/evidence'
import { dimensionsText } from '../../../src/report/partDimensions'
import { cutOff, shortened } from '../../../src/report/summary/shorten'

describe('numbers on paper', () => {
  test('have their decimals, and words where they are none', () => {
    expect(fixedCell(1.256, 2)).toEqual({ value: 1.256, text: '1.26' })
    expect(fixedCell(Number.POSITIVE_INFINITY, 2)).toBe('without limit')
    expect([fixedCell(Number.NEGATIVE_INFINITY, 2), fixedCell(Number.NaN, 2)]).toEqual([
      'not known',
      'not known',
    ])
    expect(plainCell(0.25)).toEqual({ value: 0.25, text: '0.25' })
    expect(percentCell(0.1234, 1)).toEqual({ value: expect.closeTo(12.34, 9), text: '12.3' })
    expect([documentCellText('a'), documentCellText({ value: 1, text: 'b' })]).toEqual(['a', 'b'])
  })

  test('of losses end at 200 dB, and what is left of the light at 40 dB', () => {
    expect(lossCell(1.184)).toEqual({ value: 1.184, text: '1.18' })
    expect(lossCell(500)).toEqual({ value: 200, text: '> 200' })
    expect(throughputCell(3.0103).text).toBe('50.0')
    expect(throughputCell(3.0103).value).toBeCloseTo(50, 3)
    expect(throughputCell(10)).toEqual({ value: expect.closeTo(10, 12), text: '10.0' })
    expect(throughputCell(39.9).text).toBe('0.0102')
    expect(throughputCell(40).text).toBe('under 0.01')
  })

  test('of tolerances have their distribution, and none where the number is exact', () => {
    expect(toleranceWords(quantityOf(3, 'um', 'estimate', 0.5))).toBe('± 0.5 µm, uniform')
    expect(toleranceWords(quantityOf(3, 'um'))).toBe('')
  })
})

test('numbers and coatings of a part are said with their tolerances, and what is not stated is left out', () => {
  const [exact, loose] = [quantityOf(3, 'um'), quantityOf(9, 'um', 'estimate', 0.4)]
  expect(
    dimensionsText([
      ['a', exact],
      ['b', undefined],
      ['c', loose],
    ]),
  ).toBe('a 3 µm, c 9 µm ± 0.4 µm')
  const film = (index: object, thickness: object) => ({ index, thickness }) as never
  const films = [
    film({ kind: 'material', material: 'silica' }, loose),
    film({ kind: 'value', index: quantityOf(2.1, '1') }, exact),
  ]
  const words = 'films from the glass outwards: silica 9 µm ± 0.4 µm, index 2.1 3 µm'
  expect(coatingWords({ kind: 'films', films } as never)).toBe(words)
  expect(coatingWords({ kind: 'reflectance', reflectance: quantityOf(0.2, '%') } as never)).toBe(
    'at most 0.2 %',
  )
  expect(lensCoating({ films } as never)).toBe(words)
  expect(lensCoating({ coating: quantityOf(0.2, '%') } as never)).toBe('at most 0.2 % per face')
  expect(lensCoating({} as never)).toBe('none')
})

describe('evidence', () => {
  const rows = (value: object) =>
    evidenceOf(
      { name: 'n', method: 'lot', fileName: 'f', date: 'd' } as never,
      { ok: true, value: { mfds: [], ...value } } as never,
    ).rows.map(({ label, value: cell, expanded, unit }) => [label, cell.text, expanded?.text ?? null, unit])
  const repeated = (mean: number, expanded: number | null, unit = 'dB') =>
    rows({ method: 'repeated', unit, result: { mean, expanded, count: 5 } })[0]

  test('has decimals for two digits of its uncertainty, three at least and nine at most', () => {
    expect(repeated(1.23456789, 0.2)).toEqual(['Mean of 5 readings', '1.235', '0.200', 'dB'])
    expect(repeated(1.23456789, 0.0123)).toEqual(['Mean of 5 readings', '1.235', '0.012', 'dB'])
    expect(repeated(1.23456789, 0.00123, 'um')).toEqual(['Mean of 5 readings', '1.2346', '0.0012', 'µm'])
    expect(repeated(1.23456789, 1e-12)?.[1]).toBe('1.234567890')
    expect([repeated(1.23456789, null)?.[1], repeated(1.23456789, 0)?.[1]]).toEqual(['1.235', '1.235'])
  })

  test('of a stress test counts its assemblies, and has no rows without a change', () => {
    const stress = (assemblies: number, meanChangeDb: number | null) =>
      rows({
        method: 'stress',
        stress: { meanChangeDb, greatestChangeDb: 0.4, assemblies, last: 500, unit: 'h' },
      })
    expect(stress(1, 0.2)).toEqual([
      ['Mean change of 1 assembly after 500 h', '0.200', null, 'dB'],
      ['Greatest change', '0.400', null, 'dB'],
    ])
    expect(stress(2, 0.2)[0]?.[0]).toBe('Mean change of 2 assemblies after 500 h')
    expect(stress(2, null)).toEqual([])
    expect(
      rows({
        method: 'stress',
        stress: { meanChangeDb: 1, greatestChangeDb: null, assemblies: 2, last: 5, unit: 'h' },
      }),
    ).toEqual([])
  })

  test('that was refused says why and has no rows', () => {
    expect(
      evidenceOf(
        { name: 'n', method: 'lot', fileName: 'f', date: 'd' } as never,
        { ok: false, message: 'because' } as never,
      ),
    ).toMatchObject({ rows: [], refused: 'because' })
  })
})

describe('a text that is too long for its line', () => {
  const long =
    'a fibre array with eight channels on a pitch of 127 micrometres, polished at eight degrees and coated'

  test.each([150, 230, 320])(
    'keeps its beginning and its end within %d px, in whole words where most of a part are',
    (px) => {
      const short = shortened(long, px)
      expect(textWidthPx(short, 13)).toBeLessThanOrEqual(px)
      const [start = '', end = ''] = short.split('…')
      expect(long.startsWith(start)).toBe(true)
      expect(long.endsWith(end)).toBe(true)
      // No more than two words of the longest kind are lost to whole words.
      expect(textWidthPx(short, 13)).toBeGreaterThan(0.5 * px)
      expect(Math.abs(start.length - end.length)).toBeLessThan(14)
      const cut = cutOff(long, px)
      expect(textWidthPx(cut, 13)).toBeLessThanOrEqual(px)
      expect(long.startsWith(cut.slice(0, -1))).toBe(true)
      expect(long[cut.length - 1]).toMatch(/[ ,]/)
    },
  )

  test('is whole where it fits, on one line', () => {
    expect(shortened('a  b\nc', 200)).toBe('a b c')
    expect(cutOff(' a  b ', 200)).toBe('a b')
    const exact = textWidthPx(long, 13)
    expect([shortened(long, exact), shortened(long, exact - 0.5) === long]).toEqual([long, false])
    // A word that fills the line is cut where it must be.
    expect(cutOff('x'.repeat(99), 100)).toMatch(/^x+…$/)
    expect(shortened(`${'x'.repeat(50)} ${'y'.repeat(50)}`, 150)).toMatch(/^x+…y+$/)
  })
})
