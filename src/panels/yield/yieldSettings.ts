// What the user sets for a run. The seed is kept in the project, so that a result can be repeated.

import { YIELD_DEFAULTS, type YieldOptions } from '../../analysis/yield/runYield'
import type { PointKind } from '../../numerics/random/unitPoints'

export interface YieldSettings {
  readonly samples: number
  readonly method: PointKind
  /** Stop when the percentile is known to so many dB; 0 runs all samples. */
  readonly stopAtDb: number
}

export const DEFAULT_SETTINGS: YieldSettings = { ...YIELD_DEFAULTS, stopAtDb: 0 }

export const SAMPLE_CHOICES = [10_000, 100_000, 1_000_000, 10_000_000] as const

export function optionsOf({ samples, method, stopAtDb }: YieldSettings): YieldOptions {
  return stopAtDb > 0 ? { samples, method, stopAtDb } : { samples, method }
}
