// One simulated array in front of the chip: the values of every channel, the position of every row after alignment, the loss of every channel.

import type { ArrayAim } from '../../model/words/fibreArray'
import type { Values } from '../path/vector/valueReaders'
import type { ArrayBlock } from './block'
import { type BlockChannel, type BlockPosition, channelLossDb } from './blockChannel'
import { channelDisplacement } from './blockGeometry'
import type { Move } from './middlePose'
import { placeBlock } from './placeBlock'
import { movesAcross, type RowStep } from './rowSteps'

/** Values of a simulated array before they are written to the vector: the shared ones, and those of each channel. */
interface SampledBlock {
  readonly shared: Values
  readonly channels: readonly Values[]
}

/** Positions of the rows after alignment: the guides at every joint, and the other members moved, the same for all channels. */
export interface Station {
  readonly positions: readonly BlockPosition[]
  readonly moves: readonly Move[]
}

/** An array sampled at a point. `factors` narrow or widen the tolerances, in the order of blockQuantities. */
export function sampleBlock(block: ArrayBlock, point: Float64Array, factors?: Float64Array): SampledBlock {
  const { compiled, common, own, channels } = block
  const shared = compiled.nominal.slice()
  common.apply(point, shared, factors)
  const ownFactors = factors?.subarray(common.slots.length)
  return {
    shared,
    channels: Array.from({ length: channels }, (_, channel) => {
      const v = shared.slice()
      const from = common.slots.length + channel * own.slots.length
      own.apply(point.subarray(from, from + own.slots.length), v, ownFactors)
      return v
    }),
  }
}

/** The nominal array, without errors. */
export function paperBlock({ compiled, channels }: ArrayBlock): SampledBlock {
  return {
    shared: Float64Array.from(compiled.nominal),
    channels: Array.from({ length: channels }, () => Float64Array.from(compiled.nominal)),
  }
}

/** Puts a channel in its place at every join, with the rows moved and turned by the station. */
function putInPlace(block: ArrayBlock, v: Values, channel: number, stations: readonly BlockPosition[]): void {
  const { arraySlots, slots } = block.compiled
  const read = (slot: number | undefined) => v[slot ?? -1] ?? 0
  v[slots.channel] = channel - (block.channels - 1) / 2
  for (const [at, { pose, rows, displaced }] of block.joins.entries()) {
    const station = stations[at] ?? HERE
    // The errors of the fibre array; the rows of a taper chip are assumed as straight as its mask.
    const fibres = at === 0 ? arraySlots : null
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

/** A row whose curvature is below this is not moved, dB/um^2. */
const NO_EFFECT = 1e-12

/** The loss of a channel as a function of the row's displacement: its quadratic form about its own optimum, other losses included. */
function blockChannel(step: RowStep, v: Values, alongUm: number, lossDb: number): BlockChannel | null {
  const form = step.form(v)
  if (form === undefined) return null
  const { curvatureDb: k, slopeDb } = form
  const a11 = k[0] ?? 1
  const a12 = k[1] ?? 0
  const a22 = k[5] ?? 1
  const rx = -(slopeDb[0] ?? 0)
  const ry = -(slopeDb[1] ?? 0)
  const det = a11 * a22 - a12 * a12
  if (!(a11 > NO_EFFECT && a22 > NO_EFFECT)) return null
  const about: BlockChannel = {
    alongUm,
    leastDb: 0,
    a11,
    a12,
    a22,
    bestXUm: (a22 * rx - a12 * ry) / det,
    bestYUm: (a11 * ry - a12 * rx) / det,
  }
  return { ...about, leastDb: lossDb - channelLossDb(about, HERE) }
}

const HERE: BlockPosition = { xUm: 0, yUm: 0, rollRad: 0 }

/**
 * Where the station puts every row of a simulated array, at the temperature of assembly; where it was entered if it moves
 * nothing. Joins are aligned along the path, since the losses of later ones are not known then, the rows of a join in
 * the stated order, each with the others where they are then. The residual of a row is there once it is aligned.
 */
export function stationOf(block: ArrayBlock, { shared, channels }: SampledBlock, aim: ArrayAim): Station {
  const { joins, compiled } = block
  const positions: BlockPosition[] = joins.map(() => HERE)
  const moves: Move[] = []
  const bonded = joins.flatMap(({ bondShift }) => bondShift)
  const unseen = new Set(
    joins.flatMap(({ steps }) =>
      steps.flatMap(({ residuals }) => [...residuals.across, ...residuals.middle]),
    ),
  )
  const nowSeen = (residuals: readonly number[]) => {
    for (const slot of residuals) unseen.delete(slot)
  }
  const v = compiled.nominal.slice()
  /** Values of a channel as the search finds it, until the next is looked at; its number starts from 0. */
  const seen = (values: Values, channel: number) => {
    v.set(values)
    for (const slot of unseen) v[slot] = 0
    for (const slot of bonded) v[slot] = 0
    applyMoves(moves, v)
    putInPlace(block, v, channel, positions)
    return v
  }
  for (const [at, join] of joins.entries()) {
    const later = joins.slice(at + 1)
    for (const step of join.steps) {
      nowSeen(step.residuals.middle)
      if (step.middle !== null) moves.push(...step.middle(seen(shared, (block.channels - 1) / 2)))
      if (movesAcross(step)) {
        const forms = channels.flatMap((values, channel) => {
          seen(values, channel)
          const soFarDb = later.reduce(
            (sum, { model }) => sum - (model.searchDb ?? model.lossDb)(v),
            compiled.searchDb(v),
          )
          const alongUm = (v[compiled.slots.channel] ?? 0) * (v[join.rows.nearPitch] ?? 0)
          return blockChannel(step, v, alongUm, soFarDb) ?? []
        })
        if (forms.length > 0) {
          const position = placeBlock(forms, aim, step.free)
          if (step.offsets === null) positions[at] = position
          else {
            moves.push({ slot: step.offsets.x, by: position.xUm }, { slot: step.offsets.y, by: position.yUm })
          }
        }
      }
      nowSeen(step.residuals.across)
    }
  }
  return { positions, moves }
}

function applyMoves(moves: readonly Move[], v: Values): void {
  for (const { slot, by } of moves) v[slot] = (v[slot] ?? 0) + by
}

/** Loss of every channel with the rows where the station leaves them, dB, at its worst temperature, written to `out`. */
export function blockLosses(
  block: ArrayBlock,
  { channels }: SampledBlock,
  { positions, moves }: Station,
  out: Float64Array,
): void {
  const { compiled, rises } = block
  const v = compiled.nominal.slice()
  for (const [channel, values] of channels.entries()) {
    v.set(values)
    applyMoves(moves, v)
    putInPlace(block, v, channel, positions)
    let worst = Number.NEGATIVE_INFINITY
    for (const rise of rises) {
      v[compiled.slots.temperatureRise] = rise
      const loss = compiled.lossDb(v)
      if (!(loss <= worst)) worst = loss
    }
    out[channel] = worst
  }
}
