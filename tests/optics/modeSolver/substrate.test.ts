// Facet modes above a silicon substrate against full-vector finite differences with an absorbing border in the substrate
// (tests/reference/data/substrate-tips.json, recipes/substrate_tm.py for quasi-TM, and recipes/substrate_te.py).

import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  type CrossSection,
  fibreOverlap,
  lossDb,
  modeWidths,
  solveMode,
  substrateLeakage,
} from '../../../src/optics/index'

interface Tip {
  readonly core: string
  readonly widthUm: number
  readonly heightUm: number
  readonly buriedOxideUm: number
  readonly coverTopUm: number
  readonly withSubstrateDb: readonly [number, number]
  readonly withoutSubstrateDb: readonly [number, number]
  readonly leakageDbPerMm: number
}

const { tips } = JSON.parse(
  readFileSync(new URL('../../reference/data/substrate-tips.json', import.meta.url), 'utf8'),
) as { readonly tips: readonly Tip[] }

function sectionOf(
  tip: Omit<Tip, 'withSubstrateDb' | 'withoutSubstrateDb' | 'leakageDbPerMm'>,
): CrossSection {
  return {
    substrateIndex: 3.4757,
    layers: [{ thicknessUm: tip.buriedOxideUm + tip.coverTopUm, index: 1.444 }],
    coverIndex: 1,
    cores: [
      {
        shape: 'trapezoid',
        xUm: 0,
        bottomUm: tip.buriedOxideUm,
        widthUm: tip.widthUm,
        heightUm: tip.heightUm,
        sidewallRad: Math.PI / 2,
        index: tip.core === 'silicon' ? 3.4757 : 1.996,
      },
    ],
  }
}

function lossesTo(section: CrossSection, kind: 'TE' | 'TM', wavelengthUm = 1.55) {
  const mode = solveMode(section, { kind, wavelengthUm })
  const widths = modeWidths(mode)
  const lossTo = (mfdUm: number) =>
    // By E alone, as the references were summed.
    lossDb(fibreOverlap(mode, widths, { kind: 'gaussian', mfdXUm: mfdUm, mfdYUm: mfdUm }).electricEfficiency)
  return { mode, lossesDb: [lossTo(3.2), lossTo(10.4)], leakage: substrateLeakage(mode) }
}

describe('a quasi-TE mode above a substrate of higher index', () => {
  test.each(tips)('$core, $widthUm µm wide', (tip) => {
    const { mode, lossesDb, leakage } = lossesTo(sectionOf(tip), 'TE')
    tip.withSubstrateDb.forEach((wantedDb, i) => {
      expect(Math.abs((lossesDb[i] ?? 0) - wantedDb)).toBeLessThan(0.05)
      // What leaving the substrate out would have said is off by far more than that.
      expect(Math.abs((tip.withoutSubstrateDb[i] ?? 0) - wantedDb)).toBeGreaterThan(0.1)
    })
    expect(leakage?.dbPerMm).toBeGreaterThan(0.94 * tip.leakageDbPerMm)
    expect(leakage?.dbPerMm).toBeLessThan(1.06 * tip.leakageDbPerMm)
    expect(mode.substrateTakenOut).toBe(true)
  })

  test.each([
    // tests/reference/data/recipes/substrate_tm.py on cells of 0.04 µm: width, loss to 3.2 µm, leakage.
    [0.18, 1.683, 4.8],
    [0.15, 0.988, 12.41],
  ] as const)('and quasi-TM: a silicon tip %f µm wide', (widthUm, wantedDb, wantedDbPerMm) => {
    const tip = { core: 'silicon', widthUm, heightUm: 0.22, buriedOxideUm: 2, coverTopUm: 2 }
    const { lossesDb, leakage } = lossesTo(sectionOf(tip), 'TM')
    expect(Math.abs((lossesDb[0] ?? 0) - wantedDb)).toBeLessThan(0.05)
    expect(Math.abs((leakage?.dbPerMm ?? 0) / wantedDbPerMm - 1)).toBeLessThan(0.1)
  })

  test.each([
    // tests/reference/data/recipes/substrate_te.py on cells of 0.02, 0.025 and 0.035 by 0.02 µm about the core: other sizes, oxides, a shorter
    // wavelength; the leakage of the second is the mean of 0.83 and 0.94 on two grids. Core
    // index, width, height, buried oxide, cover top, wavelength, oxide, substrate; loss to 3.2 µm, leakage.
    [3.4757, 0.16, 0.22, 2, 3, 1.55, 1.444, 3.4757, 0.37, 5.94],
    [1.996, 0.5, 0.25, 2.5, 3.25, 1.55, 1.444, 3.4757, 0.629, 0.88],
    [2, 0.7, 0.1, 2, 2.6, 1.31, 1.447, 3.503, 0.393, 3.68],
  ] as const)(
    'of index %f and %f by %f µm',
    (index, widthUm, heightUm, oxideUm, topUm, wavelengthUm, oxide, substrateIndex, ...wanted) => {
      const section: CrossSection = {
        substrateIndex,
        layers: [{ thicknessUm: oxideUm + topUm, index: oxide }],
        coverIndex: 1,
        cores: [
          {
            shape: 'trapezoid',
            xUm: 0,
            bottomUm: oxideUm,
            widthUm,
            heightUm,
            sidewallRad: Math.PI / 2,
            index,
          },
        ],
      }
      const { lossesDb, leakage } = lossesTo(section, 'TE', wavelengthUm)
      const [lossDb = Number.NaN, dbPerMm = Number.NaN] = wanted
      expect(Math.abs((lossesDb[0] ?? 0) - lossDb)).toBeLessThan(0.02)
      expect(Math.abs((leakage?.dbPerMm ?? 0) / dbPerMm - 1)).toBeLessThan(0.1)
    },
  )

  test('is guided below the index of its oxide, as long as it lies above that of the oxide between substrate and air', () => {
    const deep = tips.find(({ widthUm }) => widthUm === 0.15)
    if (deep === undefined) expect.fail('the deep tip is missing')
    const { mode } = lossesTo(sectionOf(deep), 'TE')
    expect(mode.effectiveIndex).toBeLessThan(1.444)
    // A slab of oxide 4 µm thick between a wall and air: symmetric-slab relation of the doubled slab, odd mode.
    const k = (2 * Math.PI) / 1.55
    const phase = (index: number) => {
      const kappa = k * Math.sqrt(1.444 ** 2 - index ** 2)
      return kappa * 4 - Math.PI / 2 - Math.atan((k * Math.sqrt(index ** 2 - 1)) / kappa)
    }
    let [low, high] = [1.01, 1.4439]
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2
      if (phase(middle) > 0) low = middle
      else high = middle
    }
    expect(mode.cutOffIndex).toBeCloseTo(low, 3)
  })
})
