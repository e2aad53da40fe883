// One drawn block in front of the chip: every channel's values, the best place of every row, every channel's loss.

import type { ArrayAim } from '../../model/words/fibreArray'
import type { Values } from '../path/vector/readers'
import { type Block, isPlaced } from './block'
import { type BlockChannel, type BlockPlace, channelLossDb } from './blockChannel'
import { channelDisplacement } from './blockGeometry'
import { type BlockJoin, isMoved } from './blockJoin'
import type { Move } from './middlePose'
import { placeBlock } from './placeBlock'

/**
 * Values of every channel, drawn from a point: the common ones alike, its own for each; not yet in their places. `factors`
 * narrow or widen the tolerances, in the order of blockQuantities.
 */
export function drawBlock(block: Block, point: Float64Array, factors?: Float64Array): readonly Values[] {
  const { compiled, common, own, channels } = block
  const shared = Float64Array.from(compiled.nominal)
  common.apply(point, shared, factors)
  const moved = block.joins.flatMap((join) => middleMoves(join, shared))
  const ownFactors = factors?.subarray(common.places.length)
  return Array.from({ length: channels }, (_, channel) => {
    const v = Float64Array.from(shared)
    const from = common.places.length + channel * own.places.length
    own.apply(point.subarray(from, from + own.places.length), v, ownFactors)
    for (const { place, by } of moved) v[place] = (v[place] ?? 0) + by
    return v
  })
}

/** The block as drawn on paper, without errors. */
export function paperBlock(block: Block): readonly Values[] {
  const v = Float64Array.from(block.compiled.nominal)
  for (const join of block.joins) {
    for (const { place, by } of middleMoves(join, v)) v[place] = (v[place] ?? 0) + by
  }
  return Array.from({ length: block.channels }, () => Float64Array.from(v))
}

/** What the station's search adds to gap and tilts: their best for a perfect channel in the middle of the row. */
function middleMoves({ alignMiddle, bondShift }: BlockJoin, shared: Values): readonly Move[] {
  if (alignMiddle === null) return []
  const v = Float64Array.from(shared)
  for (const place of bondShift) v[place] = 0
  return alignMiddle(v)
}

/** Puts a channel in its place at every join, with the rows moved and turned by the station. */
function putInPlace(block: Block, v: Values, channel: number, stations: readonly BlockPlace[]): void {
  const { arrayPlaces, places } = block.compiled
  const read = (place: number | undefined) => v[place ?? -1] ?? 0
  v[places.channel] = channel - (block.channels - 1) / 2
  for (const [at, { pose, rows, displaced }] of block.joins.entries()) {
    const station = stations[at] ?? HERE
    // The errors of the fibres' block; a taper chip's rows are as straight as its mask.
    const fibres = at === 0 ? arrayPlaces : null
    const rollRad = read(pose.roll) + station.rollRad
    const { xUm, yUm, zUm } = channelDisplacement(channel, block.channels, {
      nearPitchUm: read(rows.nearPitch),
      farPitchUm: read(rows.farPitch),
      rollRad,
      tiltXRad: read(pose.tiltX),
      bowUm: read(fibres?.bow),
    })
    v[pose.roll] = rollRad
    v[displaced.x] = xUm + read(fibres?.coreX) + station.xUm
    v[displaced.y] = yUm + read(fibres?.coreY) + station.yUm
    v[displaced.z] = zUm
  }
}

/** The channel as a row of the block sees it: its quadratic form about its own best place, other losses included. */
function blockChannel(join: BlockJoin, v: Values, fromMiddle: number, lossDb: number): BlockChannel | null {
  const form = join.model.poseForm?.(v)
  if (form === undefined) return null
  const { curvatureDb: h, fromBest } = form
  const [x, y, tiltX, tiltY] = fromBest
  const [a11, a12, a22] = [h[0] ?? 1, h[1] ?? 0, h[5] ?? 1]
  // Best offset for the tilts of this channel: A best = -(offset-tilt block) tilt.
  const rx = -((h[2] ?? 0) * (tiltX ?? 0) + (h[3] ?? 0) * (tiltY ?? 0))
  const ry = -((h[6] ?? 0) * (tiltX ?? 0) + (h[7] ?? 0) * (tiltY ?? 0))
  const det = a11 * a22 - a12 * a12
  const about: BlockChannel = {
    alongUm: fromMiddle * (v[join.rows.nearPitch] ?? 0),
    leastDb: 0,
    a11,
    a12,
    a22,
    bestXUm: (a22 * rx - a12 * ry) / det - (x ?? 0),
    bestYUm: (a11 * ry - a12 * rx) / det - (y ?? 0),
  }
  return { ...about, leastDb: lossDb - channelLossDb(about, HERE) }
}

const HERE: BlockPlace = { xUm: 0, yUm: 0, rollRad: 0 }

/**
 * Where the station puts every row of a drawn block, at the temperature of assembly; where it was put by hand if it moves
 * nothing. Rows are placed in the order of the light: the losses of later joins are not known then.
 */
export function stationPlaces(block: Block, drawn: readonly Values[], aim: ArrayAim): readonly BlockPlace[] {
  const { joins, compiled } = block
  const stations: BlockPlace[] = joins.map(() => HERE)
  if (!isPlaced(block)) return stations
  const unseen = joins.flatMap((join) => join.unseen)
  for (const [at, join] of joins.entries()) {
    if (!isMoved(join)) continue
    const later = joins.slice(at + 1)
    const channels = drawn.flatMap((values, channel) => {
      const v = Float64Array.from(values)
      for (const place of unseen) v[place] = 0
      putInPlace(block, v, channel, stations)
      const soFarDb = later.reduce(
        (sum, { model }) => sum - (model.searchDb ?? model.lossDb)(v),
        compiled.searchDb(v),
      )
      return blockChannel(join, v, v[compiled.places.channel] ?? 0, soFarDb) ?? []
    })
    if (channels.length > 0) stations[at] = placeBlock(channels, aim, join.free)
  }
  return stations
}

/** Loss of every channel with the rows at the station's places, dB, at its worst temperature, written to `out`. */
export function blockLosses(
  block: Block,
  drawn: readonly Values[],
  stations: readonly BlockPlace[],
  out: Float64Array,
): void {
  const { compiled, rises } = block
  for (const [channel, values] of drawn.entries()) {
    const v = Float64Array.from(values)
    putInPlace(block, v, channel, stations)
    let worst = Number.NEGATIVE_INFINITY
    for (const rise of rises) {
      v[compiled.places.temperatureRise] = rise
      const loss = compiled.lossDb(v)
      if (!(loss <= worst)) worst = loss
    }
    out[channel] = worst
  }
}
