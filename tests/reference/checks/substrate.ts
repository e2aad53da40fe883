// Facet modes above a silicon substrate against full-vector solutions with an absorbing border.

import {
  FIRST_TIPS,
  MORE_TIPS,
  type SubstrateTip,
  solvedTip,
  tipText,
} from '../../optics/modeSolver/substrateTips'
import type { CheckRow } from '../checkRow'
import { SCIPY } from '../sources'

const border = (data: string) =>
  `full-vector finite differences with an absorbing border in the substrate by ${SCIPY}, tests/reference/data/${data}`

function rowsOf(
  tip: SubstrateTip & { readonly leakageDbPerMm: number },
  losses: readonly (readonly [mfdUm: number, expectedDb: number])[],
  source: string,
): readonly CheckRow[] {
  const id = `substrate-${tip.kind}-${tip.coreIndex}-${tip.widthUm}x${tip.heightUm}-${tip.wavelengthUm}-${tip.buriedOxideUm}-${tip.topUm}`
  const input = tipText(tip)
  return [
    ...losses.map(
      ([mfdUm, expected]): CheckRow => ({
        id: `${id}-to-${mfdUm}`,
        quantity: `loss of a facet mode above silicon to a round mode of ${mfdUm} um`,
        source,
        input,
        expected,
        unit: 'dB',
        tolerance: 0.05,
        ours: () => solvedTip(tip).lossToDb(mfdUm),
      }),
    ),
    {
      id: `${id}-leakage`,
      quantity: 'leakage of a facet mode into the silicon below',
      source,
      input,
      expected: tip.leakageDbPerMm,
      unit: 'dB/mm',
      tolerance: Number((0.06 * tip.leakageDbPerMm).toPrecision(2)),
      ours: () => solvedTip(tip).leakageDbPerMm,
    },
  ]
}

export const substrateChecks: readonly CheckRow[] = [
  ...FIRST_TIPS.flatMap((tip) => {
    const [near = Number.NaN, far = Number.NaN] = tip.withSubstrateDb
    const losses = [
      [3.2, near],
      [10.4, far],
    ] as const
    return rowsOf(tip, losses, border('substrate-tips.json'))
  }),
  ...MORE_TIPS.flatMap((tip) => rowsOf(tip, [[3.2, tip.lossDb]], border('recipes/substrate_modes.py'))),
]
