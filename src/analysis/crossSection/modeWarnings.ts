// What to doubt about a solved mode, in words.

import type { Leakage, ModeWidths, SolvedMode } from '../../optics/index'

const LEADING_LEAST = 0.95
const LEAKAGE_SPOKEN_DB_PER_MM = 0.05
const LEAKAGE_HEAVY_DB_PER_MM = 10
const HARDLY_GAUSSIAN = 0.95
/** Share of the distance to cut-off that the grid may be off by. */
const COARSE_SHARE = 0.02
const NEAR_CUT_OFF = 2e-3

function leakageWarning({ dbPerMm }: Leakage): string | null {
  if (dbPerMm < LEAKAGE_SPOKEN_DB_PER_MM) return null
  const text = `It leaks about ${dbPerMm.toPrecision(2)} dB/mm into the substrate`
  return dbPerMm > LEAKAGE_HEAVY_DB_PER_MM
    ? `${text}; a first-order estimate is rough at this level. Bury the core deeper, or keep the tip short.`
    : `${text} (first order). Keep the narrow end short, or the lower layer thicker.`
}

export function modeWarnings(
  mode: SolvedMode,
  widths: ModeWidths,
  leakage: Leakage | null,
  indexError: number,
): readonly string[] {
  const { section, effectiveIndex, cutOffIndex, wavelengthUm, substrateTakenOut } = mode
  const top = section.layers.reduce((sum, layer) => sum + layer.thicknessUm, 0)
  const { gaussian, secondMomentUm } = widths
  const above = top - gaussian.centreUm.y
  const warnings: (string | null)[] = [
    mode.leadingShare < LEADING_LEAST
      ? `Of its power ${(100 * (1 - mode.leadingShare)).toFixed(1)} % lies in the other transverse component, which a fibre of one polarisation does not take up.`
      : null,
    indexError > COARSE_SHARE * (effectiveIndex - cutOffIndex)
      ? `The grid is too coarse: the last refinement still moved the effective index by ${(3 * indexError).toExponential(1)}, against ${(effectiveIndex - cutOffIndex).toExponential(1)} above cut-off. Take more cells.`
      : null,
    effectiveIndex - cutOffIndex < NEAR_CUT_OFF
      ? `Close to cut-off: the effective index is only ${(effectiveIndex - cutOffIndex).toExponential(1)} above it, so the mode's size depends steeply on every dimension and index.`
      : null,
    gaussian.overlap < HARDLY_GAUSSIAN
      ? `Far from Gaussian: the best Gaussian holds ${(100 * gaussian.overlap).toFixed(1)} % of it; use the field, not diameters.`
      : null,
    substrateTakenOut
      ? 'The substrate has a higher index than the mode: the mode was solved with the field ending at its surface, and leakage is calculated from the slope there.'
      : null,
    leakage === null ? null : leakageWarning(leakage),
    Math.min(secondMomentUm.x, secondMomentUm.y) < wavelengthUm
      ? 'Smaller than the wavelength: a scalar overlap with a fibre is rough, and the far field is very wide.'
      : null,
    section.layers.length > 0 && above < secondMomentUm.y / 2
      ? `The mode reaches the top of the layers, ${above.toFixed(2)} µm above its centre: it is pushed down and skewed there.`
      : null,
  ]
  return warnings.filter((each) => each !== null)
}
