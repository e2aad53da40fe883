import { describe, expect, test } from 'vitest'
import { bestOffer, fibreSize, mismatchDb } from '../../../src/analysis/proposals/matching'
import { CATALOGUE_FIBRES } from '../../../src/model/catalogue/fibres'

/** Overlap of two normalised 1-D Gaussians by brute force, dB; independent of the core's closed form. */
function overlapDb(mfdA: number, mfdB: number): number {
  let [ab, aa, bb] = [0, 0, 0]
  for (let i = -4000; i <= 4000; i++) {
    const x = (i / 4000) * 30
    const a = Math.exp(-((x / (mfdA / 2)) ** 2))
    const b = Math.exp(-((x / (mfdB / 2)) ** 2))
    ab += a * b
    aa += a * a
    bb += b * b
  }
  return -10 * Math.log10((ab * ab) / (aa * bb))
}

describe('matching two modes', () => {
  test('loses what the overlap integral says, one factor an axis', () => {
    const summed = overlapDb(10.4, 3.4) + overlapDb(10.4, 2.8)
    expect(mismatchDb({ xUm: 10.4, yUm: 10.4 }, { xUm: 3.4, yUm: 2.8 })).toBeCloseTo(summed, 6)
    // Textbook value: MFD 10 against 3.3 um round, (2ab/(a²+b²))² = 0.354: 4.51 dB (closed form by hand).
    const ratio = (2 * 10 * 3.3) / (10 ** 2 + 3.3 ** 2)
    expect(mismatchDb({ xUm: 10, yUm: 10 }, { xUm: 3.3, yUm: 3.3 })).toBeCloseTo(-20 * Math.log10(ratio), 12)
  })

  test('the standard fibre of the catalogue has the mode of an ITU-T G.652 fibre at both windows', () => {
    const standard = CATALOGUE_FIBRES.find(({ id }) => id === 'fibre-core-standard')!
    // ITU-T G.652.D (from memory): nominal 8.6 to 9.2 µm at 1310 nm; 10.4 ± 0.5 µm at 1550 nm is common practice.
    expect(fibreSize(standard, 1.31)!.xUm).toBeGreaterThan(8.6)
    expect(fibreSize(standard, 1.31)!.xUm).toBeLessThan(9.2)
    expect(Math.abs(fibreSize(standard, 1.55)!.xUm - 10.4)).toBeLessThan(0.5)
  })

  test('prefers a part of the project unless the catalogue is better by more than 0.2 dB', () => {
    const loss = (part: number) => (part < 0 ? null : part)
    expect(bestOffer([0.3], [0.1], loss)).toEqual({ part: 0.3, own: true, lossDb: 0.3 })
    expect(bestOffer([0.31], [0.1], loss)).toEqual({ part: 0.1, own: false, lossDb: 0.1 })
    expect(bestOffer([-1], [0.5, 0.4], loss)).toMatchObject({ part: 0.4, own: false })
    expect(bestOffer([], [-1], loss)).toBeUndefined()
  })
})
