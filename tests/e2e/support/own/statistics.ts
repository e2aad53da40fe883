// RSS, worst case and percentiles of a design of design.ts: every sign tried, assemblies sampled one by one with separate random numbers.

import type { OwnDesign } from './design'
import type { Off } from './quantities'

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

/** A deviation by the law of its tolerance; normal laws after G. E. P. Box and M. E. Muller. */
export function drawnBy({ halfWidth, sigmas }: Off, random: () => number): number {
  return sigmas === null
    ? halfWidth * (2 * random() - 1)
    : (halfWidth / sigmas) * Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())
}

/** A percentile of losses; sorts them. */
export function percentileOf(losses: Float64Array, share: number): OwnPercentile {
  const samples = losses.length
  losses.sort()
  const at = (rank: number) => losses[Math.min(samples - 1, Math.max(0, Math.round(rank)))] ?? Number.NaN
  const spread = 3 * Math.sqrt(samples * share * (1 - share))
  return {
    db: at(share * samples),
    lowDb: at(share * samples - spread),
    highDb: at(share * samples + spread),
  }
}

/** Assemblies sampled one by one, each at the worst of its temperatures. */
export function ownPercentile(design: OwnDesign, share: number, samples: number): OwnPercentile {
  const { offs, lossDb, risesK } = design
  const random = ownRandom(11)
  const losses = Float64Array.from({ length: samples }, () => {
    const v = Float64Array.from(offs, (each) => drawnBy(each, random))
    return Math.max(...risesK.map((rise) => lossDb(v, rise)))
  })
  return percentileOf(losses, share)
}

/** What a tolerance half as wide takes off a percentile, dB: the same random numbers both times. */
export function ownGainHalvedDb(own: OwnDesign, name: string, share: number, samples: number): number {
  const offs = own.offs.map((off, i) =>
    own.names[i] === name ? { ...off, halfWidth: off.halfWidth / 2 } : off,
  )
  return ownPercentile(own, share, samples).db - ownPercentile({ ...own, offs }, share, samples).db
}
