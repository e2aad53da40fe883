// All channels at once: what share of blocks passes, by what the block is placed for.

import type { ArrayResult } from '../../analysis/array/runArray'
import { type Block, list, table, text } from '../document/blocks'
import { lossCell, percentCell } from '../document/cells'
import { channelBars } from '../figures/channelBars'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

function runBlocks(run: ArrayResult): readonly Block[] {
  const several = run.aims.length > 1
  const chosen = run.aims.find((each) => each.aim === run.aim) ?? run.aims[0]
  return [
    table(
      several ? 'Block placed for' : 'Block placed as typed',
      [
        'Aim',
        { label: 'All channels pass', unit: '%' },
        { label: 'from', unit: '%' },
        { label: 'to', unit: '%' },
        { label: 'Worst channel passes', unit: '%' },
        { label: 'Mean loss of all', unit: 'dB' },
        { label: 'Mean loss of the worst', unit: 'dB' },
      ],
      run.aims.map((each) => ({
        mark: `aim-${each.aim}`,
        cells: [
          several ? each.aim : 'no alignment on power',
          percentCell(each.allChannelsYield, 2),
          percentCell(each.allChannelsInterval.low, 2),
          percentCell(each.allChannelsInterval.high, 2),
          percentCell(each.worstChannelYield, 2),
          lossCell(each.meanPowerLossDb),
          lossCell(each.meanWorstDb),
        ],
      })),
    ),
    text(`${run.samples} blocks, Sobol points, seed ${run.seed}.`),
    ...(chosen === undefined ? [] : [channelBars(chosen, run.limitDb)]),
    list(run.assumptions),
  ]
}

function build({ project, choice }: SheetContext): readonly Block[] {
  if (choice === null || project.requirements.channels === 1) return []
  const { array } = choice.candidate
  return array === null ? [text('No array run of these numbers.')] : runBlocks(array)
}

export const arraySection: SectionSpec = { id: 'array', title: 'Array', build }
