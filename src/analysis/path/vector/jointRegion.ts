// Where the tolerances of a design, its temperatures and its band can take a joint.

import { RULES } from '../../../model/quantity/quantityRules'
import { type Spread, spreadEnds } from '../../../model/quantity/spread'
import { normalQuantile } from '../../../numerics/normal'
import type { JointRegion } from '../../field/fit/jointAxes'
import type { Variable } from '../../results/evaluation'

/** One sample in a thousand lies beyond on either side; there the difference is held. */
const SHARE_HELD = 1e-3
/** Movements below this are ignored: um, rad or a ratio. */
const STILL = 1e-7
/** Ends are quantised to this many steps per span, so that a small edit finds the fit that is known. */
const RUNGS = 4
/** Coordinates that end at contact. */
const DISTANCES: ReadonlySet<string> = new Set(['gapUm', 'frontUm', 'backUm'])

/** How far samples go to either side: normal ones to SHARE_HELD, the others to their limits. */
function sampledReach({ distribution, halfWidth, coverage }: Spread): number {
  return distribution === 'normal' ? (halfWidth / coverage) * normalQuantile(1 - SHARE_HELD) : halfWidth
}

/** The coordinates of a vector of values, written to the array. */
type Coordinates = (v: Float64Array, out: Float64Array) => void

/** What each quantity adds to the coordinates where its samples end, and what each condition adds. */
export function jointMoves(
  variables: readonly Variable[],
  nominal: Float64Array,
  coordinates: Coordinates,
  conditions: readonly ((v: Float64Array) => void)[],
  count: number,
): readonly Float64Array[] {
  const here = new Float64Array(count)
  coordinates(nominal, here)
  const v = Float64Array.from(nominal)
  const move = () => {
    const there = new Float64Array(count)
    coordinates(v, there)
    return there.map((value, i) => value - (here[i] as number))
  }
  const ofSamples = variables.flatMap(({ spread, rule, nominal: value }, slot) => {
    if (spread.halfWidth === 0) return []
    const { minCore, maxCore } = RULES[rule]
    v[slot] = Math.min(maxCore, Math.max(minCore, value + sampledReach(spread)))
    const found = move()
    v[slot] = value
    return [found]
  })
  return [
    ...ofSamples,
    ...conditions.map((condition) => {
      v.set(nominal)
      condition(v)
      return move()
    }),
  ]
}

/**
 * The region: every quantity moved alone to its ends, those of the worst case added up and those of samples as squares; then every one of
 * `conditions`, which write a temperature or a wavelength into the vector. `axes` names the coordinates.
 */
export function jointRegion(
  variables: readonly Variable[],
  nominal: Float64Array,
  coordinates: Coordinates,
  conditions: readonly ((v: Float64Array) => void)[],
  axes: readonly string[],
): JointRegion {
  const count = axes.length
  const here = new Float64Array(count)
  const there = new Float64Array(count)
  coordinates(nominal, here)
  const corner = [new Float64Array(count), new Float64Array(count)] as const
  const sampled = [new Float64Array(count), new Float64Array(count)] as const
  const v = Float64Array.from(nominal)
  const visit = (sides: (deviation: number, i: number) => void) => {
    coordinates(v, there)
    for (let i = 0; i < count; i++) sides((there[i] as number) - (here[i] as number), i)
  }
  for (const [slot, { spread, rule, nominal: value }] of variables.entries()) {
    if (spread.halfWidth === 0) continue
    const { minCore, maxCore } = RULES[rule]
    const set = (deviation: number) => {
      v[slot] = Math.min(maxCore, Math.max(minCore, value + deviation))
    }
    const most = [new Float64Array(count), new Float64Array(count)] as const
    for (const end of spreadEnds(spread)) {
      set(end)
      visit((by, i) => {
        const side = most[by < 0 ? 0 : 1]
        side[i] = Math.max(side[i] as number, Math.abs(by))
      })
    }
    for (const side of [0, 1] as const) {
      for (let i = 0; i < count; i++)
        corner[side][i] = (corner[side][i] as number) + (most[side][i] as number)
      most[side].fill(0)
    }
    const reach = sampledReach(spread)
    for (const deviation of [-reach, reach]) {
      set(deviation)
      visit((by, i) => {
        const side = most[by < 0 ? 0 : 1]
        side[i] = Math.max(side[i] as number, by * by)
      })
    }
    for (const side of [0, 1] as const) {
      for (let i = 0; i < count; i++)
        sampled[side][i] = (sampled[side][i] as number) + (most[side][i] as number)
    }
    v[slot] = value
  }
  const moved = [new Float64Array(count), new Float64Array(count)] as const
  for (const condition of conditions) {
    v.set(nominal)
    condition(v)
    visit((by, i) => {
      const side = moved[by < 0 ? 0 : 1]
      side[i] = Math.max(side[i] as number, Math.abs(by))
    })
  }
  const ends = Array.from(here, (at, i) => {
    const reach = (side: 0 | 1) =>
      Math.max(corner[side][i] as number, Math.sqrt(sampled[side][i] as number)) + (moved[side][i] as number)
    const [low, high] = [reach(0), reach(1)]
    if (low + high < STILL) return [at, at] as const
    const rung = 2 ** Math.ceil(Math.log2(low + high)) / (2 * RUNGS)
    const least = DISTANCES.has(axes[i] ?? '') ? 0 : Number.NEGATIVE_INFINITY
    return [
      Math.max(least, rung * Math.floor((at - low) / rung + 1e-6)),
      rung * Math.ceil((at + high) / rung - 1e-6),
    ] as const
  })
  return { from: ends.map(([low]) => low), to: ends.map(([, high]) => high) }
}
