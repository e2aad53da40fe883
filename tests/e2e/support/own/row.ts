// A row of channels in one joint without alignment, once more for tests: the array is placed as one, rolled and yawed about its middle;
// every core is off by its own.

import type { OwnDesign } from './design'
import { type Data, type Off, off } from './quantities'
import { drawnBy, type OwnPercentile, ownRandom, ownWorstDb, percentileOf } from './statistics'

interface OwnRow {
  /** What all channels share: the quantities of the design, then pitches, roll and bow of the row. */
  readonly common: readonly Off[]
  /** What every core has by itself, across and upwards. */
  readonly core: readonly [x: Off, y: Off]
  readonly channels: number
  readonly lossDb: (common: Float64Array, core: ArrayLike<number>, channel: number, warmerK: number) => number
  readonly risesK: readonly number[]
}

/** `design` and `requirements` are those of the saved project; a design without an array has one without tolerances. */
export function ownRow(own: OwnDesign, { chain, array = {} }: Data, requirements: Data): OwnRow {
  const { names, offs, lossDb, risesK } = own
  const { channels } = requirements
  const gap = chain.find(({ kind }: Data) => kind === 'gap')
  const at = (field: string) => names.indexOf(`${gap.id} ${field}`)
  const [x, y, z, yaw] = [at('offsetX'), at('offsetY'), at('gap'), at('tiltX')]
  const pitchUm = off(requirements.pitch).value
  const row = [array.pitch, requirements.pitch, gap.roll, array.bow].map(off)
  const v = new Float64Array(offs.length)
  const middle = (channels - 1) / 2
  return {
    common: [...offs, ...row],
    core: [off(array.coreX), off(array.coreY)],
    channels,
    risesK,
    lossDb: (common, core, channel, warmerK) => {
      const [wider = 0, chipWider = 0, rolled = 0, bent = 0] = common.subarray(offs.length)
      const from = channel - middle
      const acrossUm = from * (pitchUm + wider)
      v.set(common.subarray(0, offs.length))
      const move = (position: number, um: number) => {
        v[position] = (v[position] ?? 0) + um
      }
      move(x, acrossUm * Math.cos(rolled) - from * (pitchUm + chipWider) + (core[0] ?? 0))
      move(y, acrossUm * Math.sin(rolled) + (core[1] ?? 0) + bent * (from / middle) ** 2)
      move(z, -acrossUm * Math.sin(v[yaw] ?? 0))
      return lossDb(v, warmerK)
    },
  }
}

/** Highest loss of either outer channel with everything at its limits, at the temperature of alignment. */
export function ownRowWorstDb(own: OwnDesign, { common, core, channels, lossDb }: OwnRow): number {
  const offs = [...common, ...core]
  const outer = (channel: number) =>
    ownWorstDb({
      ...own,
      offs,
      lossDb: (v) => lossDb(v.subarray(0, common.length), v.subarray(common.length), channel, 0),
    })
  return Math.max(outer(0), outer(channels - 1))
}

/** The losses of the worst channel of arrays sampled one by one, each channel at its worst temperature. */
function worstChannels({ common, core, channels, lossDb, risesK }: OwnRow, samples: number): Float64Array {
  const random = ownRandom(23)
  const own = [0, 0]
  return Float64Array.from({ length: samples }, () => {
    const v = Float64Array.from(common, (each) => drawnBy(each, random))
    let worst = 0
    for (let channel = 0; channel < channels; channel++) {
      own[0] = drawnBy(core[0], random)
      own[1] = drawnBy(core[1], random)
      for (const rise of risesK) worst = Math.max(worst, lossDb(v, own, channel, rise))
    }
    return worst
  })
}

/** Share of arrays whose channels all keep to a limit. */
export function ownAllChannelsYield(row: OwnRow, limitDb: number, samples: number): number {
  return worstChannels(row, samples).filter((db) => db <= limitDb).length / samples
}

export const ownAllChannelsPercentile = (row: OwnRow, share: number, samples: number): OwnPercentile =>
  percentileOf(worstChannels(row, samples), share)
