// The loss of a chain of which a few quantities move at a time: only what reads them is evaluated again. The total is added up
// as `lossDb` does it, so that both agree to the last digit.

import type { CompiledCandidate } from '../path/compileCandidate'

export interface MovingTotal {
  /** The loss with the quantities at the places set to the values, dB. */
  readonly move: (places: readonly number[], values: readonly number[]) => number
  /** Takes back the last move; once only. */
  readonly undo: () => void
  /** Whether any one summand reads both places: if none does, what the two add to the loss is independent. */
  readonly together: (one: number, other: number) => boolean
}

/** Starts at the nominal values of the chain. */
export function movingTotal({ terms, nominal }: CompiledCandidate): MovingTotal {
  const v = Float64Array.from(nominal)
  const lossesDb = Float64Array.from(terms, (term) => term.lossDb(v))
  const readBy = Array.from(nominal, (): number[] => [])
  for (const [at, term] of terms.entries()) for (const place of term.reads) readBy[place]?.push(at)
  let back: (() => void) | null = null
  return {
    move: (places, values) => {
      const before = places.map((place) => v[place] ?? Number.NaN)
      const touched = new Set<number>()
      for (const [i, place] of places.entries()) {
        const value = values[i] ?? Number.NaN
        if (value === v[place]) continue
        v[place] = value
        for (const at of readBy[place] ?? []) touched.add(at)
      }
      const beforeDb = [...touched].map((at) => [at, lossesDb[at] ?? Number.NaN] as const)
      for (const at of touched) lossesDb[at] = terms[at]?.lossDb(v) ?? Number.NaN
      back = () => {
        for (const [i, place] of places.entries()) v[place] = before[i] ?? Number.NaN
        for (const [at, lossDb] of beforeDb) lossesDb[at] = lossDb
      }
      let sumDb = 0
      for (let at = 0; at < lossesDb.length; at++) sumDb += lossesDb[at] ?? 0
      return sumDb
    },
    undo: () => {
      back?.()
      back = null
    },
    together: (one, other) => readBy[one]?.some((at) => readBy[other]?.includes(at)) ?? false,
  }
}
