// What the totals assume, and how far the model holds for the chosen candidate.

import { type Block, group, list, title } from '../document/blocks'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

/** What each total assumes; printed on every sheet. */
const TOTAL_ASSUMPTIONS = [
  'Nominal: all quantities at their nominal values; exact paraxial overlap of Gaussian modes; sampled fields and real lens surfaces are used where the budget has lines for them.',
  'RSS (root sum square): excess losses of the individual tolerances, each at its worse limit, added in quadrature; assumes independent causes.',
  'Worst case: all tolerances at their limits at once, with the signs chosen by search; improbable, but possible.',
  'Worst temperature: the same totals at the worst temperature of the required range, with linear expansion of the mount and dn/dT of the indices.',
  'Percentiles and yield: assemblies simulated from the tolerances; the assumptions, seed and sample count of each run are given with it.',
  'Return loss: incoherent sum over all faces, and coherent worst case; scattering at the faces and Rayleigh backscatter in the waveguides are neglected.',
  'Ripple: round trips between the two faces of each gap; not in the other totals.',
] as const

function build({ choice }: SheetContext): readonly Block[] {
  const notes = choice?.candidate.evaluation.validity ?? []
  return [
    group('columns', list(TOTAL_ASSUMPTIONS)),
    ...(notes.length === 0
      ? []
      : [title('Validity of the model'), list(notes.map(({ message }) => message))]),
  ]
}

export const assumptionsSection: SectionSpec = {
  id: 'assumptions',
  title: 'Assumptions and validity',
  build,
}
