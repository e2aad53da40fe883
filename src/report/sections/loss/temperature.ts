// What the required temperature range does to the loss.

import { REACH_LOOKED_AT_C } from '../../../analysis/temperature/temperatureReach'
import { temperatureSweep } from '../../../analysis/temperature/temperatureSweep'
import { temperatureFigure } from '../../../figures/loss/temperature'
import { chipJoint, ofJoint } from '../../../model/designs/jointNames'
import { leadingLimit } from '../../../model/project/lossCriteria'
import { withMinus } from '../../../numerics/numberText'
import type { SheetCandidate } from '../../candidates'
import { type Block, type Cell, group, table, text } from '../../document/blocks'
import { fixedCell, lossCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const SWEEP_SIZE = { widthPx: 420, heightPx: 210 }

/** One end of the range within which the nominal loss meets the limit, in whole °C; `none` where it is met nowhere. */
export function reachEnd(valueC: number | undefined): Cell {
  const [least, most] = REACH_LOOKED_AT_C
  if (valueC === undefined) return 'none'
  if (valueC === least) return `below ${withMinus(String(least))}`
  return valueC === most ? `above ${most}` : fixedCell(valueC, 0)
}

/** Both ends of the range within which the nominal loss meets the limit. */
function reachTable({ evaluation: { temperature } }: SheetCandidate): readonly Block[] {
  if (temperature === null) return []
  const { reachC, worstC, worstDb } = temperature
  return [
    table(
      'Nominal loss over temperature',
      ['Quantity', 'Value', 'Unit'],
      [
        ['Maximum', lossCell(worstDb), 'dB'],
        ['Temperature of the maximum', fixedCell(worstC, 0), '°C'],
        { mark: 'reach-from', cells: ['Within the limit from', reachEnd(reachC?.[0]), '°C'] },
        { mark: 'reach-to', cells: ['Within the limit to', reachEnd(reachC?.[1]), '°C'] },
      ],
    ),
  ]
}

function build({ project, choice, withModes }: SheetContext): readonly Block[] {
  if (choice === null) return []
  if (choice.candidate.candidate.mount === undefined) {
    return [text('No mount defined; temperature not evaluated.')]
  }
  const result = temperatureSweep(withModes(project), choice.candidate.id)
  if (!result.ok) return []
  const sweep = result.value
  return [
    text(
      withMinus(
        `Nominal loss ${lossCell(sweep.atAssemblyDb).text} dB at the assembly temperature of ${sweep.assemblyC} °C; maximum over the range ${lossCell(sweep.worstDb).text} dB.`,
      ),
    ),
    group(
      'beside',
      figureBlock(temperatureFigure(sweep, leadingLimit(project.requirements)), SWEEP_SIZE),
      group(
        'stack',
        ...reachTable(choice.candidate),
        table(
          ofJoint(
            'Displacement of the fibre side relative to the chip since assembly',
            chipJoint(choice.candidate.candidate.chain),
          ),
          [
            { label: 'Temperature', unit: '°C' },
            { label: 'x', unit: 'µm' },
            { label: 'y', unit: 'µm' },
            { label: 'Gap change', unit: 'µm' },
          ],
          sweep.movements.map((each) => [
            fixedCell(each.temperatureC, 0),
            fixedCell(each.xUm, 3),
            fixedCell(each.yUm, 3),
            fixedCell(each.zUm, 3),
          ]),
        ),
      ),
    ),
  ]
}

export const temperatureSection: SectionSpec = { id: 'temperature', title: 'Temperature', build }
