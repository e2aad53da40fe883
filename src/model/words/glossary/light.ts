// Reflections, spectrum, polarisation and power.

import type { Term } from './term'

export const LIGHT_TERMS = {
  returnLoss: {
    name: 'Return loss (RL)',
    definition:
      'Ratio of the power launched at one end, fibre or chip, to the power reflected back into its mode, as an incoherent sum and as a coherent worst case.',
    unit: 'dB',
    sign: 'Positive; higher is better.',
    symbol: 'RL',
    formula: 'RL = −10 log₁₀(P_back / P_in)',
  },
  backReflection: {
    name: 'Back-reflection',
    definition: 'Light reflected by a face back into the mode that it came from.',
  },
  incoherentSum: {
    name: 'Incoherent sum',
    definition: 'Sum of the back-reflected powers of all faces, as for a source of short coherence length.',
    unit: 'dB',
  },
  coherentWorstCase: {
    name: 'Coherent worst case',
    definition: 'Sum of the back-reflected amplitudes of all faces, all in phase.',
    unit: 'dB',
  },
  ripple: {
    name: 'Ripple',
    definition:
      'Periodic change of the transmission caused by interference between the two faces of a gap (Fabry-Perot effect), with maxima and minima.',
    unit: 'dB',
  },
  ripplePeriod: {
    name: 'Ripple period',
    definition: 'Change of wavelength, gap or temperature from one ripple maximum to the next.',
    formula: 'Δλ = λ² / (2nz), Δz = λ / (2n)',
  },
  reflectance: {
    name: 'Reflectance',
    definition: 'Reflected share of the incident power at one face.',
    unit: '%',
    symbol: 'R',
  },
  coating: {
    name: 'Anti-reflection coating',
    definition:
      'Thin films on a face, defined by their reflectance or by the index and thickness of every layer.',
  },
  launchPower: {
    name: 'Launch power',
    definition: 'Optical power launched into the path, in the fibre or in the chip.',
    unit: 'mW',
  },
  irradianceLimit: {
    name: 'Irradiance limit',
    definition: 'Highest peak irradiance that an end face, coating or gap medium withstands.',
    unit: 'kW/cm²',
    formula: 'I = 8P / (π MFD_x MFD_y)',
  },
  band: {
    name: 'Band',
    definition: 'Wavelength range over which the requirements hold.',
    unit: 'nm',
  },
  bandwidth: {
    name: 'Bandwidth (0.5 dB, 1 dB)',
    definition: 'Wavelength range in which the loss stays within the stated excess of its minimum.',
    unit: 'nm',
  },
  singlePass: {
    name: 'Single pass',
    definition: 'Transmission without multiple reflections between the faces of a gap.',
  },
  polarisationMaintaining: {
    name: 'Polarisation-maintaining (PM)',
    definition: 'Fibre with a slow and a fast axis that keeps light polarised along either of them.',
  },
  per: {
    name: 'Polarisation extinction ratio (PER)',
    definition: 'Ratio of the power in the wanted polarisation to that in the orthogonal one.',
    unit: 'dB',
    formula: 'PER = −10 log₁₀ tan²θ for a key angle θ',
  },
  pdl: {
    name: 'Polarisation-dependent loss (PDL)',
    definition: 'Difference between the insertion losses of the two polarisations.',
    unit: 'dB',
  },
  keyAngle: {
    name: 'Key (slow-axis) angle',
    definition: 'Angle between the slow axis of a PM fibre and the axis of the chip mode.',
    unit: '°',
  },
  isolation: {
    name: 'Isolation',
    definition: 'Loss of an isolator in the reverse direction.',
    unit: 'dB',
  },
} as const satisfies Readonly<Record<string, Term>>
