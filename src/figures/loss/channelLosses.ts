// Loss of every channel of an array: bars from the 5th to the 95th percentile with the median, nominal values, the limit.

import type { AimResult } from '../../analysis/array/runArray'
import { fixedText } from '../../numerics/numberText'
import { type Chart, chart } from '../chart'
import type { Figure, FigureColumn } from '../figure'

/** Losses beyond this are drawn as this, so that one dark channel does not flatten the rest. */
const CEILING_DB = 30
const HEADROOM = 1.08
const BAR = 0.62

/** Numbers of each channel; the nominal loss at its worst temperature where the run has several. */
export const channelColumns = (atWorstTemperature: boolean): readonly FigureColumn[] => [
  { label: 'Channel', digits: 0 },
  { label: atWorstTemperature ? 'Nominal, worst temperature' : 'Nominal', unit: 'dB', digits: 2 },
  { label: 'P5', unit: 'dB', digits: 2 },
  { label: 'Median', unit: 'dB', digits: 2 },
  { label: 'P95', unit: 'dB', digits: 2 },
  { label: 'Yield', unit: '%', digits: 2 },
]

export function channelLossesFigure(
  {
    channels,
    allChannelsYield,
    worstChannelYield,
  }: Pick<AimResult, 'channels' | 'allChannelsYield' | 'worstChannelYield'>,
  limitDb: number,
  atWorstTemperature: boolean,
): Figure<Chart> {
  const nominal = atWorstTemperature ? 'nominal, worst temperature' : 'nominal'
  const at = channels.map(({ channel }) => channel)
  const drawn = (lossDb: number) => Math.min(CEILING_DB, lossDb)
  const most = Math.max(
    limitDb,
    ...channels.flatMap(({ p95Db, nominalDb }) => [drawn(p95Db), drawn(nominalDb)]),
  )
  return {
    id: 'array',
    sentence: `All channels within ${limitDb} dB in ${fixedText(100 * allChannelsYield, 1)} % of arrays; lowest single-channel yield ${fixedText(100 * worstChannelYield, 1)} %.`,
    picture: chart(
      {
        title: 'Channel',
        from: (at[0] ?? 1) - 0.6,
        to: (at.at(-1) ?? 1) + 0.6,
        names: at.map((channel) => ({ at: channel, name: String(channel) })),
      },
      { title: 'Insertion loss', unit: 'dB', from: 0, to: HEADROOM * Math.max(0.1, most), digits: 2 },
      [
        {
          kind: 'bars',
          name: 'P5 to P95',
          unread: true,
          at,
          from: channels.map(({ p5Db }) => drawn(p5Db)),
          to: channels.map(({ p95Db }) => drawn(p95Db)),
          thickness: BAR,
          tone: 'soft',
        },
        {
          kind: 'bars',
          name: 'median',
          at,
          from: channels.map(({ p50Db }) => drawn(p50Db)),
          to: channels.map(({ p50Db }) => drawn(p50Db)),
          thickness: BAR,
          tone: 'accent',
        },
        {
          kind: 'points',
          name: nominal,
          x: at,
          y: channels.map(({ nominalDb }) => drawn(nominalDb)),
          tone: 'accent',
          mark: 'diamond',
        },
        { kind: 'rule', axis: 'y', at: limitDb, label: 'limit', weight: 'normal' },
      ],
    ),
    table: {
      columns: channelColumns(atWorstTemperature),
      rows: channels.map((each) => [
        each.channel,
        each.nominalDb,
        each.p5Db,
        each.p50Db,
        each.p95Db,
        100 * each.yield,
      ]),
    },
  }
}
