// A warning about the end of the cladding must be true: a height at which the material does not change is no boundary, and
// a top cladding that lies on the core has no end.

import { expect, test } from 'vitest'
import { numbersOf } from '../../../src/analysis/crossSection/facetMode'
import { modeWarnings } from '../../../src/analysis/crossSection/modeWarnings'
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

test('a core that clearly carries a second mode is said to, with an index that this mode has at least', () => {
  const told = (effectiveIndex: number, xUm: number, yUm: number) => {
    const mode = {
      section: section([], OXIDE),
      effectiveIndex,
      cutOffIndex: 1.4468,
      wavelengthUm: 1.31,
      leadingShare: 1,
    }
    const gaussian = { mfdUm: { x: xUm, y: yUm }, centreUm: { x: 0, y: 0 }, overlap: 0.98 }
    const widths = { gaussian, secondMomentUm: { x: xUm, y: yUm } }
    const [solved, measured] = [mode, widths] as unknown as Parameters<typeof modeWarnings>
    return modeWarnings(solved, measured, null, 0).flatMap(
      (text) => /node along ([xy]) .* at least ([\d.]+)/.exec(text)?.slice(1) ?? [],
    )
  }
  // Silicon of 2.8 x 2.2 um in silica by a sparse eigensolver (numpy and scipy, quasi-TE, cells of 0.05 um): index 3.4850, intensity
  // widths of 2.0434 and 1.6925 um, second mode, with a node along x, 3.4618.
  const [axis, least] = told(3.485, 2.0434, 1.6925)
  expect(axis).toBe('x')
  expect(Number(least)).toBeGreaterThan(3.45)
  expect(Number(least)).toBeLessThanOrEqual(3.4618)
  // A tip near cut-off.
  expect(told(1.46, 4.2, 3.6)).toEqual([])
})
