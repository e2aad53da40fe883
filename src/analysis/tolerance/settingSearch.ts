// Searches for the lowest loss over one setting at a time: the vertex of a parabola across the light, a scan with a refined end
// along it, and the distances of a relay, whose second follows its first.

import { InputError } from '../../numerics/inputError'
import { minimiseBrent } from '../../numerics/minimise'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/valueReaders'

export const GAP_SCAN = 24
const IMAGE_SCAN = 6
/** How much further in front of the paraxial image real lenses are searched. */
const ABERRATED_REACH = 3
/** Relative places of the distances: enough for 1e-9 dB at the end of a search, and 1e-5 dB while one is followed. */
export const TOLERANCE = { everywhere: 1e-7, nearby: 1e-5 } as const

/** 'everywhere' finds the deepest dip; 'nearby' follows one from the present settings. */
export type Reach = 'everywhere' | 'nearby'

/** Moves settings of the values to their lowest loss. */
export type Search = (v: Values) => void

/** Loss at a trial; a trial beyond what the model covers is treated as hopeless. */
export function trialLoss(compiled: CompiledCandidate, v: Values): number {
  try {
    const loss = compiled.searchDb(v)
    return Number.isFinite(loss) ? loss : Number.MAX_VALUE
  } catch (error) {
    if (error instanceof InputError) return Number.MAX_VALUE
    throw error
  }
}

function lossAt(compiled: CompiledCandidate, v: Values, slot: number, value: number): number {
  v[slot] = value
  return trialLoss(compiled, v)
}

/** The vertex of the parabola through three losses about the present value, taken if it is lower. */
export function vertex(compiled: CompiledCandidate, slot: number, step: number): Search {
  return (v) => {
    const at = v[slot] ?? 0
    const here = lossAt(compiled, v, slot, at)
    const above = lossAt(compiled, v, slot, at + step)
    const below = lossAt(compiled, v, slot, at - step)
    const bend = above + below - 2 * here
    const best = at + (bend > 0 ? (step * (below - above)) / (2 * bend) : 0)
    if (!(lossAt(compiled, v, slot, best) < here)) v[slot] = at
  }
}

/** The lowest loss over one slot between two ends, from a scan that no dip wider than a step escapes. */
export function scanned(
  compiled: CompiledCandidate,
  slot: number,
  from: number,
  to: number,
  count: number,
  tolerance: number,
): Search {
  return (v) => {
    const step = (to - from) / count
    let best = v[slot] ?? from
    let least = lossAt(compiled, v, slot, best)
    for (let i = 0; i <= count; i++) {
      const loss = lossAt(compiled, v, slot, from + i * step)
      if (loss < least) {
        least = loss
        best = from + i * step
      }
    }
    const found = minimiseBrent(
      (x) => lossAt(compiled, v, slot, x),
      Math.max(from, best - step),
      Math.min(to, best + step),
      { tolerance },
    )
    // Contact is an end of the range that Brent only comes near to.
    if (from >= 0 && lossAt(compiled, v, slot, from) <= Math.min(found.value, least)) v[slot] = from
    else v[slot] = found.value < least ? found.x : best
  }
}

/** The distance from the last lens to the image: where the waist of the relay's own joint lies. */
export function imageSearch(
  compiled: CompiledCandidate,
  elementId: string,
  back: number,
  tolerance: number,
): Search {
  return (v) => {
    for (const join of compiled.joins) {
      const view = join.view?.(v)
      if (view?.elementId !== elementId) continue
      const { joint } = view
      const rayleigh =
        (Math.PI * joint.index * joint.emitterMfdXUm * joint.emitterMfdYUm) / (4 * joint.wavelengthUm)
      const middle = (joint.waistXUm + joint.waistYUm) / 2
      const reach = 2 * rayleigh + Math.abs(joint.waistXUm - joint.waistYUm)
      // Lenses that over-focus their edges have the best image nearer than the paraxial one.
      const from = Math.max(0, middle - (join.aberrated === true ? ABERRATED_REACH : 1) * reach)
      const count = join.aberrated === true ? IMAGE_SCAN + 4 : IMAGE_SCAN
      // Traced rays justify less precision than the closed form, and take longer.
      const precision = join.aberrated === true ? TOLERANCE.nearby : tolerance
      scanned(compiled, back, from, Math.max(from + 1, middle + reach), count, precision)(v)
    }
  }
}

/** Searches the front distance between two ends, with the back distance following at every trial. */
export function followed(
  compiled: CompiledCandidate,
  slot: number,
  [from, to]: readonly [from: number, to: number],
  follow: Search,
  within: Reach,
): Search {
  return (v) => {
    const trial = (x: number) => {
      v[slot] = x
      follow(v)
      return trialLoss(compiled, v)
    }
    const step = (to - from) / (2 * GAP_SCAN)
    let best = Math.min(to, Math.max(from, v[slot] ?? from))
    let least = trial(best)
    for (let i = 0; within === 'everywhere' && i <= 2 * GAP_SCAN; i++) {
      const loss = trial(from + i * step)
      if (loss < least) {
        least = loss
        best = from + i * step
      }
    }
    const found = minimiseBrent(trial, Math.max(from, best - step), Math.min(to, best + step), {
      tolerance: TOLERANCE[within],
    })
    trial(found.value < least ? found.x : best)
  }
}
