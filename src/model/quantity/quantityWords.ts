// A quantity as it is printed: value and unit, tolerance, and the name of its field.

import { plainText } from '../../numerics/numberText'
import type { Quantity } from './quantity'
import { withUnit } from './units'

const number = (value: number) => plainText(value, 6)

export function valueText({ value, unit }: Quantity): string {
  return withUnit(number(value), unit)
}

/** The tolerance with its sign; empty where there is none. */
export function toleranceText({ tolerance, unit }: Quantity): string {
  if (tolerance === undefined || tolerance.distribution === 'fixed') return ''
  const sign = tolerance.distribution !== 'one-sided' ? '±' : tolerance.side === 'below' ? '−' : '+'
  return withUnit(`${sign} ${number(tolerance.plusMinus)}`, unit)
}

const NAMES: Readonly<Record<string, string>> = {
  mfdX: 'MFD x',
  mfdY: 'MFD y',
  na: 'numerical aperture',
  inputMfdX: 'input MFD x',
  inputMfdY: 'input MFD y',
  outputMfdX: 'output MFD x',
  outputMfdY: 'output MFD y',
  thermoOptic: 'thermo-optic coefficient, dn/dT',
  coating: 'reflectance of a coated face',
  tm: 'TM mode',
  irradianceLimit: 'irradiance limit',
  transmissionLoss: 'insertion loss',
  guideWidth: 'waveguide width',
  guideHeight: 'waveguide height',
  depth: 'depth below the surface',
  sidewall: 'sidewall angle',
  bottom: 'bottom above substrate',
  coreX: 'core position x',
  coreY: 'core position y',
  nearFaceAngle: 'fibre-side face angle',
  farFaceAngle: 'chip-side face angle',
  frontRadius: 'collimated-side radius',
  backRadius: 'focused-side radius',
  frontConic: 'collimated-side conic',
  backConic: 'focused-side conic',
  frontAspheric: 'collimated-side aspheric',
  backAspheric: 'focused-side aspheric',
}

/** `claddingDiameter` as `cladding diameter`. */
export function fieldWords(field: string): string {
  return NAMES[field] ?? field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}
