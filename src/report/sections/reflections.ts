// What every face sends back, and what the round trips between two faces add.

import { LEAST_RIPPLE_DB } from '../../analysis/light/ripples'
import { returnLossText } from '../../analysis/verdicts/lightVerdicts'
import { jointWords } from '../../model/designs/jointNames'
import { type Block, type Cell, table, text } from '../document/blocks'
import { fixedCell, lossCell } from '../document/cells'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

/** A return loss with the words of the screen; the full value stays behind them. */
function back(lossDb: number | null): Cell {
  return lossDb === null ? 'none' : { value: lossDb, text: returnLossText(lossDb).replace(' dB', '') }
}

function build({ choice }: SheetContext): readonly Block[] {
  if (choice === null) return []
  const { reflections, returnLossDb, coherentReturnLossDb, ripples } = choice.candidate.evaluation
  const rippled = ripples.filter(({ peakToPeakDb }) => peakToPeakDb >= LEAST_RIPPLE_DB)
  return [
    table(
      'Reflections, as return loss',
      [
        'Face',
        { label: 'Reflects', unit: '%' },
        { label: 'To the fibre side', unit: 'dB' },
        { label: 'To the chip side', unit: 'dB' },
        { label: 'At the fibre', unit: 'dB' },
        'Note',
      ],
      [
        ...reflections.map((face) => ({
          mark: `reflection-${face.elementId}-${face.face}-${face.label}`,
          cells: [
            face.label,
            { value: 100 * face.reflectance, text: String(Number((100 * face.reflectance).toPrecision(3))) },
            back(face.intoNearDb),
            back(face.intoFarDb),
            back(face.atFibreDb),
            face.note ?? '',
          ],
        })),
        {
          mark: 'return-loss',
          total: true,
          cells: ['Return loss, powers added', '', '', '', back(returnLossDb), ''],
        },
        {
          mark: 'return-loss-in-phase',
          total: true,
          cells: ['The least it can be, all faces in phase', '', '', '', back(coherentReturnLossDb), ''],
        },
      ],
    ),
    ...(rippled.length === 0
      ? [text('No two faces make a ripple that counts.')]
      : [
          table(
            'Ripple of the gaps, about the budget',
            [
              'Gap',
              { label: 'Peak to peak', unit: 'dB' },
              { label: 'Crest gains', unit: 'dB' },
              { label: 'Trough loses', unit: 'dB' },
              { label: 'A fringe of gap', unit: 'µm' },
              { label: 'A fringe of wavelength', unit: 'nm' },
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
