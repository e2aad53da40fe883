// A design as its tolerances are sized: for one channel as it is, for a row with every channel in its place, because roll, yaw
// and pitch cost the outer channels most. The loss is that of the worst of the outer two and the middle channel.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { plainArray } from '../array/block'
import { channelDisplacement } from '../array/blockGeometry'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/readers'

export interface SizedCandidate extends CompiledCandidate {
  readonly channels: number
  /** Loss of one channel, numbered from 0, of a vector that it shares with the others or has for itself. */
  readonly channelLossDb: (v: Values, channel: number) => number
  /** Places that are drawn for each channel by itself. */
  readonly ownPlaces: ReadonlySet<number>
}

/** The design ready for sizing, or every reason why it cannot be computed. */
export function sizedCandidate(project: Project, candidateId: string): Result<SizedCandidate> {
  const { channels } = project.requirements
  const candidate = project.candidates.find(({ id }) => id === candidateId)
  if (channels < 2 || candidate === undefined) {
    const result = compileCandidate(project, candidateId)
    if (!result.ok) return result
    const { lossDb } = result.value
    return success({ ...result.value, channels: 1, channelLossDb: lossDb, ownPlaces: new Set() })
  }
  const array = candidate.array ?? plainArray(project, candidate)
  const result = compileCandidate(project, candidateId, { array, alignsEachChannel: true })
  if (!result.ok) return result
  const compiled = result.value
  const channelLossDb = rowLoss(compiled, channels)
  const looked = [...new Set([0, Math.floor(channels / 2), channels - 1])]
  const lossDb = (v: Values) => Math.max(...looked.map((channel) => channelLossDb(v, channel)))
  const { arrayPlaces, variables } = compiled
  return success({
    ...compiled,
    lossDb,
    // The worst of several channels is no sum of parts that read a few places each.
    terms: [{ lossDb, reads: new Set(variables.keys()) }],
    channels,
    channelLossDb,
    ownPlaces: new Set(
      variables.flatMap(({ spread }, at) =>
        at === arrayPlaces?.coreX || at === arrayPlaces?.coreY || spread.share === 'channel' ? [at] : [],
      ),
    ),
  })
}

/** Loss of a channel with every row as straight, as turned and as pitched as the vector says. */
function rowLoss(compiled: CompiledCandidate, channels: number): SizedCandidate['channelLossDb'] {
  const { arrayPlaces, places, variables, candidate, lossDb } = compiled
  const joints = [...(arrayPlaces?.rows ?? [])].flatMap(([id, rows]) => {
    const displaced = places.displaced.get(id)
    const chainAt = candidate.chain.findIndex((each) => each.id === id)
    const pose = (axis: string) =>
      variables.findIndex(({ path }) => path.at(-2) === chainAt && path.at(-1) === axis)
    return displaced === undefined ? [] : [{ rows, displaced, roll: pose('roll'), tiltX: pose('tiltX') }]
  })
  const at = new Float64Array(compiled.nominal.length)
  const read = (place: number | undefined) => at[place ?? -1] ?? 0
  return (v, channel) => {
    at.set(v)
    at[places.channel] = channel - (channels - 1) / 2
    for (const [i, { rows, displaced, roll, tiltX }] of joints.entries()) {
      const fibres = i === 0 ? arrayPlaces : null
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
    return lossDb(at)
  }
}
