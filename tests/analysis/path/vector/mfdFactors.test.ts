// How diameters follow the wavelength, against the straight lines and the power written out by hand.

import { describe, expect, test } from 'vitest'
import type { ChainContext } from '../../../../src/analysis/path/vector/elementModels'
import { coveredBand, mfdFactors } from '../../../../src/analysis/path/vector/mfdFactors'
import { readerAt } from '../../../../src/analysis/path/vector/valueReaders'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { ModeOverWavelength } from '../../../../src/model/schema/modeOverWavelength'

const HERE_UM = 1.5
const point = (wavelengthNm: number, x: number, y: number) => ({
  wavelength: quantityOf(wavelengthNm, 'nm'),
  mfdX: quantityOf(x, 'um'),
  mfdY: quantityOf(y, 'um'),
})
/** Not in order, as a table may be entered. */
const law: ModeOverWavelength = {
  kind: 'points',
  points: [point(1600, 4.5, 5), point(1300, 3, 6), point(1400, 3.5, 5.6)],
}

function factorsAt(each: ModeOverWavelength, wavelengthUm: number) {
  const context = { wavelengthUm: HERE_UM, wavelength: readerAt(0) } as unknown as ChainContext
  const factors = mfdFactors(context, each)
  const v = Float64Array.of(wavelengthUm)
  return [factors?.x(v), factors?.y(v)]
}

describe('factors of the diameters', () => {
  // At 1.5 um the diameters lie halfway between those at 1.4 and 1.6 um: 4 and 5.3 um.
  test.each([
    [1.3, 3, 6],
    [1.35, 3.25, 5.8],
    [1.4, 3.5, 5.6],
    [1.45, 3.75, 5.45],
    [1.5, 4, 5.3],
    [1.6, 4.5, 5],
    [1.7, 5, 4.7],
    [1.2, 2.5, 6.4],
  ])('on straight lines through the points, and on the last line beyond: %f µm', (at, x, y) => {
    const [ofX = 0, ofY = 0] = factorsAt(law, at)
    expect(ofX).toBeCloseTo(x / 4, 12)
    expect(ofY).toBeCloseTo(y / 5.3, 12)
  })

  test('by a power are the ratio of the wavelengths to that power', () => {
    const power: ModeOverWavelength = { kind: 'power law', exponent: quantityOf(1.5, '1') }
    expect(factorsAt(power, 1.65)).toEqual([1.1 ** 1.5, 1.1 ** 1.5].map((each) => expect.closeTo(each, 12)))
    expect(coveredBand(power)).toBeNull()
  })

  test('are covered from the least to the greatest wavelength, in whatever order they are entered', () => {
    expect(coveredBand(law)).toEqual([1.3, 1.6])
  })
})
