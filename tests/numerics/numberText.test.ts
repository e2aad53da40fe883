import { describe, expect, test } from 'vitest'
import {
  countText,
  exponentText,
  fixedText,
  grouped,
  megabytesText,
  nmOf,
  percentText,
  plainText,
  signedText,
  significantText,
  unbroken,
  withUncertainty,
} from '../../src/numerics/numberText'

describe('numbers as they are read', () => {
  test.each([
    [fixedText(1.005, 1), '1.0'],
    [fixedText(-0.021, 2), '−0.02'],
    [fixedText(-0.004, 2), '0.00'],
    [fixedText(-0, 2), '0.00'],
    [fixedText(Number.POSITIVE_INFINITY, 2), 'no limit'],
    [fixedText(Number.NaN, 2), 'not known'],
    [plainText(1550), '1550'],
    [plainText(-9.2), '−9.2'],
    [plainText(1 / 3, 4), '0.3333'],
    [plainText(1e-9), '1e−9'],
    [plainText(Number.NaN), 'not known'],
    [significantText(3, 3), '3.00'],
    [significantText(-76.24, 3), '−76.2'],
    [significantText(12345, 3), '12300'], // never 1.23e+4
    [signedText(0.123, 2), '+0.12'],
    [signedText(-0.123, 2), '−0.12'],
    [signedText(0.001, 2), '0.00'],
    [signedText(-0.001, 2), '0.00'],
    [exponentText(2.13e-6, 1), '2.1e−6'],
    [exponentText(150000), '1.5e5'],
    [percentText(0.954), '95 %'],
    [percentText(0.954, 1), '95.4 %'],
    [megabytesText(1_234_567), '1.2 MB'],
    [megabytesText(50_000_001), '50.0 MB'],
    [countText(1_000_000), '1\u202f000\u202f000'],
    [grouped('1875.8'), '1\u202f875.8'],
    [grouped('−12345678.90123'), '−12\u202f345\u202f678.90123'],
    [grouped('999.12345'), '999.12345'],
    [grouped('no limit'), 'no limit'],
  ])('%s', (text, wanted) => {
    expect(text).toBe(wanted)
  })

  test('an uncertainty sets the decimals of its value (JCGM 100:2008, 7.2.6: two digits)', () => {
    expect(withUncertainty(3.19921, 0.0143)).toBe('3.199 ± 0.014')
    expect(withUncertainty(10.123, 1.4)).toBe('10.1 ± 1.4')
    expect(withUncertainty(10.12345678, null)).toBe('10.123')
  })

  test('a wavelength in nm has no noise of the change of unit', () => {
    expect(nmOf(1.55)).toBe(1550)
    expect(nmOf(1.3101)).toBe(1310.1)
  })
})

test('a sentence keeps its numbers on the line of their units and of their ±, and breaks everywhere else', () => {
  const text = 'Margin 0.54 ± 0.08 dB at 60 °C: 8 % of 22 parts, 3 hands off.'
  expect(unbroken(text)).toBe(
    'Margin 0.54\u00a0±\u00a00.08\u00a0dB at 60\u00a0°C: 8\u00a0% of 22 parts, 3 hands off.',
  )
  expect(unbroken('± 0.2 µm, ± 0.003')).toBe('±\u00a00.2\u00a0µm, ±\u00a00.003')
  expect(unbroken('10.9 × 10.8 µm at −0.83 / +0.84')).toBe(
    '10.9\u00a0×\u00a010.8\u00a0µm at −0.83\u00a0/\u00a0+0.84',
  )
})
