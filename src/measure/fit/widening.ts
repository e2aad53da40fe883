// Why an interval is wider than the scatter of single readings implies, as numbers and as a sentence.

import { significantText } from '../../numerics/numberText'

export interface Widening {
  /** Standard uncertainty relative to that of as many independent readings, 1 or more. */
  readonly factor: number
  readonly readings: number
  /** As many independent readings would be worth as much: readings / factor². */
  readonly effectiveReadings: number
  /** For a warning: what was observed, the likely cause, and the effect on the interval. */
  readonly sentence: string
}

/** Below this an interval is practically unchanged. */
export const WIDENED = 1.02

/**
 * Effective number of readings: G. V. Bayley and J. M. Hammersley, Suppl. J. R. Stat. Soc. 8 (1946) 184, here for the
 * result itself instead of a mean.
 */
export function wideningOf(
  standard: number,
  independentStandard: number,
  readings: number,
  causes: readonly string[],
): Widening | null {
  if (causes.length === 0) return null
  const factor = independentStandard > 0 ? Math.max(1, standard / independentStandard) : 1
  const effectiveReadings = readings / (factor * factor)
  const effect =
    factor < WIDENED
      ? 'The interval allows for it.'
      : `The interval is widened by a factor of ${significantText(factor, 2)}: ${readings} readings are equivalent to ${Math.max(1, Math.round(effectiveReadings))} independent ones.`
  return {
    factor,
    readings,
    effectiveReadings,
    sentence: `The residuals show a pattern: ${causes.join('; or ')}. ${effect}`,
  }
}

/** For an interval that faults too small to be seen in the residuals widen; null where they change it by less than 2 %. */
export function conservativeNote(
  expandedUm: number,
  expandedOfNoiseUm: number,
  causes: readonly string[],
): string | null {
  if (causes.length > 0 || expandedUm < WIDENED * expandedOfNoiseUm) return null
  return `The interval is conservative: it allows for drift, a sloped background, an asymmetric mode and a side peak too small to be seen in the residuals. Independent noise alone would give ± ${significantText(expandedOfNoiseUm, 2)} µm.`
}
