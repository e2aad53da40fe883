// Leakage through the lower layer against the exact leaky slab: the complex root of its four-layer equation, by transfer matrix.

import { describe, expect, test } from 'vitest'
import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'
import { findMode } from '../../../src/optics/modeSolver/fundamental'
import { axisFromFaces, axisOf, planAxis } from '../../../src/optics/modeSolver/grid'
import { substrateLeakage } from '../../../src/optics/modeSolver/leakage'
import { slicesOf } from '../../../src/optics/modeSolver/slices'
import { type SolvedMode, solveMode } from '../../../src/optics/modeSolver/solveMode'
import { wallDepthUm } from '../../../src/optics/modeSolver/substrateWall'
import { WALLS, waveOperator } from '../../../src/optics/modeSolver/waveOperator'
import { slabIndex } from './exactSlab'
import { rectangle } from './sections'

type Complex = readonly [number, number]
const add = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]]
const times = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]]
const over = (a: Complex, b: Complex): Complex => {
  const d = b[0] ** 2 + b[1] ** 2
  return [(a[0] * b[0] + a[1] * b[1]) / d, (a[1] * b[0] - a[0] * b[1]) / d]
}
const root = (a: Complex): Complex => {
  const re = Math.sqrt((Math.hypot(...a) + a[0]) / 2)
  return [re, a[1] / (2 * re)]
}
const exp = (a: Complex): Complex => [Math.exp(a[0]) * Math.cos(a[1]), Math.exp(a[0]) * Math.sin(a[1])]

const [CORE, CLAD, SUBSTRATE, THICKNESS, WAVELENGTH] = [1.996, 1.444, 3.476, 0.2, 1.55]
const K = (2 * Math.PI) / WAVELENGTH

/** Effective index and power loss in dB/mm of the fundamental slab mode over a layer of a thickness on the substrate. */
function exactSlabMode(kind: 'TE' | 'TM', layerUm: number) {
  const weight = (index: number): Complex => [kind === 'TM' ? 1 / index ** 2 : 1, 0]
  // Incoming at the substrate, decaying upwards: r01 of (core, layer), with the layer's own reflection at the substrate.
  const mismatch = (n2: Complex): Complex => {
    const kappa = root(times([K * K, 0], add([CORE ** 2, 0], [-n2[0], -n2[1]])))
    const gamma = root(times([K * K, 0], add(n2, [-(CLAD ** 2), 0])))
    const below = root(times([K * K, 0], add([SUBSTRATE ** 2, 0], [-n2[0], -n2[1]])))
    const g = times(gamma, weight(CLAD))
    const q = times(kappa, weight(CORE))
    const s = times([0, 1], times(below, weight(SUBSTRATE)))
    // Field in the layer: exp(gamma y) + r exp(-gamma y), y from the substrate up; exp(-i k y) below.
    const r = over(add(g, [-s[0], -s[1]]), add(g, s))
    const far = times(r, exp(times([-2 * layerUm, 0], gamma)))
    // Logarithmic slope at the core's underside, then through the core to the cover.
    const slope = times(g, over(add([1, 0], [-far[0], -far[1]]), add([1, 0], far)))
    const phase = times([THICKNESS, 0], kappa)
    const [plus, minus] = [exp(times([0, 1], phase)), exp(times([0, -1], phase))]
    const cos: Complex = [(plus[0] + minus[0]) / 2, (plus[1] + minus[1]) / 2]
    const sin = over(add(plus, [-minus[0], -minus[1]]), [0, 2])
    const top = add(times(cos, slope), times([-1, 0], times(q, sin)))
    const value = add(cos, over(times(slope, sin), q))
    return add(top, times(g, value))
  }
  let a: Complex = [
    slabIndex(kind, {
      coreIndex: CORE,
      belowIndex: CLAD,
      aboveIndex: CLAD,
      thicknessUm: THICKNESS,
      wavelengthUm: WAVELENGTH,
    }) ** 2,
    0,
  ]
  let b: Complex = [a[0] * (1 - 1e-7), -1e-9]
  let fa = mismatch(a)
  for (let i = 0; i < 60; i++) {
    const fb = mismatch(b)
    const change = over(times(fb, add(b, [-a[0], -a[1]])), add(fb, [-fa[0], -fa[1]]))
    a = b
    fa = fb
    b = add(b, [-change[0], -change[1]])
    if (Math.hypot(...change) < 1e-15) break
  }
  const index = root(b)
  return { index: index[0], dbPerMm: (2 * K * Math.abs(index[1]) * 1000 * 10) / Math.LN10 }
}

/** The same slab as the solver has it: one column of cells between mirrors, with a wall below the substrate's surface. */
function solvedSlab(kind: 'TE' | 'TM', layerUm: number, wallUm: number): SolvedMode {
  const section: CrossSection = {
    substrateIndex: CLAD,
    layers: [{ thicknessUm: layerUm, index: CLAD }],
    coverIndex: CLAD,
    cores: [
      {
        shape: 'trapezoid',
        xUm: 0,
        bottomUm: layerUm,
        widthUm: 100,
        heightUm: THICKNESS,
        sidewallRad: Math.PI / 2,
        index: CORE,
      },
    ],
  }
  const fine = { sizeUm: THICKNESS / 8 }
  const y = axisOf(
    planAxis(
      [-wallUm, layerUm, layerUm + THICKNESS, layerUm + 9],
      [
        { atUm: layerUm, ...fine },
        { atUm: layerUm + THICKNESS, ...fine },
      ],
      600,
      0,
    ),
    0,
  )
  const x = axisFromFaces(Float64Array.of(0, 1))
  const operator = waveOperator(kind, slicesOf(section, y.faces), x, y, WAVELENGTH, {
    ...WALLS,
    left: 'mirror',
    right: 'mirror',
  })
  const mode = findMode(operator, K * K * CLAD ** 2, K * K * CORE ** 2)!
  // A wide even copy, so that its plane waves gather about kx = 0 as those of a slab do.
  const wide = axisFromFaces(Float64Array.from({ length: 402 }, (_, i) => (i - 200.5) * 0.5))
  const nx = wide.centres.length
  const field = new Float64Array(nx * y.centres.length)
  const effectiveIndex = Math.sqrt(mode.value) / K
  // H over E of a slab: its index for TE, eps over its index for TM.
  const leading = new Float64Array(field.length)
  let flux = 0
  mode.field.forEach((value, iy) => {
    const inCore = y.centres[iy]! > layerUm && y.centres[iy]! < layerUm + THICKNESS
    const ratio = kind === 'TE' ? effectiveIndex : (inCore ? CORE : CLAD) ** 2 / effectiveIndex
    for (let ix = 0; ix < nx; ix++) {
      const at = iy * nx + ix
      field[at] = value * Math.exp(-((wide.centres[ix]! / 40) ** 2))
      leading[at] = ratio * field[at]
      flux += field[at] * leading[at] * 0.5 * (y.faces[iy + 1]! - y.faces[iy]!)
    }
  })
  return {
    kind,
    wavelengthUm: WAVELENGTH,
    effectiveIndex,
    cutOffIndex: CLAD,
    section,
    substrateTakenOut: true,
    substrateIndex: SUBSTRATE,
    axes: { x: wide, y },
    field,
    leadingShare: 1,
    magnetic: { leading, flux },
    levels: [],
    edgeLevel: 0,
    residual: 0,
  }
}

describe('leakage into the substrate', () => {
  test.each([
    ['TE', 2],
    ['TE', 3],
    ['TM', 4],
    ['TM', 5],
  ] as const)('of a nitride slab, %s, over %f um of oxide is the exact slab’s', (kind, layerUm) => {
    const exact = exactSlabMode(kind, layerUm)
    const index = solvedSlab(kind, layerUm, 0).effectiveIndex
    const mode = solvedSlab(kind, layerUm, wallDepthUm(kind, WAVELENGTH, index, CLAD, SUBSTRATE))
    expect(exact.dbPerMm).toBeGreaterThan(1e-4)
    expect(Math.abs(substrateLeakage(mode)!.dbPerMm / exact.dbPerMm - 1)).toBeLessThan(0.01)
  })

  // A wall at the surface moves it by 12 % and by four times as much.
  test.each(['TE', 'TM'] as const)('moves the %s mode as a wall at its depth does', (kind) => {
    const wallUm = wallDepthUm(kind, WAVELENGTH, solvedSlab(kind, 5, 0).effectiveIndex, CLAD, SUBSTRATE)
    const shift = solvedSlab(kind, 1.5, wallUm).effectiveIndex - solvedSlab(kind, 5, wallUm).effectiveIndex
    const exact = exactSlabMode(kind, 1.5).index - exactSlabMode(kind, 5).index
    expect(Math.abs(shift / exact - 1)).toBeLessThan(0.1)
  })

  const overSilicon = (layerUm: number) => {
    const strip = rectangle(0.5, 0.2, 1.996, 1.444, layerUm)
    return { ...strip, substrateIndex: 3.476, layers: [{ thicknessUm: layerUm, index: 1.444 }] }
  }

  test('falls as the lower layer grows, and the mode itself settles', () => {
    const found = [2, 3, 4].map((layerUm) => {
      const mode = solveMode(overSilicon(layerUm), {
        kind: 'TE',
        wavelengthUm: 1.55,
        cells: { x: 100, y: 76 },
      })
      expect(mode.substrateTakenOut).toBe(true)
      return { loss: substrateLeakage(mode)!.dbPerMm, index: mode.effectiveIndex }
    })
    expect(found[0]!.loss).toBeGreaterThan(2 * found[1]!.loss)
    expect(found[1]!.loss).toBeGreaterThan(2 * found[2]!.loss)
    const change = (a: number, b: number) => Math.abs(found[a]!.index - found[b]!.index)
    expect(change(2, 1)).toBeLessThan(change(1, 0))
    expect(change(2, 1)).toBeLessThan(2e-4)
  })

  test('is none where the mode is slower than light in the substrate', () => {
    const mode = solveMode(rectangle(1, 0.4, 1.996, 1.444), {
      kind: 'TE',
      wavelengthUm: 1.55,
      cells: { x: 60, y: 60 },
    })
    expect(mode.substrateTakenOut).toBe(false)
    expect(substrateLeakage(mode)).toBeNull()
  })
})
