// Median and spread of the loss of every channel of a block.

import type { AimResult } from '../../analysis/array/runArray'
import type { FigureBlock } from '../document/blocks'
import { lossCell, percentCell } from '../document/cells'
import { bar, chart, label, line } from './chart'
import { figure, plotted } from './figure'

/** Losses beyond this are drawn as this, so that one dark channel does not flatten the rest. */
const CEILING_DB = 30

export const CHANNEL_COLUMNS = [
  'Channel',
  { label: 'On paper', unit: 'dB' },
  { label: '5 %', unit: 'dB' },
  { label: 'Median', unit: 'dB' },
  { label: '95 %', unit: 'dB' },
  { label: 'Passes', unit: '%' },
]

export function channelBars({ aim, channels }: AimResult, limitDb: number): FigureBlock {
  const drawn = (lossDb: number) => Math.min(CEILING_DB, lossDb)
  const top = 1.08 * Math.max(limitDb, ...channels.map(({ p95Db }) => drawn(p95Db)))
  const every = Math.ceil(channels.length / 16)
  const drawing = chart(
    {
      x: {
        from: 0.4,
        to: channels.length + 0.6,
        title: 'Channel',
        names: channels
          .filter(({ channel }) => (channel - 1) % every === 0)
          .map(({ channel }) => ({ at: channel, name: String(channel) })),
      },
      y: { from: 0, to: top, title: 'Loss, dB' },
    },
    ({ x, y, leftPx, rightPx }) => [
      ...channels.flatMap(({ channel, p5Db, p50Db, p95Db }) => [
        bar(x(channel - 0.3), y(drawn(p5Db)), x(channel + 0.3), y(drawn(p95Db)), 'chart-bar-light'),
        line(x(channel - 0.3), y(drawn(p50Db)), x(channel + 0.3), y(drawn(p50Db)), 'chart-curve'),
      ]),
      line(leftPx, y(limitDb), rightPx, y(limitDb), 'chart-limit'),
      label(rightPx - 6, y(limitDb) - 5, 'limit', 'end'),
    ],
  )
  const worst = Math.min(...channels.map((each) => each.yield))
  return figure(
    'array',
    `Block placed for ${aim}: bars from 5 to 95 % of blocks with the median; the worst channel passes in ${percentCell(worst, 2).text} % of blocks.`,
    drawing,
    CHANNEL_COLUMNS,
    channels.map((each) => [
      plotted(each.channel),
      lossCell(each.nominalDb),
      lossCell(each.p5Db),
      lossCell(each.p50Db),
      lossCell(each.p95Db),
      percentCell(each.yield, 2),
    ]),
  )
}
