import { describe, expect, test } from 'vitest'
import { scannedWindows } from '../../../src/measure/offset/toleranceWindow'

// A power that falls as exp(-|x|) is a straight line in dB: between coarse points its logarithm is exact, its power is not.
const positionUm = Float64Array.from([-3, -2, -1, 0, 1, 2, 3])
const decaying = positionUm.map((x) => Math.exp(-Math.abs(x)))

describe('a tolerance window between measured points', () => {
  test.each([1, 3, 6])('is where the loss has grown by %d dB, on a line in dB', (excessDb) => {
    const [window] = scannedWindows(positionUm, decaying, 1, 2, [excessDb])
    const expected = (excessDb * Math.LN10) / 10
    expect(window?.toUm).toBeCloseTo(expected, 12)
    expect(window?.fromUm).toBeCloseTo(-expected, 12)
    expect(window?.measuredHalfWidthUm).toBeCloseTo(expected, 12)
  })

  test('ends where the scan does not fall that far are not known, on each side for itself', () => {
    const cut = [positionUm.slice(3), decaying.slice(3)] as const
    const [window] = scannedWindows(...cut, 1, 2, [3])
    expect(window?.fromUm).toBeNull()
    expect(window?.toUm).toBeCloseTo(0.69077552789, 9)
    expect(window?.measuredHalfWidthUm).toBeNull()
  })

  test('reaches between a point with light and one without', () => {
    const dark = decaying.map((power) => (power < 0.2 ? 0 : power))
    const [window] = scannedWindows(positionUm, dark, 1, 2, [3])
    // Of ln the level 3 dB down lies between 0 and 1; of the next point there is no logarithm.
    expect(window?.toUm).toBeCloseTo(0.69077552789, 9)
    const [deep] = scannedWindows(positionUm, dark, 1, 2, [6])
    expect(deep?.toUm).toBeCloseTo(1 + (Math.exp(-1) - 10 ** -0.6) / Math.exp(-1), 9)
  })
})
