import { centredGrid, type FieldGrid, sampleProfile } from '../../../src/optics/field/fieldGrid'
import { gaussianProfile } from '../../../src/optics/field/modeProfile'
import type { SampledField } from '../../../src/optics/field/sampledField'

export const AIR = { wavelengthUm: 1.55, index: 1 }

export function gaussianField(
  mfdXUm: number,
  mfdYUm: number,
  grid: FieldGrid = centredGrid(128, 128, 0.5, 0.5),
  medium = AIR,
  waistUm = 0,
): SampledField {
  const shape = { ...medium, mfdXUm, mfdYUm, waistXUm: waistUm, waistYUm: waistUm }
  return sampleProfile(gaussianProfile(shape), grid, medium)
}

/** Greatest distance of two fields, over the greatest amplitude of the second. */
export function greatestDifference(a: SampledField, b: SampledField): number {
  let most = 0
  let peak = 0
  for (let i = 0; i < a.re.length; i++) {
    most = Math.max(most, Math.hypot((a.re[i] ?? 0) - (b.re[i] ?? 0), (a.im[i] ?? 0) - (b.im[i] ?? 0)))
    peak = Math.max(peak, Math.hypot(b.re[i] ?? 0, b.im[i] ?? 0))
  }
  return most / peak
}

/** |<a, b>|^2 over both powers, summed plainly. */
export function plainOverlap(a: SampledField, b: SampledField): number {
  let [re, im, aa, bb] = [0, 0, 0, 0]
  for (let i = 0; i < a.re.length; i++) {
    const [ar, ai, br, bi] = [a.re[i] ?? 0, a.im[i] ?? 0, b.re[i] ?? 0, b.im[i] ?? 0]
    re += ar * br + ai * bi
    im += ai * br - ar * bi
    aa += ar * ar + ai * ai
    bb += br * br + bi * bi
  }
  return (re * re + im * im) / (aa * bb)
}
