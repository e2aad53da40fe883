// Readings far beyond anything real: the core answers in finite numbers or refuses them by name.

import { expect, test } from 'vitest'
import { farFieldMfd, offsetScanMfd, secondMomentWidths } from '../../src/measure/index'
import { readMeasurement } from '../../src/measure/intake/readMeasurement'
import { loopbackLoss } from '../../src/measure/loopback/loopback'
import { InputError } from '../../src/numerics/inputError'
import { nonFinitePaths } from '../fuzz/nonFinite'

const POINTS = 41
const along = (value: (x: number) => number) => Float64Array.from({ length: POINTS }, (_, i) => value(i - 20))
const bell = (x: number) => Math.exp(-((x / 6) ** 2))

const offset = (positions: number, powers: number) =>
  offsetScanMfd({
    positionUm: along((x) => x * positions),
    power: along((x) => bell(x) * powers),
    probeMfdUm: 3,
  })
const farField = (powers: number) =>
  farFieldMfd({
    angleRad: along((x) => x / 100),
    power: along((x) => bell(x) * powers),
    wavelengthUm: 1.55,
  })
const image = (counts: number, pixelUm: number) =>
  secondMomentWidths({
    pixels: Float64Array.from(
      { length: 41 * 41 },
      (_, i) => counts * bell((i % 41) - 20) * bell(Math.floor(i / 41) - 20),
    ),
    width: 41,
    height: 41,
    pixelUm,
  })
const loopback = (losses: number) =>
  loopbackLoss({ points: [1, 2, 3, 4].map((lengthCm) => ({ lengthCm, lossDb: losses * (2 + lengthCm) })) })

test.each([
  ['positions times 1e200', () => offset(1e200, 1)],
  ['powers of an offset scan times 1e307', () => offset(1, 1e307)],
  ['powers of a far field times 1e307', () => farField(1e307)],
  ['powers of a far field times 1e-307', () => farField(1e-307)],
  ['counts of an image times 1e307', () => image(1e307, 0.5)],
  ['pixels of 1e200 um', () => image(1000, 1e200)],
  ['loopback losses of 1e300 dB', () => loopback(1e300)],
])('%s', (_, work) => {
  let result: unknown
  try {
    result = work()
  } catch (error) {
    expect(error).toBeInstanceOf(InputError)
    return
  }
  expect(nonFinitePaths(result)).toEqual([])
})

test('the same readings at their usual size are evaluated', () => {
  for (const result of [offset(1, 1), farField(1), image(1000, 0.5), loopback(1)]) {
    expect(nonFinitePaths(result)).toEqual([])
  }
})

test('a file with 1e400 in it is read without an infinite number, and says which one it left out', () => {
  const rows = Array.from({ length: POINTS }, (_, i) => `${i - 20},${i === 7 ? '1e400' : bell(i - 20)}`)
  const text = `position um,power mW\n${rows.join('\n')}\n`
  const reading = readMeasurement(new TextEncoder().encode(text), 'offset.csv')
  expect(nonFinitePaths(reading)).toEqual([])
  expect(JSON.stringify(reading)).toContain('1e400')
})
