// All channels at once: the yield of arrays, by alignment strategy.

import { worthNarrowing } from '../../../analysis/array/arrayRanking'
import type { AimResult, ArrayResult } from '../../../analysis/array/runArray'
import { gainIsTold, gainName, NOT_TOLD } from '../../../analysis/results/percentileGain'
import { WORST_SINGLE_CHANNEL } from '../../../analysis/results/worstChannel'
import { channelColumns, channelLossesFigure } from '../../../figures/loss/channelLosses'
import { AIM_NAMES } from '../../../model/words/fibreArray'
import { countText } from '../../../numerics/numberText'
import { type Block, group, list, table, text } from '../../document/blocks'
import { fixedCell, lossCell, percentCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'
import { runOffer } from '../../summary/missingRuns'

const CHANNELS_SIZE = { widthPx: 420, heightPx: 260 }

/** What the array is aligned for; where nothing is aligned all aims are one. */
const alignedFor = ({ aims }: ArrayResult, aim: AimResult['aim']): string =>
  aims.length > 1 ? `aligned for: ${AIM_NAMES[aim]}` : 'array placed as entered'

function channelTable({ channels, aim }: AimResult, run: ArrayResult): Block {
  return table(
    `Loss of every channel, ${alignedFor(run, aim)}`,
    channelColumns(run.temperaturesC.length > 0),
    channels.map((each) => [
      String(each.channel),
      lossCell(each.nominalDb),
      lossCell(each.p5Db),
      lossCell(each.p50Db),
      lossCell(each.p95Db),
      percentCell(each.yield, 2),
    ]),
  )
}

function runBlocks(run: ArrayResult): readonly Block[] {
  const several = run.aims.length > 1
  const chosen = run.aims.find((each) => each.aim === run.aim) ?? run.aims[0]
  const worth = run.ranking.tolerances.filter(worthNarrowing)
  return [
    table(
      several ? 'Alignment strategies' : 'Array placed as entered',
      [
        'Alignment strategy',
        { label: 'Yield, all channels', unit: '%' },
        { label: 'from', unit: '%' },
        { label: 'to', unit: '%' },
        { label: WORST_SINGLE_CHANNEL, unit: '%' },
        { label: 'Mean loss, all channels', unit: 'dB' },
        { label: 'Mean loss, worst channel', unit: 'dB' },
      ],
      run.aims.map((each) => ({
        mark: `aim-${each.aim}`,
        cells: [
          several ? AIM_NAMES[each.aim] : 'no alignment on power',
          percentCell(each.allChannelsYield, 2),
          percentCell(each.allChannelsInterval.low, 2),
          percentCell(each.allChannelsInterval.high, 2),
          percentCell(each.worstChannelYield, 2),
          lossCell(each.meanPowerLossDb),
          lossCell(each.meanWorstDb),
        ],
      })),
    ),
    text(`${countText(run.samples)} arrays, Sobol points, seed ${run.seed}.`),
    ...(chosen === undefined
      ? []
      : [
          group(
            'beside',
            figureBlock(
              channelLossesFigure(chosen, run.limitDb, run.temperaturesC.length > 0),
              CHANNELS_SIZE,
            ),
            channelTable(chosen, run),
          ),
        ]),
    ...(worth.length === 0
      ? []
      : [
          table(
            'Tolerances by effect on all-channel yield, each halved alone (gains are not additive)',
            [
              'Quantity',
              { label: 'Tolerance, ±' },
              'Unit',
              { label: 'All-channel yield gain if halved', unit: 'points' },
              { label: `${gainName(worth)} gain of the worst channel if halved`, unit: 'dB' },
            ],
            worth.map(({ label, plusMinus, unit, yieldGainHalved, ...gain }) => [
              label,
              fixedCell(plusMinus, 3),
              unit,
              percentCell(yieldGainHalved, 1),
              gainIsTold(gain) ? fixedCell(gain.percentileGainHalvedDb, 2) : NOT_TOLD,
            ]),
          ),
        ]),
    group('columns', list(run.assumptions)),
  ]
}

function build({ project, choice }: SheetContext): readonly Block[] {
  if (choice === null || project.requirements.channels === 1) return []
  const { array } = choice.candidate
  return array === null ? [text(runOffer('array'))] : runBlocks(array)
}

export const arraySection: SectionSpec = { id: 'array', title: 'Array', build }
