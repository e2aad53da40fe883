// RSS, worst case and percentiles of a design of design.ts: every sign tried, assemblies sampled one by one with separate random numbers.

import type { OwnDesign } from './design'
import { type Data, off } from './quantities'

export const ownNominalDb = ({ offs, lossDb }: OwnDesign): number => lossDb(new Float64Array(offs.length), 0)

/** Each quantity alone at the worse of its two limits, the added losses as squares to the nominal one. */
export function ownRssDb(own: OwnDesign): number {
  const nominalDb = ownNominalDb(own)
  const squares = own.offs.reduce((sum, { halfWidth }, i) => {
    const added = [-halfWidth, halfWidth].map((by) => {
      const v = new Float64Array(own.offs.length)
      v[i] = by
      return own.lossDb(v, 0) - nominalDb
    })
    return sum + Math.max(0, ...added) ** 2
  }, 0)
  return nominalDb + Math.sqrt(squares)
}

/** Highest loss with every quantity at one of its limits: every sign flipped for as long as that raises the loss, from many starts. */
export function ownWorstDb({ offs, lossDb }: OwnDesign): number {
  const random = ownRandom(5)
  let worst = 0
  for (let start = 0; start < 40; start++) {
    const v = Float64Array.from(offs, ({ halfWidth }) => (random() < 0.5 ? -halfWidth : halfWidth))
    let here = lossDb(v, 0)
    for (let flipped = true; flipped; ) {
      flipped = false
      for (let i = 0; i < v.length; i++) {
        v[i] = -(v[i] ?? 0)
        const there = lossDb(v, 0)
        if (there > here + 1e-12) {
          here = there
          flipped = true
        } else v[i] = -(v[i] ?? 0)
      }
    }
    worst = Math.max(worst, here)
  }
  return worst
}

/** 32-bit generator by G. Marsaglia's xorshift, J. Stat. Softw. 8 (2003) 14; in (0, 1). */
export function ownRandom(seed: number): () => number {
  let state = seed * 2654435761 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return ((state >>> 0) + 0.5) / 4294967296
  }
}

/** A percentile with the range that counting leaves: three standard errors of the rank. */
export interface OwnPercentile {
  readonly db: number
  readonly lowDb: number
  readonly highDb: number
}

/** Assemblies sampled one by one, each at the worst of its temperatures. */
export function ownPercentile(design: OwnDesign, share: number, samples: number): OwnPercentile {
  const { offs, lossDb, risesK } = design
  const random = ownRandom(11)
  // Box and Muller for normal laws.
  const normal = () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())
  const v = new Float64Array(offs.length)
  const losses = Float64Array.from({ length: samples }, () => {
    for (const [i, { halfWidth, sigmas }] of offs.entries())
      v[i] = sigmas === null ? halfWidth * (2 * random() - 1) : (halfWidth / sigmas) * normal()
    return Math.max(...risesK.map((rise) => lossDb(v, rise)))
  }).sort()
  const at = (rank: number) => losses[Math.min(samples - 1, Math.max(0, Math.round(rank)))] ?? Number.NaN
  const spread = 3 * Math.sqrt(samples * share * (1 - share))
  return {
    db: at(share * samples),
    lowDb: at(share * samples - spread),
    highDb: at(share * samples + spread),
  }
}

/** What a tolerance half as wide takes off a percentile, dB: the same random numbers both times. */
export function ownGainHalvedDb(own: OwnDesign, name: string, share: number, samples: number): number {
  const offs = own.offs.map((off, i) =>
    own.names[i] === name ? { ...off, halfWidth: off.halfWidth / 2 } : off,
  )
  return ownPercentile(own, share, samples).db - ownPercentile({ ...own, offs }, share, samples).db
}

/**
 * Share of arrays, in one joint without alignment, whose channels all keep to a limit, sampled one by one: the array is placed as one,
 * rolled and yawed about its middle; every core is off by its own. `design` and `requirements` are those of the saved project.
 */
export function ownAllChannelsYield(
  own: OwnDesign,
  { chain, array }: Data,
  requirements: Data,
  limitDb: number,
  samples: number,
): number {
  const { names, offs, lossDb, risesK } = own
  const random = ownRandom(23)
  const normal = () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())
  const drawn = ({ halfWidth, sigmas }: ReturnType<typeof off>) =>
    sigmas === null ? halfWidth * (2 * random() - 1) : (halfWidth / sigmas) * normal()
  const gap = chain.find(({ kind }: Data) => kind === 'gap')
  const at = (field: string) => names.indexOf(`${gap.id} ${field}`)
  const [x, y, z, yaw] = [at('offsetX'), at('offsetY'), at('gap'), at('tiltX')]
  const [pitch, coreX, coreY, bow] = [array.pitch, array.coreX, array.coreY, array.bow].map(off)
  const roll = off(gap.roll)
  if (pitch === undefined || coreX === undefined || coreY === undefined || bow === undefined)
    throw new Error('an array states all four')
  const middle = (requirements.channels - 1) / 2
  let passed = 0
  for (let n = 0; n < samples; n++) {
    const common = Float64Array.from(offs, drawn)
    const [wider, bent, rolled] = [drawn(pitch), drawn(bow), drawn(roll)]
    let allPass = true
    for (let channel = 0; channel <= 2 * middle; channel++) {
      const from = channel - middle
      const acrossUm = from * pitch.value
      const v = Float64Array.from(common)
      v[x] = (common[x] ?? 0) + from * wider + drawn(coreX)
      v[y] = (common[y] ?? 0) + acrossUm * Math.sin(rolled) + drawn(coreY) + bent * (from / middle) ** 2
      v[z] = (common[z] ?? 0) - acrossUm * Math.sin(common[yaw] ?? 0)
      if (!risesK.every((rise) => lossDb(v, rise) <= limitDb)) allPass = false
    }
    if (allPass) passed++
  }
  return passed / samples
}
