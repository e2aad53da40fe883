// Whether a part is meant for a wavelength, as far as it says so: by a core that carries one mode there, by tabulated modes, or by
// a wavelength in its name or remark. A part that says nothing is meant for any.

import { coreValue } from '../quantity/quantity'
import type { AnyPart } from './partKinds'

/** First-order cut-off of a step-index core, and a V below which it hardly guides (common practice, no source). */
const SINGLE_MODE_V = 2.4048
const WEAK_V = 1
/** How far a stated wavelength reaches, as a share of it (common practice, no source). */
const REACH = 0.1

function statedNm({ name, remark }: AnyPart): readonly number[] {
  return [...`${name} ${remark ?? ''}`.matchAll(/\b(\d{3,4}(?:[.,]\d+)?) ?nm\b/g)].map(([, digits = '']) =>
    Number(digits.replace(',', '.')),
  )
}

export function suitsWavelength(part: AnyPart, wavelengthUm: number): boolean {
  if ('mode' in part && part.mode.kind === 'core') {
    const radiusUm = coreValue(part.mode.coreDiameter, 'coreDiameter') / 2
    const v = (2 * Math.PI * radiusUm * coreValue(part.mode.na, 'na')) / wavelengthUm
    return v >= WEAK_V && v < SINGLE_MODE_V
  }
  const law =
    'overWavelength' in part
      ? part.overWavelength
      : 'mode' in part && part.mode.kind === 'mfd'
        ? part.mode.overWavelength
        : undefined
  if (law?.kind === 'points') {
    const known = law.points.map((point) => coreValue(point.wavelength, 'wavelength'))
    return wavelengthUm >= Math.min(...known) && wavelengthUm <= Math.max(...known)
  }
  const stated = statedNm(part)
  return stated.length === 0 || stated.some((nm) => Math.abs(wavelengthUm * 1000 - nm) <= REACH * nm)
}
