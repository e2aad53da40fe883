// What has changed since an earlier state, and what each change did to loss and yield, alone and together.

import { changeEffects, EFFECT_SAMPLES, type State } from '../../analysis/revisions/effects'
import { type Block, type Cell, table, text } from '../document/blocks'
import { fixedCell, percentCell } from '../document/cells'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

const NONE = 'not computable'

/** A page solves the cross-sections of the state at hand only; the command solves those of all states. */
const AWAITS =
  'In some of these revisions a Gaussian is used instead of the mode of a cross-section that is not solved here, so their losses are not comparable with the others. The sheet command solves the cross-sections of all revisions.'

const difference = (now: number | null, before: number | null, digits: number, factor = 1): Cell =>
  now === null || before === null ? NONE : fixedCell(factor * (now - before), digits)

function totals(name: string, { lossDb, yield: share }: State): readonly Cell[] {
  return [name, lossDb === null ? NONE : fixedCell(lossDb, 3), share === null ? NONE : percentCell(share, 2)]
}

function build({ project, choice, before, withModes }: SheetContext): readonly Block[] {
  if (before === null || choice === null) return []
  const { id, name } = choice.candidate
  const found = changeEffects(before.project, project, id, withModes)
  const states = [found.before, found.after, ...found.effects.map(({ alone }) => alone)]
  if (found.effects.length === 0) return [text(`No input differs from ${before.name}.`)]
  return [
    table(
      `${name}: inputs changed since ${before.name}`,
      [
        'Input',
        'Before',
        'Now',
        { label: 'Loss, this change alone', unit: 'dB' },
        { label: 'Yield, this change alone', unit: '%' },
      ],
      [
        ...found.effects.map(({ change, alone }) => [
          change.label,
          change.before,
          change.after,
          difference(alone.lossDb, found.before.lossDb, 3),
          difference(alone.yield, found.before.yield, 2, 100),
        ]),
        {
          total: true,
          mark: 'changes-together',
          cells: [
            'All changes together',
            '',
            '',
            difference(found.after.lossDb, found.before.lossDb, 3),
            difference(found.after.yield, found.before.yield, 2, 100),
          ],
        },
      ],
    ),
    table(
      'Before and after',
      ['Revision', { label: 'Nominal loss', unit: 'dB' }, { label: 'Yield', unit: '%' }],
      [totals(before.name, found.before), totals('now', found.after)],
    ),
    ...(states.some((state) => state.awaitsMode) ? [text(AWAITS)] : []),
    text(
      `Yields from ${EFFECT_SAMPLES} assemblies each on the same Sobol points, seed ${project.seed}. Effects of single changes need not add up.`,
    ),
  ]
}

export const changesSection: SectionSpec = {
  id: 'changes',
  title: 'Changes since an earlier revision',
  build,
}
