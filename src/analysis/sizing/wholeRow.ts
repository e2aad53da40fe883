// A design as its tolerances are sized: for one channel as it is, for a row with every channel in its place, because
// roll, yaw and pitch affect the outer channels most. The loss is that of the worst of the outer two and the middle channel.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { InputError } from '../../numerics/inputError'
import { unitPoints } from '../../numerics/random/unitPoints'
import { plainArray } from '../array/block'
import { channelDisplacement } from '../array/blockGeometry'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { ChainContext } from '../path/vector/elementModels'
import type { Values } from '../path/vector/valueReaders'
import { cappedLossDb } from '../results/lossAtShare'
import { requiredRises } from '../temperature/rises'
import { drawsOf } from '../tolerance/draws'

/** Losses of the channels of a design at a vector of values, dB. */
interface ChannelLosses {
  /** Of the worst of the outer two and the middle channel. */
  readonly worstDb: (v: Values) => number
  /** Of one channel, numbered from 0. */
  readonly channelDb: (v: Values, channel: number) => number
  /** The values of the channel that worstDb is the loss of. */
  readonly worstAt: (v: Values) => Values
}

export interface SizedCandidate extends CompiledCandidate {
  readonly channels: number
  /**
   * The losses of a percentile: each assembly at its worst required temperature, as the yield and array runs have it. Read from tabled
   * modes, for many samples; made when first asked for. `sums` as for `compileCandidate`.
   */
  readonly sampled: (sums: ChainContext['sums']) => Pick<ChannelLosses, 'worstDb' | 'channelDb'>
  /** Places that are sampled for each channel separately. */
  readonly ownSlots: ReadonlySet<number>
}

const PILOT_SEED = 0x7e3b

/** A loss that the model refuses is that of an assembly without light. */
export const orDark = (lossDb: () => number) => () => {
  try {
    return lossDb()
  } catch (error) {
    if (error instanceof InputError) return Number.NaN
    throw error
  }
}

/** Tables of modes cover tolerances so many times as wide as they are; wider samples are treated as no light. */
const SAMPLED_WIDENING = 10

/** The design ready for sizing, or every reason why it cannot be computed. */
export function sizedCandidate(project: Project, candidateId: string): Result<SizedCandidate> {
  const { channels } = project.requirements
  const candidate = project.candidates.find(({ id }) => id === candidateId)
  const array = candidate && channels > 1 ? (candidate.array ?? plainArray(project, candidate)) : undefined
  // Sizing tries tolerances wider than those that fits reach.
  const options = { ...(array && { array }), alignsEachChannel: true, sums: 'beyond' } as const
  const result = compileCandidate(project, candidateId, options)
  if (!result.ok) return result
  const compiled = result.value
  const exact = lossesOf(compiled, channels)
  const sampled = new Map<ChainContext['sums'], ReturnType<SizedCandidate['sampled']>>()
  const { arraySlots, variables } = compiled
  return success({
    ...compiled,
    joins: joinsOf(compiled, exact),
    lossDb: exact.worstDb,
    // The worst of several channels is not a sum of parts that read a few slots each.
    terms: channels > 1 ? [{ lossDb: exact.worstDb, reads: new Set(variables.keys()) }] : compiled.terms,
    channels,
    sampled: (sums) => {
      const known = sampled.get(sums)
      if (known !== undefined) return known
      const tabled = compileCandidate(project, candidateId, {
        ...options,
        modes: 'tabled',
        widening: SAMPLED_WIDENING,
        sums,
      })
      const own = tabled.ok ? tabled.value : compiled
      const losses = lossesOf(own, channels)
      const slot = own.slots.temperatureRise
      const made = overTemperature(losses, slot, risesThatMatter(own, losses, requiredRises(project, own)))
      sampled.set(sums, made)
      return made
    },
    ownSlots: new Set(
      variables.flatMap(({ spread }, at) =>
        at === arraySlots?.coreX || at === arraySlots?.coreY || spread.share === 'channel' ? [at] : [],
      ),
    ),
  })
}

/** Joints whose exact sums are those of the worst channel. */
function joinsOf({ joins }: CompiledCandidate, { worstAt }: ChannelLosses): CompiledCandidate['joins'] {
  return joins.map((join) => {
    const { beyondFitDb } = join
    return beyondFitDb === undefined ? join : { ...join, beyondFitDb: (vs) => beyondFitDb(vs.map(worstAt)) }
  })
}

const PILOTS = 64
/** What a temperature may add to the worst of the others and still be left out, dB. */
const IDLE_DB = 0.001

/**
 * The rises at which some assembly loses most: a mount that moves the fibre along a line never has the alignment temperature among
 * them, and one that hardly moves it needs a single temperature. Found on a few assemblies, each at all of them.
 */
function risesThatMatter(
  { variables, nominal, slots }: CompiledCandidate,
  { worstDb }: ChannelLosses,
  risesK: readonly number[],
): readonly number[] {
  if (risesK.length === 1) return risesK
  const draws = drawsOf(variables)
  const points = unitPoints('sobol', Math.max(1, draws.slots.length), PILOT_SEED)
  const point = new Float64Array(points.dimensions)
  const v = Float64Array.from(nominal)
  const pilots = Array.from({ length: PILOTS }, (_, n) => {
    points.point(n, point)
    draws.apply(point, v)
    return new Map(
      risesK.map((rise) => {
        v[slots.temperatureRise] = rise
        return [rise, cappedLossDb(orDark(() => worstDb(v))())]
      }),
    )
  })
  const worst = (pilot: ReadonlyMap<number, number>, rises: readonly number[]) =>
    Math.max(...rises.map((rise) => pilot.get(rise) ?? 0))
  return risesK.reduce((kept, rise) => {
    const others = kept.filter((each) => each !== rise)
    const isIdle = pilots.every((pilot) => worst(pilot, others) >= worst(pilot, risesK) - IDLE_DB)
    return others.length > 0 && isIdle ? others : kept
  }, risesK)
}

function overTemperature(
  losses: ChannelLosses,
  slot: number,
  risesK: readonly number[],
): ReturnType<SizedCandidate['sampled']> {
  const [only = 0] = risesK
  if (risesK.length === 1 && only === 0) return losses
  const worst = (v: Values, lossDb: () => number): number => {
    let worstDb = Number.NEGATIVE_INFINITY
    for (const rise of risesK) {
      v[slot] = rise
      worstDb = Math.max(worstDb, lossDb())
    }
    v[slot] = 0
    return worstDb
  }
  return {
    worstDb: (v) => worst(v, () => losses.worstDb(v)),
    channelDb: (v, channel) => worst(v, () => losses.channelDb(v, channel)),
  }
}

function lossesOf(compiled: CompiledCandidate, channels: number): ChannelLosses {
  if (channels < 2) return { worstDb: compiled.lossDb, channelDb: compiled.lossDb, worstAt: (v) => v }
  const at = channelValues(compiled, channels)
  const channelDb = (v: Values, channel: number) => compiled.lossDb(at(v, channel))
  const looked = [...new Set([0, Math.floor(channels / 2), channels - 1])]
  return {
    channelDb,
    worstDb: (v) => Math.max(...looked.map((channel) => channelDb(v, channel))),
    worstAt: (v) => {
      const losses = looked.map((channel) => channelDb(v, channel))
      return Float64Array.from(at(v, looked[losses.indexOf(Math.max(...losses))] ?? 0))
    },
  }
}

/** The values of a channel with every row as straight, as turned and as pitched as the vector says, in one array that is overwritten. */
function channelValues(
  compiled: CompiledCandidate,
  channels: number,
): (v: Values, channel: number) => Float64Array {
  const { arraySlots, slots, variables, candidate } = compiled
  const joints = [...(arraySlots?.rows ?? [])].flatMap(([id, rows]) => {
    const displaced = slots.displaced.get(id)
    const chainAt = candidate.chain.findIndex((each) => each.id === id)
    const pose = (axis: string) =>
      variables.findIndex(({ path }) => path.at(-2) === chainAt && path.at(-1) === axis)
    return displaced === undefined ? [] : [{ rows, displaced, roll: pose('roll'), tiltX: pose('tiltX') }]
  })
  const at = new Float64Array(compiled.nominal.length)
  const read = (slot: number | undefined) => at[slot ?? -1] ?? 0
  return (v, channel) => {
    at.set(v)
    at[slots.channel] = channel - (channels - 1) / 2
    for (const [i, { rows, displaced, roll, tiltX }] of joints.entries()) {
      const fibres = i === 0 ? arraySlots : null
      const { xUm, yUm, zUm } = channelDisplacement(channel, channels, {
        nearPitchUm: read(rows.nearPitch),
        farPitchUm: read(rows.farPitch),
        rollRad: read(roll),
        tiltXRad: read(tiltX),
        bowUm: read(fibres?.bow),
      })
      at[displaced.x] = xUm + read(fibres?.coreX)
      at[displaced.y] = yUm + read(fibres?.coreY)
      at[displaced.z] = zUm
    }
    return at
  }
}
