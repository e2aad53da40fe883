// First-order propagation of the tolerances through the loss, for comparison only.
//   u^2(loss) = sum of (d loss / d x_i)^2 u^2(x_i)
// Source: JCGM 100:2008, 5.1.2, eq. (10), which itself warns where a function is markedly nonlinear: at perfect
// alignment every slope in offset and tilt is zero, and so is this result.

import { standardDeviationOf } from '../tolerance/deviation'
import type { Assembly } from './assembly'

/** Step of the central difference, as a share of the standard deviation. */
const STEP = 1e-3

export function firstOrderDb({ compiled, draws, lossDb }: Assembly): number {
  const values = Float64Array.from(compiled.nominal)
  let variance = 0
  for (const slot of draws.slots) {
    const variable = compiled.variables[slot]
    if (variable === undefined) continue
    const deviation = standardDeviationOf(variable.spread)
    const at = (x: number) => {
      values[slot] = x
      return lossDb(values)
    }
    const rise = at(variable.nominal + STEP * deviation) - at(variable.nominal - STEP * deviation)
    values[slot] = variable.nominal
    if (Number.isFinite(rise)) variance += (rise / (2 * STEP)) ** 2
  }
  return Math.sqrt(variance)
}
