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

type Tip = SubstrateTip & { readonly leakageDbPerMm: number }

/** To a round mode, by E alone or as the program couples. */
interface Loss {
  readonly mfdUm: number
  readonly by: 'E' | 'E and H'
  readonly expectedDb: number
  readonly toleranceDb: number
}

/** Leakage by the leading field alone is 16 % off for silicon. */
function rowsOf(
  tip: Tip,
  losses: readonly Loss[],
  leakageShare: number,
  source: string,
): readonly CheckRow[] {
  const id = `substrate-${tip.kind}-${tip.coreIndex}-${tip.widthUm}x${tip.heightUm}-${tip.wavelengthUm}-${tip.buriedOxideUm}-${tip.topUm}`
  const input = tipText(tip)
  return [
    ...losses.map(
      ({ mfdUm, by, expectedDb, toleranceDb }): CheckRow => ({
        id: `${id}-to-${mfdUm}${by === 'E' ? '' : '-vector'}`,
        quantity: `loss of a facet mode above silicon to a round mode of ${mfdUm} um, by ${by}`,
        source,
        input,
        expected: expectedDb,
        unit: 'dB',
        tolerance: toleranceDb,
        ours: () => (by === 'E' ? solvedTip(tip).lossToDb(mfdUm) : solvedTip(tip).vectorLossToDb(mfdUm)),
      }),
    ),
    {
      id: `${id}-leakage`,
      quantity: 'leakage of a facet mode into the silicon below',
      source,
      input,
      expected: tip.leakageDbPerMm,
      unit: 'dB/mm',
      tolerance: Number((leakageShare * tip.leakageDbPerMm).toPrecision(2)),
      ours: () => solvedTip(tip).leakageDbPerMm,
    },
  ]
}

export const substrateChecks: readonly CheckRow[] = [
  ...FIRST_TIPS.flatMap((tip) => {
    const [near = Number.NaN, far = Number.NaN] = tip.withSubstrateDb
    const losses: readonly Loss[] = [
      { mfdUm: 3.2, by: 'E', expectedDb: near, toleranceDb: 0.05 },
      { mfdUm: 10.4, by: 'E', expectedDb: far, toleranceDb: 0.05 },
    ]
    return rowsOf(tip, losses, 0.06, border('substrate-tips.json'))
  }),
  // A wall at the substrate's surface is 0.06 dB off for the quasi-TM nitride guide.
  ...MORE_TIPS.flatMap((tip) => {
    const losses: readonly Loss[] = [
      { mfdUm: 3.2, by: 'E', expectedDb: tip.lossDb, toleranceDb: 0.03 },
      { mfdUm: 3.2, by: 'E and H', expectedDb: tip.vectorLossDb, toleranceDb: 0.04 },
    ]
    return rowsOf(tip, losses, 0.05, border('recipes/substrate_modes.py'))
  }),
]
