// How a characteristic of a part is measured when it comes in, with the uncertainty that is planned for unless a better one is entered.
// Numbers of standards are from memory; their edition is agreed with the supplier. Uncertainties: common practice, no source.

import { dimensionOf, type Unit, unitFactor, unitLabel } from '../../model/quantity/units'

interface InspectionMethod {
  readonly name: string
  /** What is measured and by what, with the standard where there is one. */
  readonly description: string
  /** Expanded uncertainty, k = 2. */
  readonly expanded: number
  /** Of the uncertainty; `of value` for per cent of the value measured. */
  readonly unit: Unit | 'of value'
}

const method = (
  name: string,
  description: string,
  expanded: number,
  unit: InspectionMethod['unit'],
): InspectionMethod => ({ name, description, expanded, unit })

export const METHODS = {
  farField: method('far field', 'Far-field scan of the end face (IEC 60793-1-45)', 1, 'of value'),
  coreGeometry: method('core geometry', 'Refracted or transmitted near field (IEC 60793-1-20)', 0.1, 'um'),
  numericalAperture: method(
    'numerical aperture',
    'Far-field angle or index profile (IEC 60793-1-43)',
    0.002,
    '1',
  ),
  cladding: method('end-face image', 'Grey-scale image of the end face (IEC 60793-1-20)', 0.2, 'um'),
  nearField: method(
    'near field',
    'Near-field image of the lit end face, or offset scan with a probe of known MFD',
    3,
    'of value',
  ),
  offsetScan: method('offset scan', 'Offset scan with a probe of known MFD at the focus', 4, 'of value'),
  throughFocus: method('through focus', 'Through-focus scan: distance of the smallest spot', 0.5, 'um'),
  faceAngle: method('face angle', 'Interference microscope or autocollimator on the end face', 0.1, 'deg'),
  keyAngle: method('key angle', 'Crossed polarisers, or image of the stress rods', 1, 'deg'),
  rotation: method(
    'polarisation rotation',
    'Rotation of the transmitted polarisation between polarisers',
    1,
    'deg',
  ),
  pitch: method(
    'pitch',
    'Core centres of all channels in a calibrated microscope: slope of the straight line through them',
    0.01,
    'um',
  ),
  corePosition: method(
    'core position',
    'Core centres of all channels in a calibrated microscope: distance from the straight line through them',
    0.1,
    'um',
  ),
  insertionLoss: method('insertion loss', 'Insertion loss by substitution (IEC 61300-3-4)', 0.05, 'dB'),
  isolation: method('isolation', 'Transmission in both directions', 1, 'dB'),
  reflectance: method(
    'reflectance',
    'Witness sample in a spectrophotometer at the operating angle of incidence (ISO 15368)',
    0.05,
    '%',
  ),
  filmThickness: method('film thickness', 'Ellipsometry on a witness sample', 2, 'nm'),
  index: method('refractive index', 'Refractometer or prism coupler at the operating wavelength', 0.001, '1'),
  certificate: method('certificate', 'Batch certificate', 10, 'of value'),
  curvature: method(
    'curvature',
    'Interferometer on a radius bench, or profile of the surface',
    0.3,
    'of value',
  ),
  size: method('microscope', 'Calibrated microscope or micrometer', 1, 'um'),
  length: method('length', 'Rule or calliper', 0.2, 'mm'),
  guideWidth: method(
    'electron microscope',
    'Scanning electron microscope on a cross-section or test structure',
    10,
    'nm',
  ),
  rodPitch: method('rod pitch', 'Image distance at the operating wavelength', 0.5, 'of value'),
} as const satisfies Readonly<Record<string, InspectionMethod>>

export type MethodId = keyof typeof METHODS

/** Standard uncertainty in the unit of the quantity, which must be of the method's kind, from an expanded one (k = 2) in the method's unit. */
export function standardUncertainty(
  id: MethodId,
  expanded: number,
  { value, unit }: { readonly value: number; readonly unit: Unit },
): number {
  const own = METHODS[id].unit
  if (own === 'of value') return (Math.abs(value) * expanded) / 100 / 2
  const dimension = dimensionOf(unit)
  const factor = dimension === null ? null : unitFactor(dimension, own)
  const target = dimension === null ? null : unitFactor(dimension, unit)
  if (factor === null || target === null) throw new Error(`${id} does not measure in ${unit}`)
  return (expanded * factor) / target / 2
}

/** The unit in which the uncertainty of a method is stated. */
export function uncertaintyUnit(id: MethodId): string {
  const { unit } = METHODS[id]
  return unit === 'of value' ? '% of value' : unitLabel(unit)
}
