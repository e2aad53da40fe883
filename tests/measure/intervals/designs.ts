// Eight faults of readings beyond independent noise of one size, sampled anew for every trial.
// Each is laid over a curve that is known exactly, in the order in which the readings are taken.

import type { randomSource } from '../support/synthetic'

export type Random = ReturnType<typeof randomSource>

export const DESIGNS = [
  'multiplicative',
  'drift',
  'sloped background',
  'jitter',
  'skew',
  'backlash',
  'random-walk source',
  'weak side peak',
] as const
export type Design = (typeof DESIGNS)[number] | 'independent'

export interface ScanCase {
  /** Powers without any fault, peak 1, over the coordinate from the centre; `stretch` widens that side's shape. */
  readonly shape: (from: number) => number
  /** Half of the scan and the scale of the shape (its 1/e² radius), in the coordinate. */
  readonly half: number
  readonly radius: number
  readonly centre: number
  readonly points: number
  /** Independent noise relative to the peak. */
  readonly noise: number
  readonly floor: number
  /** Of what lies beneath the shape: size of slopes and bumps relative to 1 % of the peak. */
  readonly beneath: number
}

const between = (random: Random, low: number, high: number) => low + (high - low) * random.uniform()
const sign = (random: Random) => (random.uniform() < 0.5 ? -1 : 1)

/** Coordinates and powers as a file would hold them. */
export function faultyScan(c: ScanCase, design: Design, random: Random) {
  const { normal } = random
  const moved = (n: number) => Array.from({ length: n }, (_, i) => -c.half + (2 * c.half * i) / (n - 1))
  const up = moved(design === 'backlash' ? Math.ceil(c.points / 2) : c.points)
  const at = design === 'backlash' ? [...up, ...up.toReversed()] : up
  const play = design === 'backlash' ? between(random, 0, 0.06) * c.radius : 0
  const jitter = design === 'jitter' ? between(random, 0, 0.02) * c.radius : 0
  const skew = design === 'skew' ? between(random, -0.03, 0.03) : 0
  const tilt = design === 'sloped background' ? c.beneath * between(random, -0.01, 0.01) : 0
  const drift = design === 'drift' ? between(random, -0.05, 0.05) : 0
  const step = design === 'random-walk source' ? between(random, 0, 0.005) : 0
  const proportional = design === 'multiplicative' ? between(random, 0, 0.02) : 0
  const bump =
    design === 'weak side peak'
      ? {
          height: c.beneath * between(random, 0, 0.015),
          at: sign(random) * between(random, 0, 2) * c.radius,
          radius: between(random, 1.2, 3) * c.radius,
        }
      : null
  let gain = 1
  const power = at.map((x, i) => {
    const here = x - c.centre + jitter * normal() - (play / 2) * (i < up.length ? 1 : -1)
    const time = i / (at.length - 1)
    gain += step * normal()
    const side = bump === null ? 0 : bump.height * Math.exp(-2 * ((here - bump.at) / bump.radius) ** 2)
    const light = c.shape(here / (1 + skew * Math.sign(here))) + side
    return (
      light * gain * (1 + drift * time) * (1 + proportional * normal()) +
      c.floor * (1 + 0.1 * normal()) +
      tilt * (x / c.half) +
      c.noise * normal()
    )
  })
  return { at, power }
}

/** Losses of loopback guides, in the order measured; designs are in dB here. */
export function faultySeries(
  truth: { readonly facetDb: number; readonly slopeDbPerCm: number },
  design: Design,
  random: Random,
) {
  const { normal } = random
  const lengths = [0.5, 1, 2, 4]
  const repeats = 2 + Math.floor(random.uniform() * 3)
  // There and back again, so that time is not length.
  const order = Array.from({ length: repeats }, (_, r) =>
    r % 2 === 0 ? lengths : lengths.toReversed(),
  ).flat()
  const noise = between(random, 0.02, 0.08)
  const proportional = design === 'multiplicative' ? between(random, 0, 0.03) : 0
  const drift = design === 'drift' ? between(random, -0.3, 0.3) : 0
  const bend = design === 'sloped background' ? between(random, -0.03, 0.03) : 0
  const step = design === 'random-walk source' ? between(random, 0, 0.08) : 0
  const dirt = design === 'skew' ? between(random, 0, 0.1) : 0
  let walk = 0
  return order.map((lengthCm, i) => {
    walk += step * normal()
    const loss = 2 * truth.facetDb + truth.slopeDbPerCm * lengthCm
    // Dirt only ever adds; its mean belongs to the facet.
    const skewed = dirt * (-Math.log(random.uniform()) - 1)
    return {
      lengthCm,
      lossDb:
        loss * (1 + proportional * normal()) +
        // From the reference on, which is the reading before the first.
        drift * ((i + 1) / order.length) +
        bend * (lengthCm - 2) ** 2 +
        walk +
        skewed +
        noise * normal(),
    }
  })
}

export { between, sign }
