// What a sampled field passes: a slope, an aperture, a lens, each in one plane, on the field's own axes. For checks of the closed forms
// by fields alone.

import { InputError, requireInRange, requirePositive } from '../../../src/numerics/inputError'
import { sampleProfile } from '../../../src/optics/field/fieldGrid'
import { type FieldPose, type Propagation, transverseShare } from '../../../src/optics/field/fieldPose'
import { gridProfile } from '../../../src/optics/field/gridProfile'
import {
  type Amplitude,
  type FacePhase,
  type ModeProfile,
  refractedProfile,
} from '../../../src/optics/field/modeProfile'
import { propagateField } from '../../../src/optics/field/propagateField'
import { requireField, type SampledField } from '../../../src/optics/field/sampledField'

/** Applies `change` to the amplitude of every sample, at its place. */
function throughPlane(
  field: SampledField,
  change: (xUm: number, yUm: number, amplitude: Amplitude) => void,
): SampledField {
  requireField(field)
  const re = new Float64Array(field.re.length)
  const im = new Float64Array(field.im.length)
  const amplitude: Amplitude = { re: 0, im: 0 }
  for (let iy = 0, i = 0; iy < field.ny; iy++) {
    for (let ix = 0; ix < field.nx; ix++, i++) {
      amplitude.re = field.re[i] as number
      amplitude.im = field.im[i] as number
      change(field.x0Um + ix * field.dxUm, field.y0Um + iy * field.dyUm, amplitude)
      re[i] = amplitude.re
      im[i] = amplitude.im
    }
  }
  return { ...field, re, im }
}

function turn(amplitude: Amplitude, phase: number): void {
  const c = Math.cos(phase)
  const s = Math.sin(phase)
  const { re, im } = amplitude
  amplitude.re = re * c - im * s
  amplitude.im = re * s + im * c
}

/** The field sloping towards +x and +y by the tilts, about the origin: phase -k t.x. */
export function tiltField(
  field: SampledField,
  { tiltXRad, tiltYRad }: Pick<FieldPose, 'tiltXRad' | 'tiltYRad'>,
  propagation: Propagation,
): SampledField {
  const k = (2 * Math.PI * field.index) / field.wavelengthUm
  const kx = k * transverseShare(requireInRange('tiltXRad', tiltXRad, -1.5, 1.5), propagation)
  const ky = k * transverseShare(requireInRange('tiltYRad', tiltYRad, -1.5, 1.5), propagation)
  return throughPlane(field, (x, y, amplitude) => turn(amplitude, -(kx * x + ky * y)))
}

/** The field turned from x to y about the origin, on its own grid, by the cubic spline through its samples. */
export function rollField(field: SampledField, rollRad: number): SampledField {
  requireInRange('rollRad', rollRad, -100, 100)
  return sampleProfile(gridProfile(field), field, field, { rollRad })
}

/** What a round aperture about the origin lets through. Radius above 0. */
export function apertureField(field: SampledField, radiusUm: number): SampledField {
  requirePositive('radiusUm', radiusUm)
  return throughPlane(field, (x, y, amplitude) => {
    if (x * x + y * y <= radiusUm * radiusUm) return
    amplitude.re = 0
    amplitude.im = 0
  })
}

/** A thin lens: phase + k r^2 / (2 f), f in the field's medium, positive where it focuses. */
export function thinLensField(field: SampledField, focalLengthUm: number): SampledField {
  if (!Number.isFinite(focalLengthUm) || focalLengthUm === 0) {
    throw new InputError('focalLengthUm', focalLengthUm, 'a finite number other than 0')
  }
  const k = (2 * Math.PI * field.index) / field.wavelengthUm
  return throughPlane(field, (x, y, amplitude) =>
    turn(amplitude, (k * (x * x + y * y)) / (2 * focalLengthUm)),
  )
}

/** A refracting sphere in the plane of its apex; the field is then in the medium behind it. */
export function refractField(field: SampledField, face: Omit<FacePhase, 'wavelengthUm'>): SampledField {
  let current: Amplitude = { re: 0, im: 0 }
  // refractedProfile holds the physics of the face; here its input is the present sample.
  const sample: ModeProfile = {
    at: (_x, _y, out) => {
      out.re = current.re
      out.im = current.im
    },
    reachXUm: 1,
    reachYUm: 1,
    stepXUm: 1,
    stepYUm: 1,
  }
  const refracted = refractedProfile(sample, { ...face, wavelengthUm: field.wavelengthUm })
  const out = throughPlane(field, (x, y, amplitude) => {
    current = { ...amplitude }
    refracted.at(x, y, amplitude)
  })
  return { ...out, index: face.indexAfter }
}

interface ThickLens {
  /** Radii of the faces along the path, positive where the face bulges outwards. */
  readonly frontRadiusUm: number
  readonly backRadiusUm: number
  readonly thicknessUm: number
  readonly glassIndex: number
}

/** A thick lens: front face, glass, back face, into the medium it came from. */
export function thickLensField(field: SampledField, lens: ThickLens, propagation: Propagation): SampledField {
  requirePositive('glassIndex', lens.glassIndex)
  requireInRange('thicknessUm', lens.thicknessUm, 0, 1e6)
  // A face bulging towards the light has its centre downstream: seen as refractedProfile does, it bulges upstream.
  const inGlass = refractField(field, {
    radiusUm: -lens.frontRadiusUm,
    indexBefore: field.index,
    indexAfter: lens.glassIndex,
  })
  const atBack = propagateField(inGlass, lens.thicknessUm, propagation)
  return refractField(atBack, {
    radiusUm: lens.backRadiusUm,
    indexBefore: lens.glassIndex,
    indexAfter: field.index,
  })
}
