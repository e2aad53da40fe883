// One drawn block in front of the chip: every channel's values, the block's best place, every channel's loss.

import type { GapElement } from '../../model/candidate'
import type { ArrayAim, FibreArray } from '../../model/fibreArray'
import { failure, type Result, success } from '../../model/issue'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import { misalignmentForm } from '../../optics/index'
import type { Values } from '../chain/readers'
import { type CompiledCandidate, compileCandidate } from '../compileCandidate'
import { type Draws, drawsOf } from '../yield/draws'
import { channelDisplacement } from './blockGeometry'
import { type BlockChannel, type BlockPlace, channelLossDb, placeBlock } from './placeBlock'

export interface Block {
  readonly compiled: CompiledCandidate
  readonly channels: number
  readonly limitDb: number
  /** Whether the station optimises the block's offsets, and its roll. */
  readonly aligned: boolean
  readonly turns: boolean
  readonly aim: ArrayAim
  /** Draws that all channels share, and those that each has for itself. */
  readonly common: Draws
  readonly own: Draws
  /** Places of the roll and of the tilt along the row, in the vector of values. */
  readonly roll: number
  readonly tiltX: number
  /** Places of what the station's search does not see: its own residual, and what moves when the joint is bonded. */
  readonly unseen: readonly number[]
}

/** A block as good as its drawing, at the chip's pitch. */
export function plainArray(project: Project): FibreArray {
  const none = { value: 0, unit: 'um', provenance: 'estimate' } as const
  const { value, unit, provenance } = project.requirements.pitch
  return { pitch: { value, unit, provenance }, coreX: none, coreY: none, bow: none, aim: 'sum of all' }
}

/** The block of a candidate, ready for draws, or every reason why there is none. */
export function blockOf(project: Project, candidateId: string, aim?: ArrayAim): Result<Block> {
  const candidate = project.candidates.find((each) => each.id === candidateId)
  const array = candidate?.array ?? plainArray(project)
  const result = compileCandidate(project, candidateId, { modes: 'tabled', array })
  if (!result.ok) return result
  const compiled = result.value
  const gapAt = compiled.candidate.chain.length - 2
  const gap = compiled.candidate.chain[gapAt]
  if (gap?.kind !== 'gap') {
    return failure({
      path: ['candidates', candidateId, 'chain', gapAt],
      code: 'sequence',
      message: 'the element before the chip is no gap; an array needs one',
    })
  }
  const poseAt = (axis: keyof GapElement) =>
    compiled.variables.findIndex(
      (variable) => variable.path.at(-2) === gapAt && variable.path.at(-1) === axis,
    )
  const { arrayPlaces } = compiled
  const ofChannel = (at: number) =>
    at === arrayPlaces?.coreX ||
    at === arrayPlaces?.coreY ||
    compiled.variables[at]?.spread.share === 'channel'
  const placeOf = new Map(compiled.variables.map((variable, at) => [variable, at]))
  const keeps = (own: boolean) => (variable: (typeof compiled.variables)[number]) =>
    ofChannel(placeOf.get(variable) ?? -1) === own
  const aligned = gap.aligned ?? []
  return success({
    compiled,
    channels: project.requirements.channels,
    limitDb: coreValue(project.requirements.lossLimit, 'loss'),
    aligned: aligned.includes('offsetX') || aligned.includes('offsetY'),
    turns: aligned.includes('roll'),
    aim: aim ?? array.aim,
    common: drawsOf(compiled.variables, keeps(false)),
    own: drawsOf(compiled.variables, keeps(true)),
    roll: poseAt('roll'),
    tiltX: poseAt('tiltX'),
    unseen: [
      poseAt('offsetX'),
      poseAt('offsetY'),
      ...compiled.variables.flatMap((variable, at) =>
        variable.path.at(-3) === gapAt && variable.path.at(-2) === 'bondShift' ? [at] : [],
      ),
    ],
  })
}

/** Number of coordinates that one block draws. */
export function blockDimensions({ common, own, channels }: Block): number {
  return Math.max(1, common.places.length + channels * own.places.length)
}

/** Values of every channel, drawn from a point: the common ones alike, its own for each; not yet in their places. */
export function drawBlock(block: Block, point: Float64Array): readonly Values[] {
  const { compiled, common, own, channels } = block
  const shared = Float64Array.from(compiled.nominal)
  common.apply(point, shared)
  return Array.from({ length: channels }, (_, channel) => {
    const v = Float64Array.from(shared)
    const from = common.places.length + channel * own.places.length
    own.apply(point.subarray(from, from + own.places.length), v)
    return v
  })
}

/** Puts a channel in its place, with the block moved and turned by the station. */
function putInPlace(block: Block, v: Values, channel: number, station: BlockPlace): void {
  const { arrayPlaces: at, places } = block.compiled
  const read = (place: number | undefined) => v[place ?? -1] ?? 0
  const rollRad = read(block.roll) + station.rollRad
  const { xUm, yUm, zUm } = channelDisplacement(channel, block.channels, {
    fibrePitchUm: read(at?.fibrePitch),
    chipPitchUm: read(at?.chipPitch),
    rollRad,
    tiltXRad: read(block.tiltX),
    bowUm: read(at?.bow),
  })
  v[block.roll] = rollRad
  v[places.channelX] = xUm + read(at?.coreX) + station.xUm
  v[places.channelY] = yUm + read(at?.coreY) + station.yUm
  v[places.channelZ] = zUm
}

/** The channel as the block sees it: its quadratic form about its own best place, other losses included. */
function blockChannel(block: Block, v: Values, channel: number): BlockChannel {
  const { compiled } = block
  const view = compiled.joins.at(-1)?.view
  if (view == null) throw new Error('the joint at the chip has no view')
  const { joint } = view(v)
  const h = misalignmentForm(joint).curvatureDb
  const [a11, a12, a22] = [h[0] ?? 1, h[1] ?? 0, h[5] ?? 1]
  // Best offset for the tilts of this channel: A best = -(offset-tilt block) tilt.
  const rx = -((h[2] ?? 0) * joint.tiltXRad + (h[3] ?? 0) * joint.tiltYRad)
  const ry = -((h[6] ?? 0) * joint.tiltXRad + (h[7] ?? 0) * joint.tiltYRad)
  const det = a11 * a22 - a12 * a12
  const alongUm = (channel - (block.channels - 1) / 2) * (v[compiled.arrayPlaces?.fibrePitch ?? -1] ?? 0)
  const form: BlockChannel = {
    alongUm,
    leastDb: 0,
    a11,
    a12,
    a22,
    bestXUm: (a22 * rx - a12 * ry) / det - joint.offsetXUm,
    bestYUm: (a11 * ry - a12 * rx) / det - joint.offsetYUm,
  }
  return { ...form, leastDb: compiled.lossDb(v) - channelLossDb(form, HERE) }
}

const HERE: BlockPlace = { xUm: 0, yUm: 0, rollRad: 0 }

/** Where the station puts a drawn block; where it was put by hand if it aligns nothing. */
export function stationPlace(block: Block, drawn: readonly Values[], aim: ArrayAim): BlockPlace {
  if (!block.aligned) return HERE
  const channels = drawn.map((values, channel) => {
    const v = Float64Array.from(values)
    for (const place of block.unseen) v[place] = 0
    if (block.turns) v[block.roll] = 0
    putInPlace(block, v, channel, HERE)
    return blockChannel(block, v, channel)
  })
  return placeBlock(channels, aim, block.turns)
}

/** Loss of every channel with the block at the station's place, dB, written to `out`. */
export function blockLosses(
  block: Block,
  drawn: readonly Values[],
  station: BlockPlace,
  out: Float64Array,
): void {
  for (const [channel, values] of drawn.entries()) {
    const v = Float64Array.from(values)
    putInPlace(block, v, channel, station)
    out[channel] = block.compiled.lossDb(v)
  }
}
