// Modes of step-index cores, remembered from one evaluation to the next: an edit of something else asks for the same ones again, at
// every end of their tolerances.

import { type StepIndexMode, stepIndexMode } from '../../../optics/index'

/** About ten for every core of a project that has as many as it may. */
const MOST_REMEMBERED = 16_384
const known = new Map<string, StepIndexMode>()

/** `stepIndexMode` of a core by its diameter in um, its numerical aperture and the wavelength in um. */
export function coreMode(diameterUm: number, na: number, wavelengthUm: number): StepIndexMode {
  const key = `${diameterUm} ${na} ${wavelengthUm}`
  const found = known.get(key)
  if (found !== undefined) return found
  const mode = stepIndexMode({ coreRadiusUm: diameterUm / 2, na, wavelengthUm })
  if (known.size >= MOST_REMEMBERED) known.clear()
  known.set(key, mode)
  return mode
}
