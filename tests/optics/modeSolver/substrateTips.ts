// Facet modes above a silicon substrate, whose truth full-vector finite differences with an absorbing border in the substrate give
// (tests/reference/data: recipes/substrate_modes.py; recipes/substrate_te.py is another such code).

import {
  type CrossSection,
  fibreOverlap,
  lossDb,
  modeWidths,
  solveMode,
  substrateLeakage,
} from '../../../src/optics/index'
import more from '../../reference/data/more-substrate-tips.json'
import first from '../../reference/data/substrate-tips.json'

export interface SubstrateTip {
  readonly kind: 'TE' | 'TM'
  readonly coreIndex: number
  readonly widthUm: number
  readonly heightUm: number
  readonly buriedOxideUm: number
  /** Of the oxide, above the bottom of the core. */
  readonly topUm: number
  readonly wavelengthUm: number
  readonly oxideIndex: number
  /** Of what lies between the bottom of the core and the air, where it is another than the oxide. */
  readonly topIndex?: number | undefined
  readonly substrateIndex: number
}

const [SILICON, NITRIDE, OXIDE] = [3.4757, 1.996, 1.444]

/** Quasi-TE at 1.55 µm, with the losses to 3.2 and 10.4 µm, and without the substrate. */
export const FIRST_TIPS = first.tips.map((tip) => ({
  ...tip,
  kind: 'TE' as const,
  coreIndex: tip.core === 'silicon' ? SILICON : NITRIDE,
  topUm: tip.coverTopUm,
  wavelengthUm: 1.55,
  oxideIndex: OXIDE,
  substrateIndex: SILICON,
}))

/** With the loss to 3.2 µm, by E alone and by E and H. */
export const MORE_TIPS = more.tips.map((tip) => ({ ...tip, kind: tip.kind === 'TE' ? 'TE' : 'TM' }) as const)

export const tipText = ({
  kind,
  coreIndex,
  widthUm,
  heightUm,
  buriedOxideUm,
  topUm,
  topIndex,
  wavelengthUm,
}: SubstrateTip) =>
  `core of index ${coreIndex}, ${widthUm} x ${heightUm} um, quasi-${kind}, ${buriedOxideUm} um of oxide below, ${topUm} um${topIndex === undefined ? '' : ` of index ${topIndex}`} up to air, ${wavelengthUm} um`

function sectionOf(tip: SubstrateTip): CrossSection {
  return {
    substrateIndex: tip.substrateIndex,
    layers: [
      { thicknessUm: tip.buriedOxideUm, index: tip.oxideIndex },
      ...(tip.topUm > 0 ? [{ thicknessUm: tip.topUm, index: tip.topIndex ?? tip.oxideIndex }] : []),
    ],
    coverIndex: 1,
    cores: [
      {
        shape: 'trapezoid',
        xUm: 0,
        bottomUm: tip.buriedOxideUm,
        widthUm: tip.widthUm,
        heightUm: tip.heightUm,
        sidewallRad: Math.PI / 2,
        index: tip.coreIndex,
      },
    ],
  }
}

const known = new Map<SubstrateTip, ReturnType<typeof solve>>()

/** The mode, its losses to round Gaussians and its leakage, dB/mm; solved once for all test files of a worker. */
export function solvedTip(tip: SubstrateTip) {
  const solved = known.get(tip) ?? solve(tip)
  known.set(tip, solved)
  return solved
}

function solve(tip: SubstrateTip) {
  const mode = solveMode(sectionOf(tip), { kind: tip.kind, wavelengthUm: tip.wavelengthUm })
  const widths = modeWidths(mode)
  const overlap = (mfdUm: number) =>
    fibreOverlap(mode, widths, { kind: 'gaussian', mfdXUm: mfdUm, mfdYUm: mfdUm })
  return {
    mode,
    /** By E alone. */
    lossToDb: (mfdUm: number) => lossDb(overlap(mfdUm).electricEfficiency),
    /** By E and H, as the program couples. */
    vectorLossToDb: (mfdUm: number) => lossDb(overlap(mfdUm).efficiency),
    leakageDbPerMm: substrateLeakage(mode)?.dbPerMm ?? Number.NaN,
  }
}
