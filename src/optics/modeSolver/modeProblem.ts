// A cross-section on a plan of grids, as the operators of its grids and the mode of the coarsest.

import type { CrossSection } from './crossSection'
import { cutOffIndex } from './cutOff'
import { type Eigenmode, findMode } from './fundamental'
import type { GridAxes } from './interpolate'
import { type CellCounts, type GridPlan, gridOf, type ModeWindow } from './modeWindow'
import { slicesOf } from './slices'
import { WALLS, type WaveKind, waveOperator } from './waveOperator'

export interface ModeOptions {
  readonly kind: WaveKind
  readonly wavelengthUm: number
  /** About so many cells across the whole window. */
  readonly cells?: CellCounts
  /** Chosen by the solver where absent. */
  readonly window?: ModeWindow
}

export const k2Of = (wavelengthUm: number) => ((2 * Math.PI) / wavelengthUm) ** 2

export interface Problem {
  readonly section: CrossSection
  readonly options: ModeOptions
  readonly plan: GridPlan
}

export function operatorOn({ section, options, plan }: Problem, axes: GridAxes) {
  const borders = plan.mirrorUm === null ? WALLS : ({ ...WALLS, left: 'mirror' } as const)
  const slices = slicesOf(section, axes.y.faces)
  return waveOperator(options.kind, slices, axes.x, axes.y, options.wavelengthUm, borders)
}

/** The coarsest grid of a plan, solved from nothing; null where no mode is guided. */
export function coarseMode(
  problem: Problem,
): { readonly axes: GridAxes; readonly mode: Eigenmode; readonly cutOff: number } | null {
  const { section, options, plan } = problem
  const axes = gridOf(plan, 0)
  const k2 = k2Of(options.wavelengthUm)
  const cutOff = cutOffIndex(section, options.kind, axes.y, options.wavelengthUm)
  const densest = Math.max(...section.cores.map((core) => core.index), cutOff)
  const mode = findMode(operatorOn(problem, axes), k2 * cutOff ** 2, k2 * densest ** 2)
  return mode === null ? null : { axes, mode, cutOff }
}
