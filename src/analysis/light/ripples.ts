// Interference between the two faces of each gap: how much, where in the period, and what moves it.

import { etalonExtremes } from '../../optics/index'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { JoinModel } from '../path/vector/elementModels'
import type { Ripple } from '../results/lightResults'

/** Steps of the numeric slopes of the phase: small against a period, large against rounding. */
const WAVELENGTH_STEP_UM = 1e-5
const TEMPERATURE_STEP_K = 0.01
/** Ripples below this are not reported. */
export const LEAST_RIPPLE_DB = 0.001

const db = (ratio: number) => 10 * Math.log10(ratio)

/** Less of a slope than this, in radians per um or K, is rounding. */
const LEAST_SLOPE = 1e-9

/**
 * What moves the phase of a gap by one period, or null where it does not move: at contact. The slope is applied one small
 * step of a slot in the vector.
 */
function periodOf(compiled: CompiledCandidate, join: JoinModel, slot: number, step: number): number | null {
  const v = Float64Array.from(compiled.nominal)
  const phaseAt = (value: number) => {
    v[slot] = value
    return join.etalon?.(v)?.phaseRad ?? Number.NaN
  }
  const slope = (phaseAt(step) - phaseAt(-step)) / (2 * step)
  return Math.abs(slope) > LEAST_SLOPE ? (2 * Math.PI) / Math.abs(slope) : null
}

/** The ripples of all gaps at the nominal values. Gaps whose faces cannot interfere are omitted. */
export function ripples(compiled: CompiledCandidate): readonly Ripple[] {
  return compiled.joins.flatMap((join): readonly Ripple[] => {
    const series = join.etalon?.(compiled.nominal) ?? null
    const view = join.view?.(compiled.nominal)
    if (series === null || view === undefined) return []
    const { here, crest, trough, fromCrest } = etalonExtremes(series)
    const { gapUm } = view.joint
    const { temperatureRise, wavelengthShift } = compiled.slots
    return [
      {
        elementId: view.elementId,
        path: view.path,
        peakToPeakDb: db(crest / trough),
        crestGainDb: Math.max(0, db(crest)),
        troughLossDb: Math.max(0, 0 - db(trough)),
        hereDb: 0 - db(here),
        fromCrest,
        // The phase is proportional to the gap; at contact the period of a thin gap is used.
        periodGapUm:
          gapUm > 0
            ? (2 * Math.PI * gapUm) / series.phaseRad
            : view.joint.wavelengthUm / (2 * view.joint.index),
        periodWavelengthUm: periodOf(compiled, join, wavelengthShift, WAVELENGTH_STEP_UM),
        periodTemperatureK: periodOf(compiled, join, temperatureRise, TEMPERATURE_STEP_K),
      },
    ]
  })
}
