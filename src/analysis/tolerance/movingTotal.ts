// The loss of a chain of which a few quantities move at a time: only what reads them is evaluated again, and a summand that reads
// a single one of them is remembered for the moves of that quantity with others. The total is added up as `lossDb` does it, so
// that both agree to the last digit. A search moves thousands of times, and nothing is allocated for it.

import type { CompiledCandidate } from '../path/compileCandidate'

export interface MovingTotal {
  /** Begins a move: what is set from here on is what `undo` takes back. */
  readonly begin: () => void
  /** Sets the quantity at a slot of the vector, once in a move. */
  readonly set: (slot: number, value: number) => void
  /** The loss with what is set, dB. */
  readonly totalDb: () => number
  /** Takes back the last move. */
  readonly undo: () => void
}

/** Starts at the nominal values of the chain. */
export function movingTotal({ terms, nominal }: CompiledCandidate): MovingTotal {
  const v = Float64Array.from(nominal)
  const lossesDb = Float64Array.from(terms, (term) => term.lossDb(v))
  const readBy = Array.from(nominal, (): number[] => [])
  for (const [at, term] of terms.entries()) for (const slot of term.reads) readBy[slot]?.push(at)

  let move = 0
  let movedCount = 0
  const moved = new Int32Array(v.length)
  const valuesBefore = new Float64Array(v.length)
  let touchedCount = 0
  const touched = new Int32Array(terms.length)
  const lossesBeforeDb = new Float64Array(terms.length)
  /** The last move that touched each summand, and the slot that alone did so; -1 for several. */
  const touchedBy = new Int32Array(terms.length)
  const aloneBy = new Int32Array(terms.length)
  /** Number of moves that were kept. What is known of a summand with one slot moved holds until the next. */
  let kept = 1
  const knownSince = new Int32Array(v.length * terms.length)
  const knownAt = new Float64Array(v.length * terms.length)
  const knownDb = new Float64Array(v.length * terms.length)
  const summandDb = (at: number): number => {
    const slot = aloneBy[at] as number
    if (slot < 0) return terms[at]?.lossDb(v) ?? Number.NaN
    const entry = slot * terms.length + at
    if (knownSince[entry] !== kept || knownAt[entry] !== v[slot]) {
      knownSince[entry] = kept
      knownAt[entry] = v[slot] as number
      knownDb[entry] = terms[at]?.lossDb(v) ?? Number.NaN
    }
    return knownDb[entry] as number
  }

  return {
    begin: () => {
      if (movedCount > 0) kept++
      move++
      movedCount = 0
      touchedCount = 0
    },
    set: (slot, value) => {
      const before = v[slot] ?? Number.NaN
      if (value === before) return
      moved[movedCount] = slot
      valuesBefore[movedCount++] = before
      v[slot] = value
      for (const at of readBy[slot] ?? []) {
        if (touchedBy[at] === move) {
          aloneBy[at] = -1
          continue
        }
        touchedBy[at] = move
        aloneBy[at] = slot
        touched[touchedCount] = at
        lossesBeforeDb[touchedCount++] = lossesDb[at] ?? Number.NaN
      }
    },
    totalDb: () => {
      for (let i = 0; i < touchedCount; i++) {
        const at = touched[i] ?? 0
        lossesDb[at] = summandDb(at)
      }
      let sumDb = 0
      for (let at = 0; at < lossesDb.length; at++) sumDb += lossesDb[at] ?? 0
      return sumDb
    },
    undo: () => {
      for (let i = 0; i < movedCount; i++) v[moved[i] ?? 0] = valuesBefore[i] ?? Number.NaN
      for (let i = 0; i < touchedCount; i++) lossesDb[touched[i] ?? 0] = lossesBeforeDb[i] ?? Number.NaN
      movedCount = 0
      touchedCount = 0
    },
  }
}
