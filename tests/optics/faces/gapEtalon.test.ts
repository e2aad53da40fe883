import { describe, expect, test } from 'vitest'
import { complex } from '../../../src/numerics/complex'
import { etalonRippleDb, etalonTransmission } from '../../../src/optics/faces/etalon'
import {
  type EtalonGap,
  etalonExtremes,
  etalonFactor,
  etalonSeries,
} from '../../../src/optics/faces/gapEtalon'
import { jointAmplitude } from '../../../src/optics/joint/jointAmplitude'
import { MATCHED } from '../joint/jointCases'

const BARE_SILICA = 0.0330066
const FLAT = { xRad: 0, yRad: 0 }

function gap(
  gapUm: number,
  { mfdUm = 10.4, reflectance = BARE_SILICA, nearRad = 0, farRad = 0 } = {},
): EtalonGap {
  return {
    joint: {
      ...MATCHED,
      emitterMfdXUm: mfdUm,
      emitterMfdYUm: mfdUm,
      receiverMfdXUm: mfdUm,
      receiverMfdYUm: mfdUm,
      gapUm,
    },
    near: { ...FLAT, xRad: nearRad },
    far: { ...FLAT, xRad: farRad },
    nearAmplitude: complex(-Math.sqrt(reflectance)),
    farAmplitude: complex(-Math.sqrt(reflectance)),
  }
}

function series(of: EtalonGap) {
  const found = etalonSeries(of)
  if (found === null) throw new Error('no light')
  return found
}

const rippleDb = (of: EtalonGap) => {
  const { crest, trough } = etalonExtremes(series(of))
  return 10 * Math.log10(crest / trough)
}

describe('without diffraction', () => {
  // Airy function, M. Born and E. Wolf, Principles of Optics, sect. 7.6.1; 0.573592 dB for bare silica faces.
  test('two bare silica faces in contact ripple by 0.573592 dB', () => {
    expect(rippleDb(gap(0))).toBeCloseTo(0.573592, 5)
    expect(rippleDb(gap(0))).toBeCloseTo(
      etalonRippleDb({ reflectance1: BARE_SILICA, reflectance2: BARE_SILICA }),
      5,
    )
  })

  test('the ripple is the Airy function at every phase, up to the last term kept', () => {
    const found = series(gap(0, { reflectance: 0.3 }))
    const faces = { reflectance1: 0.3, reflectance2: 0.3 }
    const single = (1 - 0.3) ** 2
    for (const phase of [0, 0.4, 1.7, Math.PI, 5]) {
      expect(etalonFactor(found, phase)).toBeCloseTo(etalonTransmission(faces, phase) / single, 6)
    }
  })

  test('a wide beam keeps the ripple of plane waves at 50 um', () => {
    expect(rippleDb(gap(50, { mfdUm: 2000 }))).toBeCloseTo(rippleDb(gap(0)), 4)
  })
})

describe('with the diffraction of a mode', () => {
  test('the ripple fades as the gap opens', () => {
    const faded = [0, 5, 20, 50, 100, 300].map((gapUm) => rippleDb(gap(gapUm)))
    for (const [i, db] of faded.entries()) if (i > 0) expect(db).toBeLessThan(faded[i - 1] ?? 0)
  })

  test('a small mode fades sooner than a large one', () => {
    expect(rippleDb(gap(20, { mfdUm: 3.2 }))).toBeLessThan(rippleDb(gap(20, { mfdUm: 10.4 })))
  })

  // Flat faces: each round trip is 2 gaps more of free space, and nothing else (a sum written out by hand).
  test('each round trip is the coupling over two more gaps', () => {
    const here = gap(20)
    const found = series(here)
    const direct = jointAmplitude(here.joint)
    for (const m of [1, 2]) {
      const later = jointAmplitude({ ...here.joint, gapUm: 20 * (2 * m + 1) })
      const share = Math.hypot(later.re, later.im) / Math.hypot(direct.re, direct.im)
      const term = found.terms[m]
      expect(Math.hypot(term?.re ?? 0, term?.im ?? 0)).toBeCloseTo(BARE_SILICA ** m * share, 12)
    }
  })

  test('the phase is 4 pi n L / lambda, also of faces that return too little to interfere', () => {
    const faint = series(gap(20, { reflectance: 1e-9 }))
    expect(faint.terms).toHaveLength(1)
    expect(faint.phaseRad).toBeCloseTo((4 * Math.PI * 20) / 1.55, 9)
  })

  test('the phase is 4 pi n L / lambda: one period is 0.775 um of gap at 1550 nm in air', () => {
    const difference = series(gap(20.775)).phaseRad - series(gap(20)).phaseRad
    expect(difference).toBeCloseTo(2 * Math.PI, 9)
  })
})

// V. Shah, L. Curtis and W. C. Young, J. Lightwave Technol. 7 (1989) 1478: parallel oblique faces return little light and
// still show large variation of the transmitted power with separation; the period in separation grows with the angle.
describe('oblique faces', () => {
  const LEAN = 0.2

  test('that are parallel keep their ripple in a short gap', () => {
    expect(rippleDb(gap(3, { nearRad: LEAN, farRad: LEAN }))).toBeGreaterThan(0.5)
  })

  test('that are parallel lose it as the round trips shift off the mode, sooner than perpendicular ones', () => {
    const oblique = rippleDb(gap(50, { nearRad: LEAN, farRad: LEAN }))
    expect(oblique).toBeLessThan(0.1)
    expect(oblique).toBeLessThan(rippleDb(gap(50)))
  })

  test('have a phase of 4 pi n L cos(t) / lambda along the normal, L = gap cos(t)', () => {
    const phase = series(gap(20, { nearRad: LEAN, farRad: LEAN })).phaseRad
    expect(phase).toBeCloseTo(((4 * Math.PI * 20) / 1.55) * Math.cos(LEAN) ** 2, 9)
  })

  test('that are angled against each other have no ripple', () => {
    expect(rippleDb(gap(20, { nearRad: LEAN, farRad: -LEAN }))).toBeLessThan(1e-3)
  })

  test('do the same for either sign of the angle', () => {
    const one = rippleDb(gap(10, { nearRad: LEAN, farRad: 0.15 }))
    expect(rippleDb(gap(10, { nearRad: -LEAN, farRad: -0.15 }))).toBeCloseTo(one, 12)
  })
})

describe('limits', () => {
  test('an index-matched gap has no ripple', () => {
    const { crest, trough, here } = etalonExtremes(series(gap(20, { reflectance: 0 })))
    expect(crest).toBe(1)
    expect(trough).toBe(1)
    expect(here).toBe(1)
  })

  test('the nominal gap lies between maximum and minimum, and the mean over a period is at least a single pass', () => {
    for (const gapUm of [0.3, 3, 11.2, 47]) {
      const { here, crest, trough, mean } = etalonExtremes(series(gap(gapUm, { reflectance: 0.2 })))
      expect(here).toBeLessThanOrEqual(crest + 1e-12)
      expect(here).toBeGreaterThanOrEqual(trough - 1e-12)
      expect(mean).toBeGreaterThanOrEqual(1)
    }
  })

  test('half a period of gap leads from maximum to minimum', () => {
    const at = (gapUm: number) => etalonExtremes(series(gap(gapUm)))
    const start = at(20)
    const toCrest = 20 - start.fromCrest * 0.775
    expect(Math.abs(at(toCrest).fromCrest)).toBeLessThan(2e-3) // diffraction shifts the maximum slightly
    expect(Math.abs(Math.abs(at(toCrest + 0.3875).fromCrest) - 0.5)).toBeLessThan(2e-3)
  })

  test('perfect mirrors are refused', () => {
    expect(() => etalonSeries(gap(3, { reflectance: 1 }))).toThrow('reflectance of the pair')
  })
})
