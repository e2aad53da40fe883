// Round places along an axis and the words at them.

import { exponentText, rounded, withMinus } from '../../numerics/numberText'
import type { Axis } from '../chart'
import { textWidthPx } from './textWidth'

export interface Tick {
  readonly at: number
  readonly words: string
}

const TICKS_WANTED = 6
const NAME_GAP_PX = 8

/** A step that is this much shorter than asked for will do, where it is the rounder one. */
const SHORTER = 0.85

/** Round places within a range, about as many as wanted. */
export function ticks(from: number, to: number, wanted = TICKS_WANTED): readonly number[] {
  const span = to - from
  if (!(span > 0)) return [from]
  const rough = span / wanted
  const decade = 10 ** Math.floor(Math.log10(rough))
  const step = decade * ([1, 2, 2.5, 5, 10].find((factor) => factor * decade >= SHORTER * rough) ?? 10)
  const first = Math.ceil(from / step - 1e-9)
  const count = Math.floor(to / step + 1e-9) - first + 1
  return Array.from({ length: count }, (_, i) => rounded((first + i) * step, 12))
}

/** The ticks of an axis that is `lengthPx` long; `perTickPx` is what a tick needs. */
export function axisTicks(axis: Axis, lengthPx: number, perTickPx: number): readonly Tick[] {
  if (axis.names !== undefined) return axis.names.map(({ at, name }) => ({ at, words: name }))
  const wanted = Math.min(8, Math.max(2, Math.floor(lengthPx / perTickPx)))
  const [low, high] = [Math.min(axis.from, axis.to), Math.max(axis.from, axis.to)]
  // One tick says nothing about the scale: a short axis takes a smaller step.
  const steps = [0, 1, 2, 3].map((more) => ticks(low, high, wanted + more))
  const found = steps.find((each) => each.length > 1) ?? steps[0] ?? []
  return found.map((at) => ({ at, words: withMinus(tickWords(at)) }))
}

function tickWords(at: number): string {
  const size = Math.abs(at)
  if (size !== 0 && (size >= 1e5 || size < 1e-3)) return exponentText(at)
  return String(at)
}

/** Every nth tick, so that the words of neighbours keep apart on an axis along x. */
export function spacedTicks(all: readonly Tick[], toPx: (value: number) => number): readonly Tick[] {
  for (let every = 1; every < all.length; every++) {
    const kept = all.filter((_, i) => i % every === 0)
    const free = kept.every((tick, i) => {
      const next = kept[i + 1]
      if (next === undefined) return true
      const room = Math.abs(toPx(next.at) - toPx(tick.at))
      return room >= (textWidthPx(tick.words) + textWidthPx(next.words)) / 2 + NAME_GAP_PX
    })
    if (free) return kept
  }
  return all.slice(0, 1)
}
