// What every face sends back, and what the round trips between two faces add.

import { LEAST_RIPPLE_DB } from '../../../analysis/light/ripples'
import type { Evaluation } from '../../../analysis/results/evaluation'
import { PATH_PORTS } from '../../../analysis/results/lightResults'
import { returnLossText } from '../../../analysis/verdicts/lightVerdicts'
import { jointWords } from '../../../model/designs/jointNames'
import { plainText } from '../../../numerics/numberText'
import { type Block, type Cell, table, text } from '../../document/blocks'
import { fixedCell, lossCell } from '../../document/cells'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

/** A return loss with the words of the screen; the full value stays behind them. */
function back(lossDb: number | null): Cell {
  return lossDb === null ? 'none' : { value: lossDb, text: returnLossText(lossDb).replace(' dB', '') }
}

/** Both ends of the path, and a note where the shape of a face is not known. */
function totals(returnLoss: Evaluation['returnLoss'], of: 'incoherentDb' | 'coherentDb'): readonly Cell[] {
  const open = PATH_PORTS.filter((port) => returnLoss[port].atLeast)
  return [
    ...PATH_PORTS.map((port) => back(returnLoss[port][of])),
    open.length === 0 ? '' : `at least, towards the ${open.join(' and the ')}: tip radius not given`,
  ]
}

function build({ choice }: SheetContext): readonly Block[] {
  if (choice === null) return []
  const { reflections, returnLoss, ripples } = choice.candidate.evaluation
  const rippled = ripples.filter(({ peakToPeakDb }) => peakToPeakDb >= LEAST_RIPPLE_DB)
  return [
    table(
      'Return loss by face',
      [
        'Face',
        { label: 'Reflectance', unit: '%' },
        { label: 'Local RL, fibre side', unit: 'dB' },
        { label: 'Local RL, chip side', unit: 'dB' },
        { label: 'RL referred to the fibre', unit: 'dB' },
        { label: 'RL referred to the chip', unit: 'dB' },
        'Note',
      ],
      [
        ...reflections.map((face) => ({
          mark: `reflection-${face.elementId}-${face.face}-${face.label}`,
          cells: [
            face.label,
            { value: 100 * face.reflectance, text: plainText(100 * face.reflectance, 3) },
            back(face.intoNearDb),
            back(face.intoFarDb),
            back(face.atFibreDb),
            back(face.atChipDb),
            face.note ?? '',
          ],
        })),
        {
          mark: 'return-loss',
          total: true,
          cells: ['Return loss, incoherent sum', '', '', '', ...totals(returnLoss, 'incoherentDb')],
        },
        {
          mark: 'return-loss-in-phase',
          total: true,
          cells: ['Return loss, coherent worst case', '', '', '', ...totals(returnLoss, 'coherentDb')],
        },
      ],
    ),
    ...(rippled.length === 0
      ? [text('No ripple above the threshold between any two faces.')]
      : [
          table(
            'Ripple of the gaps, relative to the budget',
            [
              'Gap',
              { label: 'Peak to peak', unit: 'dB' },
              { label: 'Gain at maximum', unit: 'dB' },
              { label: 'Loss at minimum', unit: 'dB' },
              { label: 'Period, gap', unit: 'µm' },
              { label: 'Period, wavelength', unit: 'nm' },
            ],
            rippled.map((ripple) => [
              jointWords(choice.candidate.candidate.chain, ripple.elementId),
              lossCell(ripple.peakToPeakDb),
              lossCell(ripple.crestGainDb),
              lossCell(ripple.troughLossDb),
              fixedCell(ripple.periodGapUm, 3),
              ripple.periodWavelengthUm === null ? 'none' : fixedCell(1000 * ripple.periodWavelengthUm, 1),
            ]),
          ),
        ]),
  ]
}

export const reflectionsSection: SectionSpec = { id: 'reflections', title: 'Reflections and ripple', build }
