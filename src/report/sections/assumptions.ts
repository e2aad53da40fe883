// What the totals assume, and how far the model holds for the chosen candidate.

import { type Block, list, title } from '../document/blocks'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

/** What each total assumes; stands on every sheet. */
export const TOTAL_ASSUMPTIONS = [
  'Nominal: every quantity at its nominal value; the exact paraxial overlap of two Gaussian modes.',
  'Root sum square: each quantity alone at the worse end of its tolerance, independent of the others, added as squares.',
  'Worst corner: all tolerances used up together, signs searched; unlikely, but not excluded.',
  'Worst temperature: the same totals at the worst of the required range, the mount expanding linearly and indices following their temperature slopes.',
  'Percentiles and yield: assemblies drawn from the tolerances; what each run assumes stands with it, with its seed and sample count.',
  'Return loss: powers of all faces added, seen from the fibre, and the least with all in phase; scatter and core backscatter neglected.',
  'Ripple: the round trips between the two faces of each gap; not in the other totals.',
] as const

function build({ choice }: SheetContext): readonly Block[] {
  const notes = choice?.candidate.evaluation.validity ?? []
  return [
    list(TOTAL_ASSUMPTIONS),
    ...(notes.length === 0
      ? []
      : [title('How far the model holds'), list(notes.map(({ message }) => message))]),
  ]
}

export const assumptionsSection: SectionSpec = {
  id: 'assumptions',
  title: 'Assumptions and validity',
  build,
}
