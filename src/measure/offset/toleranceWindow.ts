// A scan read as a tolerance curve: how far the stage may move before the loss rises by a given number of dB.

export interface ToleranceWindow {
  readonly excessDb: number
  /** Ends measured from the raw points; null where the scan does not fall that far on that side. */
  readonly fromUm: number | null
  readonly toUm: number | null
  /** Half the distance between the ends; null unless both exist. */
  readonly measuredHalfWidthUm: number | null
  /** Of the fitted Gaussian: W · [L ln10 / 20]^½ for exp(−2 x²/W²). */
  readonly fittedHalfWidthUm: number
}

export const WINDOW_LEVELS_DB = [0.5, 1, 3] as const

/**
 * Windows at each level below `peakPower`. `positionUm` ascending, `power` free of background. The outermost
 * crossings are used, so that noise at the top does not cut a window short.
 */
export function scannedWindows(
  positionUm: Float64Array,
  power: Float64Array,
  peakPower: number,
  fittedRadiusUm: number,
  levelsDb: readonly number[] = WINDOW_LEVELS_DB,
): readonly ToleranceWindow[] {
  return levelsDb.map((excessDb) => {
    const threshold = peakPower * 10 ** (-excessDb / 10)
    const fromUm = crossing(positionUm, power, threshold, 1)
    const toUm = crossing(positionUm, power, threshold, -1)
    return {
      excessDb,
      fromUm,
      toUm,
      measuredHalfWidthUm: fromUm === null || toUm === null ? null : (toUm - fromUm) / 2,
      fittedHalfWidthUm: fittedRadiusUm * Math.sqrt((excessDb * Math.LN10) / 20),
    }
  })
}

/** Goes inwards from one end to the first point above the threshold; interpolates the logarithm. */
function crossing(
  positionUm: Float64Array,
  power: Float64Array,
  threshold: number,
  direction: 1 | -1,
): number | null {
  const n = positionUm.length
  for (let k = 0; k < n; k++) {
    const i = direction > 0 ? k : n - 1 - k
    const inner = power[i] as number
    if (inner < threshold) continue
    if (k === 0) return null
    const outer = power[i - direction] as number
    const share =
      outer > 0
        ? Math.log(threshold / outer) / Math.log(inner / outer)
        : (threshold - outer) / (inner - outer)
    const from = positionUm[i - direction] as number
    return from + share * ((positionUm[i] as number) - from)
  }
  return null
}
