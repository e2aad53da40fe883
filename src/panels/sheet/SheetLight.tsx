// Reflections, ripple, band, polarisation and power of one candidate, on paper.

import type { Evaluation } from '../../analysis/evaluation'
import { LEAST_RIPPLE_DB } from '../../analysis/light/ripples'
import { PowerTable } from '../light/PowerTable'
import { ReflectionTable } from '../light/ReflectionTable'

const nm = (um: number) => Number((um * 1000).toPrecision(7))

export function SheetLight({ evaluation }: { readonly evaluation: Evaluation }) {
  const { ripples, band, polarisation, power } = evaluation
  const rippled = ripples.filter((each) => each.peakToPeakDb >= LEAST_RIPPLE_DB)
  return (
    <>
      <h3>Light</h3>
      <ReflectionTable evaluation={evaluation} />
      <ul>
        {rippled.map((ripple) => (
          <li key={ripple.elementId}>
            Ripple of the gap {ripple.peakToPeakDb.toFixed(2)} dB peak to peak: −
            {ripple.crestGainDb.toFixed(2)} to +{ripple.troughLossDb.toFixed(2)} dB about the budget; a fringe
            is {ripple.periodGapUm.toFixed(3)} µm of gap or {(ripple.periodWavelengthUm * 1000).toFixed(1)}{' '}
            nm.
          </li>
        ))}
        {band !== null && (
          <li>
            Over {nm(band.fromUm)} to {nm(band.toUm)} nm: nominal at most {band.worstDb.toFixed(2)} dB, at{' '}
            {nm(band.worstUm)} nm.
          </li>
        )}
        <li>
          TE {polarisation.teDb.toFixed(2)} dB, TM {polarisation.tmDb.toFixed(2)} dB.
        </li>
      </ul>
      {power !== null && <PowerTable power={power} />}
    </>
  )
}
