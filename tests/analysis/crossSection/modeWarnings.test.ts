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
