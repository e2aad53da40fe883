// Loss over the band, and the two polarisations.

import { spectrum } from '../../../analysis/light/spectrum'
import { spectrumFigure } from '../../../figures/light/spectrum'
import { leadingLimit } from '../../../model/project/lossCriteria'
import { type Block, group, list, type TableBlock, table, text } from '../../document/blocks'
import { fixedCell, lossCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const BAND_SIZE = { widthPx: 420, heightPx: 210 }

function bandBlocks(
  { project, choice, withModes }: SheetContext,
  polarisation: TableBlock,
): readonly Block[] {
  if (choice === null) return []
  const result = spectrum(withModes(project), choice.candidate.id)
  if (!result.ok) return [text(result.issues.map(({ message }) => message).join('; ')), polarisation]
  const found = result.value
  return [
    group(
      'beside',
      figureBlock(spectrumFigure(found, leadingLimit(project.requirements), false), BAND_SIZE),
      group(
        'stack',
        table(
          'Over the band',
          ['Quantity', { label: 'Loss', unit: 'dB' }, { label: 'Wavelength', unit: 'nm' }],
          [
            ['At the design wavelength', lossCell(found.designDb), fixedCell(1000 * found.designUm, 1)],
            ['Minimum, single pass', lossCell(found.leastDb), fixedCell(1000 * found.leastUm, 1)],
            {
              mark: 'band-worst',
              cells: ['Maximum, single pass', lossCell(found.worstDb), fixedCell(1000 * found.worstUm, 1)],
            },
          ],
        ),
        polarisation,
      ),
    ),
    ...(found.notes.length === 0 ? [] : [group('columns', list(found.notes))]),
  ]
}

function build(context: SheetContext): readonly Block[] {
  const { choice } = context
  if (choice === null) return []
  const { teDb, tmDb, dependentLossDb } = choice.candidate.evaluation.polarisation
  return bandBlocks(
    context,
    table(
      'Polarisation',
      ['Polarisation', { label: 'Loss', unit: 'dB' }],
      [
        ['TE', lossCell(teDb)],
        ['TM', lossCell(tmDb)],
        ['Polarisation-dependent loss', lossCell(dependentLossDb)],
      ],
    ),
  )
}

export const spectrumSection: SectionSpec = { id: 'spectrum', title: 'Spectrum and polarisation', build }
