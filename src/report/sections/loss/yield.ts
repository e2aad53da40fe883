// What share of assemblies passes: percentiles with their intervals, seed and sample count, the tolerances that matter.

import type { YieldResult } from '../../../analysis/index'
import { gainIsTold, gainName, NOT_TOLD } from '../../../analysis/results/percentileGain'
import { yieldHistogramFigure } from '../../../figures/loss/yieldHistogram'
import { countText, plainText } from '../../../numerics/numberText'
import { type Block, group, list, table, text } from '../../document/blocks'
import { fixedCell, lossCell, percentCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'
import { runOffer } from '../../summary/missingRuns'

const HISTOGRAM_SIZE = { widthPx: 420, heightPx: 210 }

const METHODS = { sobol: 'Sobol', random: 'random' } as const

function runBlocks(run: YieldResult, name: string): readonly Block[] {
  const { low, high } = run.yieldInterval
  const ranked = run.ranking.filter((each) => each.total >= 0.005)
  const figures = table(
    `${name}: ${countText(run.samples)} simulated assemblies, limit ${run.limitDb} dB, intervals at ${100 * run.confidence} % confidence`,
    ['Quantity', 'Unit', 'Value', 'From', 'To'],
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
  )
  return [
    group(
      'beside',
      figures,
      figureBlock(yieldHistogramFigure(`yield-${run.candidateId}`, run), HISTOGRAM_SIZE),
    ),
    text(
      `${METHODS[run.method]} points, seed ${run.seed}, ${countText(run.samples)} samples${run.stoppedEarly ? '; stopped early at the requested accuracy' : ''}.`,
    ),
    ...(ranked.length === 0
      ? []
      : [
          table(
            'Tolerances by total variance share; shares include interactions, so their sum can exceed 100 %',
            [
              'Quantity',
              { label: 'Tolerance, ±' },
              'Unit',
              { label: 'Total variance share', unit: '%' },
              { label: 'Yield gain if halved', unit: 'points' },
              { label: `${gainName(ranked)} gain if halved`, unit: 'dB' },
            ],
            ranked.map((each) => [
              each.label,
              fixedCell(each.plusMinus, 3),
              each.unit,
              percentCell(each.total, 1),
              percentCell(each.yieldGainHalved, 2),
              gainIsTold(each) ? fixedCell(each.percentileGainHalvedDb, 2) : NOT_TOLD,
            ]),
          ),
        ]),
    group('columns', list(run.assumptions)),
  ]
}

function build({ choice }: SheetContext): readonly Block[] {
  if (choice === null) return []
  const { yield: run, name } = choice.candidate
  return run === null ? [text(runOffer('yield'))] : runBlocks(run, name)
}

export const yieldSection: SectionSpec = { id: 'yield', title: 'Yield', build }
