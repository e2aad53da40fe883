// A warning about the end of the cladding must be true: a height at which the material does not change is no boundary, and
// a top cladding that lies on the core has no end.

import { expect, test } from 'vitest'
import { numbersOf } from '../../../src/analysis/crossSection/facetMode'
import { type CrossSection, claddingEndUm } from '../../../src/optics/index'
import { solveMode } from '../../../src/optics/modeSolver/solveMode'

const [OXIDE, AIR, NITRIDE] = [1.444, 1, 1.996]
const cores: CrossSection['cores'] = [
  {
    shape: 'trapezoid',
    xUm: 0,
    bottomUm: 3,
    widthUm: 0.8,
    heightUm: 0.4,
    sidewallRad: Math.PI / 2,
    index: NITRIDE,
  },
]
const section = (layers: readonly (readonly [thicknessUm: number, index: number])[], coverIndex: number) => ({
  substrateIndex: OXIDE,
  layers: layers.map(([thicknessUm, index]) => ({ thicknessUm, index })),
  coverIndex,
  cores,
})

const warnings = (each: CrossSection) =>
  numbersOf(
    solveMode(each, { kind: 'TE', wavelengthUm: 1.55, cells: { x: 48, y: 48 } }),
    null,
  ).warnings.filter((text) => text.includes('cladding'))

test('the same oxide as layers or as top cladding, up to any height, raises no warning', () => {
  // The core alone in infinite oxide, described in four ways.
  const told = [
    section([], OXIDE),
    section([[3, OXIDE]], OXIDE), // the layer ends where the core begins
    section([[3.4, OXIDE]], OXIDE), // and where it ends
    section([[3.6, OXIDE]], OXIDE),
  ]
  for (const each of told) {
    expect(claddingEndUm(each)).toBeNull()
    expect(warnings(each)).toEqual([])
  }
})

test('a top cladding that lies on the core has no end', () => {
  expect(claddingEndUm(section([[3, OXIDE]], AIR))).toBeNull()
  expect(claddingEndUm(section([[3.4, OXIDE]], AIR))).toBeNull()
})

test('oxide that ends in air close above the core is warned of, by its distance', () => {
  const thin = section(
    [
      [3, OXIDE],
      [0.5, OXIDE],
    ],
    AIR,
  )
  expect(claddingEndUm(thin)).toBeCloseTo(3.5, 12)
  const [text, ...more] = warnings(thin)
  expect(more).toEqual([])
  // The mode's centre lies within the core, 3.0 to 3.4 um.
  const above = Number(/([\d.]+) µm above its centre/.exec(text ?? '')?.[1])
  expect(above).toBeGreaterThan(0.1)
  expect(above).toBeLessThan(0.5)
  expect(
    warnings(
      section(
        [
          [3, OXIDE],
          [6, OXIDE],
        ],
        AIR,
      ),
    ),
  ).toEqual([])
})

test('a core that carries a second mode is said to, with an index that this mode has at least', () => {
  const SILICON = 3.503913
  const [SILICA, WAVELENGTH] = [1.446804, 1.31]
  const told = (widthUm: number, heightUm: number) =>
    numbersOf(
      solveMode(
        {
          substrateIndex: SILICA,
          layers: [],
          coverIndex: SILICA,
          cores: [
            {
              ...cores[0],
              shape: 'trapezoid',
              bottomUm: 3,
              xUm: 0,
              sidewallRad: Math.PI / 2,
              widthUm,
              heightUm,
              index: SILICON,
            },
          ],
        },
        { kind: 'TE', wavelengthUm: WAVELENGTH, cells: { x: 48, y: 48 } },
      ),
      null,
    ).warnings.flatMap((text) => /node along ([xy]) .* at least ([\d.]+)/.exec(text)?.slice(1) ?? [])
  // The second mode of silicon 2.8 x 2.2 um by a sparse eigensolver (numpy and scipy, cells of 0.05 um): 3.4642 scalar, 3.4618 quasi-TE.
  const [axis, least] = told(2.8, 2.2)
  expect(axis).toBe('x')
  expect(Number(least)).toBeGreaterThan(3.45)
  expect(Number(least)).toBeLessThanOrEqual(3.4642)
  // A wire that no second mode fits into.
  expect(told(0.3, 0.2)).toEqual([])
})
