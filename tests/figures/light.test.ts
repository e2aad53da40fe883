// Figures of light over wavelength, gap and face angle: what is stated, drawn and tabled, for results whose numbers all differ.

import { describe, expect, test } from 'vitest'
import type { FaceAngleCurve } from '../../src/analysis/light/faceAngleCurve'
import type { Spectrum } from '../../src/analysis/light/spectrum'
import { faceAngleFigure } from '../../src/figures/light/faceAngle'
import { rippleFadeFigure, rippleFigure } from '../../src/figures/light/ripple'
import { polarisationFigure, spectrumFigure } from '../../src/figures/light/spectrum'
import { pointsOf, rulesOf } from './support/series'

const DEG = Math.PI / 180
const limitAt = (limitDb: number) => ({ limitDb, name: 'P99 limit' })

describe('the spectrum', () => {
  const bands = { openBelow: false, openAbove: false }
  const spectrum: Spectrum = {
    wavelengthsUm: Float64Array.of(1.5, 1.55, 1.6),
    lossesDb: Float64Array.of(1.4, 1, 1.9),
    rippledDb: Float64Array.of(1.5, 0.9, 2.1),
    coarseUm: Float64Array.of(1.5, 1.6),
    parts: [
      { kind: 'fresnel', lossesDb: Float64Array.of(0.15, 0.16) },
      { kind: 'taper', lossesDb: Float64Array.of(0.001, -0.002) },
    ],
    returnLossesDb: Float64Array.of(40, 41),
    designUm: 1.545,
    designDb: 1.02,
    leastDb: 1,
    leastUm: 1.55,
    worstDb: 1.9,
    worstUm: 1.6,
    rippledLeastDb: 0.9,
    rippledWorstDb: 2.1,
    rippleDb: 0.2,
    bandwidths: [
      { excessDb: 0.5, fromUm: 1.52, toUm: 1.57, ...bands },
      { excessDb: 1, fromUm: 1.5, toUm: 1.6, ...bands, openAbove: true },
    ],
    notes: [],
  }

  test('states its extremes and bandwidths in nanometres, and whether a band ends with the curve', () => {
    expect(spectrumFigure(spectrum, limitAt(2), false).sentence).toBe(
      'Maximum 1.90 dB at 1600.0 nm, minimum 1.00 dB, ripple not included; 0.5 dB bandwidth 50.0 nm, 1 dB at least 100.0 nm.',
    )
  })

  test('draws both losses over nanometres, and parts that are more than nothing over their own wavelengths', () => {
    const { picture, table } = spectrumFigure(spectrum, limitAt(2), true)
    expect(pointsOf(picture, 'with round trips')).toEqual([
      [1500, 1.5],
      [1550, 0.9],
      [1600, 2.1],
    ])
    expect(pointsOf(picture, 'single pass')).toEqual([
      [1500, 1.4],
      [1550, 1],
      [1600, 1.9],
    ])
    expect(pointsOf(picture, 'reflection')).toEqual([
      [1500, 0.15],
      [1600, 0.16],
    ])
    expect(pointsOf(picture, 'taper')).toBeNull()
    expect(rulesOf(picture)).toEqual({ 'design wavelength': 1545, 'P99 limit': 2 })
    expect(table.rows[2]).toEqual([1600, 2.1, 1.9])
  })

  test('leaves out a limit that is far from the curve, not one that is near', () => {
    expect(rulesOf(spectrumFigure(spectrum, limitAt(2.89), false).picture)['P99 limit']).toBe(2.89)
    expect(rulesOf(spectrumFigure(spectrum, limitAt(0.01), false).picture)['P99 limit']).toBe(0.01)
    for (const far of [2.91, -0.01])
      expect(rulesOf(spectrumFigure(spectrum, limitAt(far), false).picture)['P99 limit']).toBeUndefined()
  })

  test('of both polarisations keeps TE and TM apart', () => {
    const { sentence, picture, table } = polarisationFigure({
      wavelengthsUm: Float64Array.of(1.5, 1.6),
      teDb: Float64Array.of(1, 1.2),
      tmDb: Float64Array.of(1.1, 1.7),
      greatestDb: 0.5,
      greatestUm: 1.6,
    })
    expect(sentence).toBe('Maximum polarisation-dependent loss (PDL) 0.50 dB, at 1600.0 nm.')
    expect(pointsOf(picture, 'TM')).toEqual([
      [1500, 1.1],
      [1600, 1.7],
    ])
    expect(table.rows[1]).toEqual([1600, 1.2, 1.7])
  })
})

describe('the ripple of a gap', () => {
  const curve = {
    gapUm: 5.2,
    gapsUm: Float64Array.of(5, 5.5, 6),
    lossesDb: Float64Array.of(1.2, 0.7, 1.1),
    singleDb: Float64Array.of(0.95, 1, 1.05),
    fadeGapsUm: Float64Array.of(0, 30, 60),
    fadeDb: Float64Array.of(0.6, 0.2, 0.04),
  }

  test('is stated from the least loss to the greatest, and as it fades', () => {
    expect(rippleFigure(curve).sentence).toBe(
      'Loss varies from 0.70 to 1.20 dB as the gap changes by 1.00 µm.',
    )
    expect(rippleFadeFigure(curve).sentence).toMatch(
      /^Peak-to-peak ripple falls from 0\.60 dB at contact to 0\.04 dB at 60 µm,/,
    )
  })

  test('has the loss with and without round trips at each gap, and the present gap', () => {
    const { picture, table } = rippleFigure(curve)
    expect(pointsOf(picture, 'with round trips')?.[0]).toEqual([5, 1.2])
    expect(pointsOf(picture, 'single pass')?.[2]).toEqual([6, 1.05])
    expect(rulesOf(picture)).toEqual({ 'current gap': 5.2 })
    expect(table.rows[1]).toEqual([5.5, 0.7, 1])
    expect(rippleFadeFigure(curve).table.rows[2]).toEqual([60, 0.04])
  })
})

describe('the return loss of an end face', () => {
  const side = (face: 'near' | 'far', nowDeg: number, [nowDb, usualDb]: readonly [number, number]) => ({
    side: face,
    mfdUm: face === 'near' ? 10.4 : 3.1,
    reflectance: 0.035,
    lossesDb: Float64Array.of(14.6, 40, 90),
    nowRad: nowDeg * DEG,
    nowDb,
    usualDb,
    wantedRad: 8 * DEG,
    criticalRad: null,
  })
  const curve: FaceAngleCurve = {
    elementId: 'gap',
    anglesRad: Float64Array.of(0, 5 * DEG, 15 * DEG),
    wantedDb: 55,
    isRequired: true,
    trustDb: 70,
    lensed: false,
    sides: [side('near', 8, [62.5, 62.5]), side('far', 3, [20.3, 31.7])],
  }

  test('is stated at the present angle and at the usual one, in degrees', () => {
    expect(faceAngleFigure(curve).sentence).toBe(
      'Fibre-side mode 10.4 µm: 62.5 dB at 8.0°; chip-side mode 3.1 µm: 20.3 dB at 3.0°, 31.7 dB at 8°.',
    )
    const lensed = { ...curve, lensed: true, sides: [side('far', 8, [20.3, 20.3])] }
    expect(faceAngleFigure(lensed).sentence).toBe('Chip-side mode 3.1 µm: 20.3 dB at 8.0°.')
    const beyond = { ...curve, sides: [side('near', 12, [95, 62.5])] }
    expect(faceAngleFigure(beyond).sentence).toBe('Fibre-side mode 10.4 µm: > 70 dB at 12.0°, 62.5 dB at 8°.')
  })

  test('is drawn over degrees, no higher than its axis, with a cross at the present angle', () => {
    const { picture, table } = faceAngleFigure(curve)
    const drawn = pointsOf(picture, 'fibre-side mode, 10.4 µm')
    expect(drawn?.map(([at]) => Math.round(1e9 * at) / 1e9)).toEqual([0, 5, 15])
    expect(drawn?.map(([, db]) => db)).toEqual([14.6, 40, picture.panes[0]?.y.to])
    expect(rulesOf(picture)).toEqual({ required: 55, 'scatter limit': 70 })
    const usual = faceAngleFigure({ ...curve, isRequired: false })
    expect(rulesOf(usual.picture)).toEqual({ reference: 55, 'scatter limit': 70 })
    const crosses = picture.panes[0]?.series.flatMap((each) =>
      each.kind === 'points' ? [[Number(each.x[0]), each.y[0]]] : [],
    )
    expect(crosses?.map(([at, db]) => [Math.round(1e9 * (at ?? 0)) / 1e9, db])).toEqual([
      [8, 62.5],
      [3, 20.3],
    ])
    expect(table.rows[2]?.slice(1)).toEqual(['> 70', '> 70'])
    expect(table.rows[1]?.slice(1)).toEqual([40, 40])
  })
})
