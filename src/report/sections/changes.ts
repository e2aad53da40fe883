// What has changed since an earlier state, and what each change did to loss and yield, alone and together.

import { changeEffects, EFFECT_SAMPLES, type State } from '../../analysis/revisions/effects'
import { leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import { countText, fixedText } from '../../numerics/numberText'
import { type Block, type Cell, type TableColumn, table, text } from '../document/blocks'
import { fixedCell } from '../document/cells'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

const NONE = 'not computable'

/** A page solves the cross-sections of the state at hand only; the command solves those of all states. */
const AWAITS =
  'In some of these revisions a Gaussian is used instead of the mode of a cross-section that is not solved here, so their losses are not comparable with the others. The sheet command solves the cross-sections of all revisions.'

/** A page sums no fields for thousands of assemblies; the command does. */
const missesText = (missesDb: number) =>
  `Percentiles and yields of these revisions use a fit to the fields of a joint, which is off by up to ${fixedText(missesDb, 3)} dB. The sheet command computes them directly from the fields.`

const difference = (now: number | null, before: number | null, digits: number, factor = 1): Cell =>
  now === null || before === null ? NONE : fixedCell(factor * (now - before), digits)

/** What is compared, in the order of the columns; losses in dB, the yield in points. */
const EFFECTS: readonly {
  readonly label: string
  readonly unit: string
  readonly digits: number
  readonly factor: number
  readonly of: (state: State) => number | null
}[] = [
  { label: 'Nominal', unit: 'dB', digits: 3, factor: 1, of: ({ lossDb }) => lossDb },
  { label: 'RSS', unit: 'dB', digits: 3, factor: 1, of: ({ rootSumSquareDb }) => rootSumSquareDb },
  { label: 'Worst case', unit: 'dB', digits: 3, factor: 1, of: ({ worstCaseDb }) => worstCaseDb },
  { label: 'Percentile', unit: 'dB', digits: 3, factor: 1, of: ({ percentileDb }) => percentileDb },
  { label: 'Yield', unit: '%', digits: 2, factor: 100, of: (state) => state.yield },
]

const columns = (percentile: string): readonly TableColumn[] =>
  EFFECTS.map(({ label, unit }) => ({ label: label === 'Percentile' ? percentile : label, unit }))

const differences = (now: State, before: State): readonly Cell[] =>
  EFFECTS.map(({ of, digits, factor }) => difference(of(now), of(before), digits, factor))

const totals = (name: string, state: State): readonly Cell[] => [
  name,
  ...EFFECTS.map(({ of, digits, factor }): Cell => {
    const value = of(state)
    return value === null ? NONE : fixedCell(factor * value, digits)
  }),
]

function build({ project, choice, before, withModes }: SheetContext): readonly Block[] {
  if (before === null || choice === null) return []
  const { id, name } = choice.candidate
  const found = changeEffects(before.project, project, id, withModes)
  const states = [found.before, found.after, ...found.effects.map(({ alone }) => alone)]
  if (found.effects.length === 0) return [text(`No input differs from ${before.name}.`)]
  const missesDb = Math.max(0, ...states.map((state) => state.fitMissesDb ?? 0))
  const percentile = percentileName(leadingLoss(project.requirements).percentile)
  return [
    table(
      `${name}: inputs changed since ${before.name}, with the effect of each alone (effects are not additive)`,
      ['Input', 'Before', 'Now', ...columns(percentile)],
      [
        ...found.effects.map(({ change, alone }) => [
          change.label,
          change.before,
          change.after,
          ...differences(alone, found.before),
        ]),
        {
          total: true,
          mark: 'changes-together',
          cells: ['All changes together', '', '', ...differences(found.after, found.before)],
        },
      ],
    ),
    table(
      'Before and after',
      ['Revision', ...columns(percentile)],
      [totals(before.name, found.before), totals('now', found.after)],
    ),
    ...(states.some((state) => state.awaitsMode) ? [text(AWAITS)] : []),
    ...(missesDb > 0 ? [text(missesText(missesDb))] : []),
    text(
      `Percentiles and yields from ${countText(EFFECT_SAMPLES)} assemblies each on the same Sobol points, seed ${project.seed}; one channel.`,
    ),
  ]
}

export const changesSection: SectionSpec = {
  id: 'changes',
  title: 'Changes since an earlier revision',
  build,
}
