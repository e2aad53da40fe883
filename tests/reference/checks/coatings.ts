import { complex } from '../../../src/numerics/complex'
import { seriesExtinction, stackReflectance, type ThinFilm } from '../../../src/optics'
import { peakIrradiance } from '../../../src/optics/beam/irradiance'
import { etalonExtremes, etalonSeries } from '../../../src/optics/faces/gapEtalon'
import { MATCHED } from '../../optics/joint/jointCases'
import type { CheckRow } from '../checkRow'

const WAVELENGTH_UM = 1.55
const film = (index: number, waves: number): ThinFilm => ({
  index,
  thicknessUm: (waves * WAVELENGTH_UM) / index,
})
const reflectance = (films: readonly ThinFilm[], index2: number) =>
  stackReflectance({ wavelengthUm: WAVELENGTH_UM, index1: 1, index2, films })

const BORN_WOLF =
  'quarter waves by hand: each turns the admittance Y into n^2 / Y, M. Born and E. Wolf, Principles of Optics (1999), sect. 1.6.4'

/** Ripple of two faces of equal reflectance, dB, by the series of round trips. */
function rippleDb(gapUm: number, each: number, leanRad = 0): number {
  const face = complex(-Math.sqrt(each))
  const normal = { xRad: leanRad, yRad: 0 }
  const joint = { ...MATCHED, gapUm }
  const series = etalonSeries({ joint, near: normal, far: normal, nearAmplitude: face, farAmplitude: face })
  if (series === null) return Number.NaN
  const { crest, trough } = etalonExtremes(series)
  return 10 * Math.log10(crest / trough)
}

/** Coupling of the image that has gone round m times, over that of the direct light, by the closed form of equal modes. */
function roundTripShare(gapUm: number, m: number): number {
  const half = (each: number) => each / ((2 * Math.PI * 5.2 ** 2) / WAVELENGTH_UM)
  return Math.sqrt((1 + half(gapUm) ** 2) / (1 + half(gapUm * (2 * m + 1)) ** 2))
}

/** The first term of the series alone, both signs: 20 log10[(1 + r c) / (1 - r c)] with the phases of the terms left out. */
function firstOrderRippleDb(gapUm: number, each: number): number {
  const share = each * roundTripShare(gapUm, 1)
  return 20 * Math.log10((1 + share) / (1 - share))
}

export const coatingChecks: readonly CheckRow[] = [
  {
    id: 'coat-quarter-1.38',
    quantity: 'reflectance of a quarter wave of 1.38 on glass of 1.52',
    source: BORN_WOLF,
    input: 'n 1 / 1.38 / 1.52',
    expected: ((1.52 - 1.38 ** 2) / (1.52 + 1.38 ** 2)) ** 2,
    unit: '1',
    tolerance: 1e-12,
    ours: () => reflectance([film(1.38, 0.25)], 1.52),
  },
  {
    id: 'coat-two-quarters',
    quantity: 'reflectance of quarter waves of 1.38 and 1.70 on 1.52',
    source: BORN_WOLF,
    input: 'n 1 / 1.38 / 1.70 / 1.52',
    expected: ((1 - (1.52 * 1.38 ** 2) / 1.7 ** 2) / (1 + (1.52 * 1.38 ** 2) / 1.7 ** 2)) ** 2,
    unit: '1',
    tolerance: 1e-12,
    ours: () => reflectance([film(1.38, 0.25), film(1.7, 0.25)], 1.52),
  },
  {
    id: 'coat-v',
    quantity: 'reflectance of a V-coat of 1.38 over 2.30 on 1.52, phases 63.59 and 161.11 deg',
    source:
      'two-layer condition for no reflection, H. A. Macleod, Thin-Film Optical Filters (2001) (from memory), by hand',
    input: 'waves 0.17664 and 0.44752',
    expected: 0,
    unit: '1',
    tolerance: 1e-8,
    ours: () => reflectance([film(1.38, 0.17663955), film(2.3, 0.44752633)], 1.52),
  },
  {
    id: 'etalon-contact',
    quantity: 'ripple of two bare silica faces by the sum over round trips, gap 0',
    source: 'Airy function, M. Born and E. Wolf, Principles of Optics (1999), sect. 7.6.1',
    input: 'R 0.0330066, MFD 10.4 um',
    expected: 0.573592,
    unit: 'dB',
    tolerance: 2e-6,
    ours: () => rippleDb(0, 0.0330066),
  },
  {
    id: 'etalon-20um',
    quantity: 'the same across 20 um of air, diffraction included',
    source:
      'first round trip by the closed form of equal Gaussians (H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550), higher ones neglected',
    input: 'R 0.0330066, MFD 10.4 um, gap 20 um',
    expected: firstOrderRippleDb(20, 0.0330066),
    unit: 'dB',
    tolerance: 0.002,
    ours: () => rippleDb(20, 0.0330066),
  },
  {
    id: 'er-series',
    quantity: 'extinction ratio of joints of 1 and 2 degrees in series, powers added',
    source: 'common practice, no source: ER = -10 log10 sum 10^(-ERi/10), exact for small angles',
    input: '35.1616 and 29.1383 dB',
    expected: -10 * Math.log10(10 ** -3.51616 + 10 ** -2.91383),
    unit: 'dB',
    tolerance: 0.01,
    ours: () => seriesExtinction([Math.PI / 180, Math.PI / 90]).incoherentDb,
  },
  {
    id: 'irradiance-1mw',
    quantity: 'peak irradiance of 1 mW in a mode of 3.4 x 2.8 um',
    source: '2 P / (pi wx wy), integral of the Gaussian, A. E. Siegman, Lasers (1986), ch. 17 (from memory)',
    input: 'P 1 mW',
    expected: 2 / (Math.PI * 1.7 * 1.4),
    unit: 'mW/um^2',
    tolerance: 1e-12,
    ours: () => peakIrradiance(1000, 3.4, 2.8) / 1000,
  },
]
