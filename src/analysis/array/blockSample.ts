// One drawn block in front of the chip: every channel's values, the block's best place, every channel's loss.

import type { ArrayAim } from '../../model/fibreArray'
import type { Values } from '../chain/readers'
import { type Block, isPlaced, poseForm } from './block'
import { type BlockChannel, type BlockPlace, channelLossDb } from './blockChannel'
import { channelDisplacement } from './blockGeometry'
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
  const moved = middlePose(block, shared)
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
  for (const { place, by } of middlePose(block, v)) v[place] = (v[place] ?? 0) + by
  return Array.from({ length: block.channels }, () => Float64Array.from(v))
}

function middlePose({ alignMiddle, bondShift }: Block, shared: Values): readonly Move[] {
  if (alignMiddle === null) return []
  const v = Float64Array.from(shared)
  for (const place of bondShift) v[place] = 0
  return alignMiddle(v)
}

/** Puts a channel in its place, with the block moved and turned by the station. */
function putInPlace(block: Block, v: Values, channel: number, station: BlockPlace): void {
  const { arrayPlaces: at, places } = block.compiled
  const read = (place: number | undefined) => v[place ?? -1] ?? 0
  const rollRad = read(block.pose.roll) + station.rollRad
  const { xUm, yUm, zUm } = channelDisplacement(channel, block.channels, {
    fibrePitchUm: read(at?.fibrePitch),
    chipPitchUm: read(at?.chipPitch),
    rollRad,
    tiltXRad: read(block.pose.tiltX),
    bowUm: read(at?.bow),
  })
  v[block.pose.roll] = rollRad
  v[places.channelX] = xUm + read(at?.coreX) + station.xUm
  v[places.channelY] = yUm + read(at?.coreY) + station.yUm
  v[places.channelZ] = zUm
}

/** The channel as the block sees it: its quadratic form about its own best place, other losses included. */
function blockChannel(block: Block, v: Values, channel: number): BlockChannel {
  const { compiled } = block
  const { curvatureDb: h, fromBest } = poseForm(block, v)
  const [x, y, tiltX, tiltY] = fromBest
  const [a11, a12, a22] = [h[0] ?? 1, h[1] ?? 0, h[5] ?? 1]
  // Best offset for the tilts of this channel: A best = -(offset-tilt block) tilt.
  const rx = -((h[2] ?? 0) * (tiltX ?? 0) + (h[3] ?? 0) * (tiltY ?? 0))
  const ry = -((h[6] ?? 0) * (tiltX ?? 0) + (h[7] ?? 0) * (tiltY ?? 0))
  const det = a11 * a22 - a12 * a12
  const alongUm = (channel - (block.channels - 1) / 2) * (v[compiled.arrayPlaces?.fibrePitch ?? -1] ?? 0)
  const form: BlockChannel = {
    alongUm,
    leastDb: 0,
    a11,
    a12,
    a22,
    bestXUm: (a22 * rx - a12 * ry) / det - (x ?? 0),
    bestYUm: (a11 * ry - a12 * rx) / det - (y ?? 0),
  }
  return { ...form, leastDb: compiled.lossDb(v) - channelLossDb(form, HERE) }
}

const HERE: BlockPlace = { xUm: 0, yUm: 0, rollRad: 0 }

/** Where the station puts a drawn block, at the temperature of assembly; where it was put by hand if it moves nothing. */
export function stationPlace(block: Block, drawn: readonly Values[], aim: ArrayAim): BlockPlace {
  if (!isPlaced(block)) return HERE
  const channels = drawn.map((values, channel) => {
    const v = Float64Array.from(values)
    for (const place of block.unseen) v[place] = 0
    putInPlace(block, v, channel, HERE)
    return blockChannel(block, v, channel)
  })
  return placeBlock(channels, aim, block.free)
}

/** Loss of every channel with the block at the station's place, dB, at its worst temperature, written to `out`. */
export function blockLosses(
  block: Block,
  drawn: readonly Values[],
  station: BlockPlace,
  out: Float64Array,
): void {
  const { compiled, rises } = block
  for (const [channel, values] of drawn.entries()) {
    const v = Float64Array.from(values)
    putInPlace(block, v, channel, station)
    let worst = Number.NEGATIVE_INFINITY
    for (const rise of rises) {
      v[compiled.places.temperatureRise] = rise
      const loss = compiled.lossDb(v)
      if (!(loss <= worst)) worst = loss
    }
    out[channel] = worst
  }
}
