// What each kind of number in a project may be. Fields on screen, file checks and error messages all read this.
// Limits are in the core's unit: um, rad, dB, degC, ratio.

import type { Dimension, Unit } from './units'

export interface QuantityRule {
  readonly label: string
  readonly dimension: Dimension
  readonly minCore: number
  readonly maxCore: number
  /** The unit a new value gets and a bare number is read in. */
  readonly unit: Unit
  /** One press of an arrow key, in `unit`. */
  readonly step: number
}

const deg = Math.PI / 180

const rule = (
  label: string,
  dimension: Dimension,
  minCore: number,
  maxCore: number,
  unit: Unit,
  step: number,
): QuantityRule => ({ label, dimension, minCore, maxCore, unit, step })

export const RULES = {
  wavelength: rule('wavelength', 'length', 0.3, 5, 'nm', 1),
  mfd: rule('mode-field diameter', 'length', 0.1, 500, 'um', 0.1),
  coreDiameter: rule('core diameter', 'length', 0.1, 200, 'um', 0.1),
  na: rule('numerical aperture', 'ratio', 0.01, 1, '1', 0.01),
  claddingDiameter: rule('cladding diameter', 'length', 10, 5000, 'um', 1),
  concentricity: rule('core-cladding concentricity error', 'length', 0, 100, 'um', 0.1),
  recess: rule('length in front of the facet', 'length', 0, 10_000, 'um', 1),
  edgeDepth: rule('depth below the waveguide', 'length', 0, 10_000, 'um', 1),
  chipThickness: rule('chip thickness', 'length', 1, 10_000, 'um', 5),
  lidHeight: rule('lid height', 'length', 0, 100_000, 'um', 10),
  overhang: rule('overhang', 'length', -100_000, 100_000, 'um', 1),
  bodySize: rule('size of the outline', 'length', 0.1, 100_000, 'um', 1),
  coneAngle: rule('cone half-angle', 'angle', 1 * deg, 89 * deg, 'deg', 1),
  wallAngle: rule('sidewall angle of the groove', 'angle', 5 * deg, 85 * deg, 'deg', 0.1),
  guideSize: rule('waveguide size', 'length', 0.01, 100, 'um', 0.05),
  sidewallAngle: rule('sidewall angle', 'angle', 45 * deg, 135 * deg, 'deg', 1),
  layerThickness: rule('layer thickness', 'length', 0.001, 500, 'um', 0.1),
  corePosition: rule('position in the cross-section', 'length', -200, 500, 'um', 0.1),
  depth: rule('depth below the chip surface', 'length', 0, 1000, 'um', 0.5),
  offset: rule('offset', 'length', -1000, 1000, 'um', 0.1),
  gap: rule('gap', 'length', 0, 100_000, 'um', 0.5),
  length: rule('length', 'length', 0, 1e9, 'mm', 1),
  taperLength: rule('taper length', 'length', 1, 1e5, 'um', 10),
  lensSize: rule('lens size', 'length', 1, 1e6, 'mm', 0.05),
  stretch: rule('collimated section', 'length', 0, 1e6, 'mm', 0.5),
  pitch: rule('pitch', 'length', 1, 10_000, 'um', 1),
  radius: rule('radius of curvature', 'length', 1, 1e6, 'um', 1),
  focalLength: rule('focal length', 'length', 1, 1e6, 'um', 10),
  workingDistance: rule('working distance', 'length', 0, 1e6, 'um', 0.5),
  aperture: rule('clear aperture', 'length', 1, 1e6, 'um', 10),
  tilt: rule('tilt', 'angle', -45 * deg, 45 * deg, 'deg', 0.1),
  roll: rule('roll', 'angle', -180 * deg, 180 * deg, 'deg', 0.5),
  faceAngle: rule('end-face angle', 'angle', -30 * deg, 30 * deg, 'deg', 0.5),
  angularAccuracy: rule('angular accuracy', 'angle', 0, 45 * deg, 'deg', 0.05),
  lateralAccuracy: rule('placement accuracy', 'length', 0, 1000, 'um', 0.1),
  loss: rule('loss', 'decibel', 0, 200, 'dB', 0.05),
  lossDrift: rule('drift of the loss', 'decibel', -400, 400, 'dB', 0.05),
  returnLoss: rule('return loss', 'decibel', 0, 200, 'dB', 1),
  propagationLoss: rule('propagation loss', 'decibelPerLength', 0, 1, 'dB/cm', 0.1),
  reflectance: rule('reflectance of a coated face', 'ratio', 0, 0.99, '%', 0.05),
  filmThickness: rule('film thickness', 'length', 0, 100, 'nm', 5),
  extinction: rule('imaginary part of the index', 'ratio', 0, 10, '1', 0.001),
  exponent: rule('wavelength exponent', 'ratio', -5, 5, '1', 0.1),
  rodPitch: rule('pitch of a gradient-index rod', 'ratio', 0.01, 0.49, '1', 0.01),
  index: rule('refractive index', 'ratio', 1, 6, '1', 0.001),
  pixelPitch: rule('pixel size', 'length', 1e-4, 1e4, 'um', 0.01),
  scaleFactor: rule('scale factor', 'ratio', 0.5, 2, '1', 0.001),
  detectorExponent: rule('detector linearity exponent', 'ratio', 0.5, 2, '1', 0.001),
  power: rule('power', 'power', 1e-9, 1e9, 'uW', 1),
  irradiance: rule('irradiance', 'irradiance', 1e-6, 1e9, 'kW/cm^2', 1),
  extinctionRatio: rule('extinction ratio', 'decibel', 0, 100, 'dB', 1),
  polarisationTurn: rule('polarisation rotation', 'angle', -90 * deg, 90 * deg, 'deg', 1),
  keyAngle: rule('key angle', 'angle', -45 * deg, 45 * deg, 'deg', 0.5),
  thermoOptic: rule('thermo-optic coefficient', 'perKelvin', -0.01, 0.01, '1/K', 1e-5),
  expansion: rule('coefficient of thermal expansion', 'perKelvin', -1e-4, 1e-3, 'ppm/K', 0.1),
  mountLength: rule('layer length', 'length', -1e6, 1e6, 'mm', 0.5),
  temperature: rule('temperature', 'temperature', -273.15, 1000, 'degC', 5),
} as const satisfies Record<string, QuantityRule>

export type RuleName = keyof typeof RULES
