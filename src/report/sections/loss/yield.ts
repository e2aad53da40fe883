// What share of assemblies passes: percentiles with their intervals, seed and sample count, the tolerances that matter.

import type { YieldResult } from '../../../analysis/index'
import { yieldHistogramFigure } from '../../../figures/loss/yieldHistogram'
import { plainText } from '../../../numerics/numberText'
import { type Block, list, table, text } from '../../document/blocks'
import { fixedCell, lossCell, percentCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const METHODS = { sobol: 'Sobol', random: 'random' } as const

function runBlocks(run: YieldResult, name: string): readonly Block[] {
  const { low, high } = run.yieldInterval
  const ranked = run.ranking.filter((each) => each.total >= 0.005)
  return [
    table(
      `${name}: ${run.samples} assemblies against ${run.limitDb} dB, intervals at ${100 * run.confidence} % confidence`,
      ['Figure', 'Unit', 'Value', 'From', 'To'],
      [
        {
          mark: 'yield',
          cells: ['Yield', '%', percentCell(run.yield, 2), percentCell(low, 2), percentCell(high, 2)],
        },
        ...run.percentiles.map(({ share, lossDb, lowDb, highDb }) => ({
          mark: `percentile-${share}`,
          cells: [
            `${plainText(100 * share, 6)} % of assemblies within`,
            'dB',
            lossCell(lossDb),
            lossCell(lowDb),
            lossCell(highDb),
          ],
        })),
        ['Mean', 'dB', lossCell(run.meanDb), '', ''],
        ['Standard deviation', 'dB', lossCell(run.standardDeviationDb), '', ''],
      ],
    ),
    text(
      `${METHODS[run.method]} points, seed ${run.seed}, ${run.samples} samples${run.stoppedEarly ? '; stopped early at the requested accuracy' : ''}.`,
    ),
    figureBlock(yieldHistogramFigure(`yield-${run.candidateId}`, run)),
    ...(ranked.length === 0
      ? []
      : [
          table(
            'Tolerances by share of the variance',
            [
              'Quantity',
              { label: 'Half width' },
              'Unit',
              { label: 'Share of the variance', unit: '%' },
              { label: 'Yield gained if halved', unit: '%' },
            ],
            ranked.map((each) => [
              each.label,
              fixedCell(each.plusMinus, 3),
              each.unit,
              percentCell(each.total, 1),
              percentCell(each.yieldGainHalved, 2),
            ]),
          ),
        ]),
    list(run.assumptions),
  ]
}

function build({ choice }: SheetContext): readonly Block[] {
  if (choice === null) return []
  const { yield: run, name } = choice.candidate
  return run === null ? [text('No yield run with the current values.')] : runBlocks(run, name)
}

export const yieldSection: SectionSpec = { id: 'yield', title: 'Yield', build }
