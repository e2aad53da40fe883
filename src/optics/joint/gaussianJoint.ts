// The plain record that describes a joint of two Gaussian modes, and the door check for it.

import { requireInRange } from '../../numerics/inputError'

/**
 * Two facing modes. z runs from emitter to receiver; x and y are the receiver's axes. The emitter's end-face centre
 * is displaced by the offsets from the receiver's axis, its beam slopes by the tilts about that centre, and roll turns
 * its principal axes from x to y. Waists lie downstream of its face for positive values; the gap has refractive
 * index `index`.
 */
export interface GaussianJoint {
  readonly wavelengthUm: number
  readonly index: number
  readonly emitterMfdXUm: number
  readonly emitterMfdYUm: number
  readonly receiverMfdXUm: number
  readonly receiverMfdYUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly gapUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
  readonly rollRad: number
  readonly waistXUm: number
  readonly waistYUm: number
}

export const WAVELENGTH_LEAST_UM = 0.01
export const WAVELENGTH_GREATEST_UM = 100
export const INDEX_LEAST = 0.1
export const INDEX_GREATEST = 10
export const MFD_LEAST_UM = 0.01
export const MFD_GREATEST_UM = 1e5
const DISTANCE_GREATEST_UM = 1e6
const TILT_GREATEST_RAD = 1.5
const ROLL_GREATEST_RAD = 100

// For a check in one step (jointEfficiency): sums of squares below these hold no field outside its range.
export const FAR_DISTANCES_UM2 = 9e11
export const FAR_TILTS_RAD2 = 2
export const FAR_ROLL_RAD2 = 9000

type Range = readonly [least: number, greatest: number]

const MFD_RANGE = [MFD_LEAST_UM, MFD_GREATEST_UM] as const
const DISTANCE_RANGE = [-DISTANCE_GREATEST_UM, DISTANCE_GREATEST_UM] as const
const TILT_RANGE = [-TILT_GREATEST_RAD, TILT_GREATEST_RAD] as const

// A list, not an object written out: V8 gives all objects written with the same keys in the same order one layout, and
// one such object with something else than numbers in it makes the numbers of every joint slow to read.
const RANGES = [
  ['wavelengthUm', [WAVELENGTH_LEAST_UM, WAVELENGTH_GREATEST_UM]],
  ['index', [INDEX_LEAST, INDEX_GREATEST]],
  ['emitterMfdXUm', MFD_RANGE],
  ['emitterMfdYUm', MFD_RANGE],
  ['receiverMfdXUm', MFD_RANGE],
  ['receiverMfdYUm', MFD_RANGE],
  ['offsetXUm', DISTANCE_RANGE],
  ['offsetYUm', DISTANCE_RANGE],
  ['gapUm', [0, DISTANCE_GREATEST_UM]],
  ['tiltXRad', TILT_RANGE],
  ['tiltYRad', TILT_RANGE],
  ['rollRad', [-ROLL_GREATEST_RAD, ROLL_GREATEST_RAD]],
  ['waistXUm', DISTANCE_RANGE],
  ['waistYUm', DISTANCE_RANGE],
] as const

/**
 * What a joint accepts, per field: [least, greatest]. Wide, to keep every sum finite; the paraxial model's trust
 * ends long before.
 */
export const JOINT_RANGES: { readonly [K in keyof GaussianJoint]: Range } = Object.fromEntries(
  RANGES,
) as Record<(typeof RANGES)[number][0], Range>

export const JOINT_FIELDS: readonly (keyof GaussianJoint)[] = RANGES.map(([field]) => field)

/** Returns the joint if every field lies in JOINT_RANGES; throws InputError naming the first that does not. */
export function requireJoint(joint: GaussianJoint): GaussianJoint {
  if (isInRange(joint)) return joint
  for (const field of JOINT_FIELDS) {
    const [least, greatest] = JOINT_RANGES[field]
    requireInRange(field, joint[field], least, greatest)
  }
  return joint
}

// Spelled out, because a loop over the table costs ten times the efficiency itself.
function isInRange(joint: GaussianJoint): boolean {
  return (
    isWithin(joint.wavelengthUm, WAVELENGTH_LEAST_UM, WAVELENGTH_GREATEST_UM) &&
    isWithin(joint.index, INDEX_LEAST, INDEX_GREATEST) &&
    isWithin(joint.emitterMfdXUm, MFD_LEAST_UM, MFD_GREATEST_UM) &&
    isWithin(joint.emitterMfdYUm, MFD_LEAST_UM, MFD_GREATEST_UM) &&
    isWithin(joint.receiverMfdXUm, MFD_LEAST_UM, MFD_GREATEST_UM) &&
    isWithin(joint.receiverMfdYUm, MFD_LEAST_UM, MFD_GREATEST_UM) &&
    isWithin(joint.offsetXUm, -DISTANCE_GREATEST_UM, DISTANCE_GREATEST_UM) &&
    isWithin(joint.offsetYUm, -DISTANCE_GREATEST_UM, DISTANCE_GREATEST_UM) &&
    isWithin(joint.gapUm, 0, DISTANCE_GREATEST_UM) &&
    isWithin(joint.tiltXRad, -TILT_GREATEST_RAD, TILT_GREATEST_RAD) &&
    isWithin(joint.tiltYRad, -TILT_GREATEST_RAD, TILT_GREATEST_RAD) &&
    isWithin(joint.rollRad, -ROLL_GREATEST_RAD, ROLL_GREATEST_RAD) &&
    isWithin(joint.waistXUm, -DISTANCE_GREATEST_UM, DISTANCE_GREATEST_UM) &&
    isWithin(joint.waistYUm, -DISTANCE_GREATEST_UM, DISTANCE_GREATEST_UM)
  )
}

function isWithin(value: number, least: number, greatest: number): boolean {
  return typeof value === 'number' && value >= least && value <= greatest
}
