// The root sum of squares with its joints summed exactly, where a fit of one misses its target.

import { spreadEnds } from '../../model/quantity/spread'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { Evaluation } from '../results/evaluation'
import { fitsMiss, missedDb } from './exactCorner'

type Squares = Evaluation['rootSumSquare']

/** As it was found, and provisional, as long as the sums are not known. */
export function exactSquares(
  compiled: CompiledCandidate,
  found: Squares,
  nominalDb: number,
): { readonly squares: Squares; readonly isProvisional: boolean } {
  const { variables, nominal, lossDb } = compiled
  if (!fitsMiss(compiled)) return { squares: found, isProvisional: false }
  const ends = found.contributions.flatMap(({ path }) => {
    const slot = variables.findIndex((variable) => variable.path === path)
    const variable = variables[slot]
    return (variable === undefined ? [0, 0] : spreadEnds(variable.spread)).map((end) => {
      const v = Float64Array.from(nominal)
      if (variable !== undefined) v[slot] = variable.nominal + end
      return { v, lossDb: lossDb(v) }
    })
  })
  const missed = missedDb(compiled, ends)
  if (missed === 'pending') return { squares: found, isProvisional: true }
  const contributions = found.contributions.map((each, i) => {
    const added = [2 * i, 2 * i + 1].map((at) => (ends[at]?.lossDb ?? 0) + (missed[at] ?? 0) - nominalDb)
    return { ...each, addedDb: Math.max(0, ...added) }
  })
  const added = Math.hypot(...contributions.map(({ addedDb }) => addedDb))
  return {
    squares: {
      lossDb: nominalDb + added,
      contributions: contributions.sort((a, b) => b.addedDb - a.addedDb),
    },
    isProvisional: false,
  }
}
