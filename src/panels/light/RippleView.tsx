// The ripple of one gap: how large, where in a period the design is, what moves them, what they do to budget and yield.

import { useDeferredValue, useMemo } from 'react'
import { rippleCurve } from '../../analysis/light/rippleCurve'
import { LEAST_RIPPLE_DB } from '../../analysis/light/ripples'
import { rippleYield } from '../../analysis/light/rippleYield'
import type { Ripple } from '../../analysis/results/lightResults'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { rippleFadeFigure, rippleFigure } from '../../figures/light/ripple'
import type { Project } from '../../model/schema/project'
import { fixedText, signedText } from '../../numerics/numberText'
import { FigureView } from '../../ui/figures/FigureView'

/** A period longer than this in kelvin is never seen by a part. */
const WIDEST_KELVIN = 1e4

const percent = (share: number) => `${fixedText(100 * share, 1)} %`

function standsText({ fromCrest, hereDb }: Ripple): string {
  const away = Math.abs(fromCrest)
  const where =
    away < 0.06
      ? 'near a maximum'
      : away > 0.44
        ? 'near a minimum'
        : `${fixedText(away, 2)} of a period from a maximum`
  return `${where}: ${signedText(hereDb, 2)} dB relative to the budget`
}

function Facts({ ripple, run }: { readonly ripple: Ripple; readonly run: YieldResult | null }) {
  const { periodGapUm, periodWavelengthUm, periodTemperatureK } = ripple
  const kelvin =
    periodTemperatureK === null || periodTemperatureK > WIDEST_KELVIN
      ? 'independent of temperature here'
      : `${fixedText(periodTemperatureK, 0)} K`
  const nanometres =
    periodWavelengthUm === null
      ? 'independent of wavelength at contact'
      : `${fixedText(periodWavelengthUm * 1000, 1)} nm of wavelength`
  return (
    <dl className="light-facts">
      <dt>Ripple, peak to peak</dt>
      <dd data-fact="ripple">{fixedText(ripple.peakToPeakDb, 2)} dB</dd>
      <dt>Effect on budget</dt>
      <dd>
        −{fixedText(ripple.crestGainDb, 2)} dB at a maximum, +{fixedText(ripple.troughLossDb, 2)} dB at a
        minimum
      </dd>
      <dt>Position of the nominal gap</dt>
      <dd>{standsText(ripple)}</dd>
      <dt>Maximum to minimum</dt>
      <dd>{fixedText(periodGapUm / 2, 3)} µm of gap</dd>
      <dt>Ripple period</dt>
      <dd>
        {fixedText(periodGapUm, 3)} µm of gap; {nanometres}; {kelvin}
      </dd>
      {run !== null && (
        <>
          <dt>Yield</dt>
          <dd>
            {percent(rippleYield(run, [ripple]))} with ripple at random phase, {percent(run.yield)} in the run
            without it
          </dd>
        </>
      )}
    </dl>
  )
}

export function RippleView({
  project,
  candidateId,
  ripple,
  oblique,
  run,
  heightPx,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly ripple: Ripple
  /** True where both faces have the same angle. */
  readonly oblique: boolean
  readonly run: YieldResult | null
  readonly heightPx: number
}) {
  const settled = useDeferredValue(project)
  const curve = useMemo(() => {
    const result = rippleCurve(settled, candidateId, ripple)
    return result.ok ? result.value : null
  }, [settled, candidateId, ripple])
  if (ripple.peakToPeakDb < LEAST_RIPPLE_DB) {
    return (
      <p data-fact="ripple">
        Negligible ripple between the end faces: under {LEAST_RIPPLE_DB} dB peak to peak.
      </p>
    )
  }
  return (
    <>
      <Facts ripple={ripple} run={run} />
      {oblique && (
        <p>
          Both faces have the same angle, so they are parallel: back-reflection is suppressed, but the ripple
          of the transmission remains until the round trips no longer overlap the mode (V. Shah et al., 1989).
          Index-matching gel, coatings or a wider gap remove it.
        </p>
      )}
      {curve !== null && (
        <div className="depth-columns">
          <FigureView figure={rippleFigure(curve)} heightPx={heightPx} />
          <FigureView figure={rippleFadeFigure(curve)} heightPx={heightPx} />
        </div>
      )}
    </>
  )
}
