// The optimum position of a fibre array: its position across the chip, and its roll if the station turns it too.
// Each channel's loss is a quadratic form about its own best point, so
//   the sum of powers rises with every weighted mean of those points, weights being the powers themselves
//   (exp(-q) lies above its tangent in q, so each step is an ascent: D. R. Hunter and K. Lange, Am. Stat. 58 (2004) 30);
//   the worst channel is reached by the smooth maximum ln(sum exp(b L)) / b, convex, by Newton's method with rising b.
// Where the worst channel alone leaves a direction open, such as the roll about it, a small share of the mean loss of all
// channels decides.

import type { ArrayAim } from '../../model/words/fibreArray'
import type { BlockChannel, BlockFreedom, BlockPosition } from './blockChannel'
import { type BlockSearch, blockSearch } from './blockSearch'

const MOST_STEPS = 200
const SETTLED_UM = 1e-6
/** Sharpness per dB: the last stage is within ln(64) / 400 = 0.01 dB of the worst channel. */
const STAGES = [
  { sharpness: 1, settledUm: 1e-2 },
  { sharpness: 8, settledUm: 1e-2 },
  { sharpness: 60, settledUm: 1e-3 },
  { sharpness: 400, settledUm: 1e-5 },
] as const
const LEAST_SHARE = 1e-6
const MEAN_SHARE = 0.005

/** The optimum position of the array for what is `free`. At least one channel, finite curvatures above 0. */
export function placeBlock(
  channels: readonly BlockChannel[],
  aim: ArrayAim,
  free: BlockFreedom,
): BlockPosition {
  const watched =
    aim === 'outer two' ? channels.filter((_, i) => i === 0 || i === channels.length - 1) : channels
  const search = blockSearch(watched, free)
  if (aim === 'worst channel') placeForWorst(search)
  else placeForSum(search)
  return search.position()
}

function placeForSum(search: BlockSearch): void {
  const { losses, weights } = search
  for (let n = 0; n < MOST_STEPS; n++) {
    search.look()
    let least = Number.POSITIVE_INFINITY
    for (let i = 0; i < losses.length; i++) least = Math.min(least, losses[i] ?? 0)
    for (let i = 0; i < losses.length; i++) weights[i] = 10 ** ((least - (losses[i] ?? 0)) / 10)
    const length = search.step(0, weights)
    search.probe(1)
    search.go()
    if (length < SETTLED_UM) return
  }
}

function placeForWorst(search: BlockSearch): void {
  const { losses, weights } = search
  const count = losses.length
  const worst = new Float64Array(count)
  /** The objective, from the losses last evaluated; `worst` receives the share of each channel in the maximum. */
  const aimed = (sharpness: number, most: number): number => {
    let sum = 0
    let mean = 0
    for (let i = 0; i < count; i++) {
      const weight = Math.exp(sharpness * ((losses[i] ?? 0) - most))
      worst[i] = weight
      sum += weight
      mean += (losses[i] ?? 0) / count
    }
    for (let i = 0; i < count; i++) worst[i] = (worst[i] ?? 0) / sum
    return (1 - MEAN_SHARE) * (most + Math.log(sum) / sharpness) + MEAN_SHARE * mean
  }
  for (const { sharpness, settledUm } of STAGES) {
    for (let n = 0; n < MOST_STEPS; n++) {
      const here = aimed(sharpness, search.look())
      for (let i = 0; i < count; i++) weights[i] = (1 - MEAN_SHARE) * (worst[i] ?? 0) + MEAN_SHARE / count
      const length = search.step(2 * sharpness * (1 - MEAN_SHARE), worst)
      let share = 1
      while (share > LEAST_SHARE && !(aimed(sharpness, search.probe(share)) <= here)) share /= 2
      if (share <= LEAST_SHARE) break
      search.go()
      if (length * share < settledUm) break
    }
  }
}
