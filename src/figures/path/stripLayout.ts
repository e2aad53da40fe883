// Where the elements of a path lie along its strip, and how high radii are drawn.

import type { PathStop } from './pathStops'

export interface PlacedStop {
  readonly stop: PathStop
  readonly leftPx: number
  readonly rightPx: number
}

/** The widest mode fills this part of the body. */
const FILLED = 0.74
/** Radii that differ by more than this are drawn by a power law, so that the smallest stays visible. */
const LINEAR_RATIO = 8
/** Small pictures side by side share one law: this diameter fills them, um, by this power. */
const FULL_UM = 36
const COMPRESSED = 0.55
const SMALL_FILLED = 0.88

/** Where each stop lies along the strip. */
export function placedStops(stops: readonly PathStop[], widthPx: number): readonly PlacedStop[] {
  const total = stops.reduce((sum, { share }) => sum + share, 0) || 1
  let atPx = 0
  return stops.map((stop) => {
    const leftPx = atPx
    atPx += (stop.share / total) * widthPx
    return { stop, leftPx, rightPx: atPx }
  })
}

/** From radius in um to half a height in px, for all stops alike. */
export function heightLaw(stops: readonly PathStop[], bodyPx: number): (radiusUm: number) => number {
  const radii = stops.flatMap(({ stations }) =>
    stations.flatMap(({ radiusXUm, radiusYUm }) => [radiusXUm, radiusYUm]),
  )
  const [least, most] = [Math.max(1e-3, Math.min(...radii)), Math.max(1e-3, ...radii)]
  const ratio = most / least
  const power = ratio <= LINEAR_RATIO ? 1 : Math.log(LINEAR_RATIO) / Math.log(ratio)
  return (radiusUm) => ((FILLED * bodyPx) / 2) * (Math.max(0, radiusUm) / most) ** power
}

/** The law of small pictures, the same for every path. */
export function smallHeightLaw(bodyPx: number): (radiusUm: number) => number {
  return (radiusUm) =>
    ((SMALL_FILLED * bodyPx) / 2) * Math.min(1, ((2 * Math.max(0, radiusUm)) / FULL_UM) ** COMPRESSED)
}

export const isJoin = ({ kind }: PathStop): boolean => kind === 'gap' || kind === 'relay' || kind === 'splice'
