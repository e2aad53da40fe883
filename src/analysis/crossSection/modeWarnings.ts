// Warnings about a solved mode.

import { exponentText, fixedText, significantText } from '../../numerics/numberText'
import { claddingEndUm, type Leakage, type ModeWidths, type SolvedMode } from '../../optics/index'

const LEADING_LEAST = 0.95
const LEAKAGE_SPOKEN_DB_PER_MM = 0.05
const LEAKAGE_HEAVY_DB_PER_MM = 10
const HARDLY_GAUSSIAN = 0.95
/** Permitted grid error as a fraction of the distance to cut-off. */
const COARSE_SHARE = 0.02
const NEAR_CUT_OFF = 2e-3
/** Share of the fundamental mode's distance to cut-off, in squares of the index, that a further mode must have to be stated. */
const CLEARLY_GUIDED = 0.5

function leakageWarning({ dbPerMm }: Leakage): string | null {
  if (dbPerMm < LEAKAGE_SPOKEN_DB_PER_MM) return null
  const text = `Substrate leakage ≈ ${significantText(dbPerMm, 2)} dB/mm`
  return dbPerMm > LEAKAGE_HEAVY_DB_PER_MM
    ? `${text}; a first-order estimate is rough at this level. Increase the lower-cladding thickness, or keep the tip short.`
    : `${text} (first order). Keep the tip short, or increase the lower-cladding thickness.`
}

/**
 * Square of a bound from below on the effective index of a mode with one node across: the field times the distance from its centre is
 * normal to it and has n² less by 1 / (k σ)², σ the standard deviation of the intensity (Rayleigh and Ritz; scalar). Exact in a
 * parabolic profile. Fields in high-contrast wires are not scalar, so only clear cases are reported.
 */
const withNodeSquared = (effectiveIndex: number, secondMomentUm: number, wavelengthUm: number): number =>
  effectiveIndex ** 2 - ((2 * wavelengthUm) / (Math.PI * secondMomentUm)) ** 2

function furtherModeWarning({ effectiveIndex, cutOffIndex, wavelengthUm }: SolvedMode, widths: ModeWidths) {
  const { x, y } = widths.secondMomentUm
  const [axis, squared] = [
    ['x', withNodeSquared(effectiveIndex, x, wavelengthUm)] as const,
    ['y', withNodeSquared(effectiveIndex, y, wavelengthUm)] as const,
  ].reduce((most, each) => (each[1] > most[1] ? each : most))
  const cutOffSquared = cutOffIndex ** 2
  return squared - cutOffSquared > CLEARLY_GUIDED * (effectiveIndex ** 2 - cutOffSquared)
    ? `Not single-mode: a mode with a node along ${axis} has an effective index of at least ${fixedText(Math.sqrt(squared), 2)}, above cut-off at ${fixedText(cutOffIndex, 2)}. Losses apply to the fundamental mode; misalignment excites the others as well.`
    : null
}

export function modeWarnings(
  mode: SolvedMode,
  widths: ModeWidths,
  leakage: Leakage | null,
  indexError: number,
): readonly string[] {
  const { section, effectiveIndex, cutOffIndex, wavelengthUm, substrateTakenOut } = mode
  const { gaussian, secondMomentUm } = widths
  const claddingEnd = claddingEndUm(section)
  const above = claddingEnd === null ? Number.POSITIVE_INFINITY : claddingEnd - gaussian.centreUm.y
  const warnings: (string | null)[] = [
    mode.leadingShare < LEADING_LEAST
      ? `${fixedText(100 * (1 - mode.leadingShare), 1)} % of the power is in the minor transverse component and does not couple to a single-polarisation fibre mode.`
      : null,
    indexError > COARSE_SHARE * (effectiveIndex - cutOffIndex)
      ? `Grid too coarse: the last refinement changed the effective index by ${exponentText(3 * indexError, 1)}, and the mode is only ${exponentText(effectiveIndex - cutOffIndex, 1)} above cut-off. Use more cells.`
      : null,
    effectiveIndex - cutOffIndex < NEAR_CUT_OFF
      ? `Close to cut-off: the effective index exceeds it by only ${exponentText(effectiveIndex - cutOffIndex, 1)}, so the mode size is very sensitive to dimensions and indices.`
      : null,
    gaussian.overlap < HARDLY_GAUSSIAN
      ? `Strongly non-Gaussian: best-fit Gaussian overlap ${fixedText(100 * gaussian.overlap, 1)} %. Use the field rather than the MFD.`
      : null,
    substrateTakenOut
      ? 'The substrate index exceeds the effective index. The mode was solved with the field set to zero near the substrate surface; leakage is computed from the slope of the field there.'
      : null,
    leakage === null ? null : leakageWarning(leakage),
    Math.min(secondMomentUm.x, secondMomentUm.y) < wavelengthUm
      ? 'The mode is smaller than the wavelength: the scalar overlap with a fibre is only approximate, and the far field is very wide.'
      : null,
    furtherModeWarning(mode, widths),
    above < secondMomentUm.y / 2
      ? `The mode reaches the upper boundary of the cladding, ${fixedText(above, 2)} µm above its centre: the boundary distorts the mode.`
      : null,
  ]
  return warnings.filter((each) => each !== null)
}
