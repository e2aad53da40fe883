// Alignment tolerance of the joint at the chip on each axis, next to the accuracy of the alignment station.

import { CHIP_AXES, type ChipAxis, viewChipMark } from '../../analysis/compare/chipWindows'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { heldTo } from '../../model/designs/stationAccuracy'
import type { Project } from '../../model/schema/project'
import type { SheetCandidate } from '../candidates'

export interface WindowFigure {
  readonly axis: ChipAxis
  readonly label: string
  readonly unit: string
  /** Displacements to either side of the working point that cost 1 dB, in `unit`; null where the axis never costs that. */
  readonly negative: number | null
  readonly positive: number | null
  /** Half width that the station holds the axis to when placing, in `unit`. */
  readonly station: number
  readonly withinStation: boolean
  /** Whether fields or real lenses, by which it will be stated, are still being computed. */
  readonly isProvisional: boolean
}

const HELD = {
  offsetXUm: 'lateral',
  offsetYUm: 'lateral',
  gapUm: 'axial',
  tiltXRad: 'angular',
  tiltYRad: 'angular',
} as const satisfies Readonly<Record<ChipAxis, string>>

/** Offsets and tilts about the facet, as in Compare; empty where the path ends in no free-space joint. */
export function windowFigures(
  { requirements }: Project,
  { evaluation }: SheetCandidate,
): readonly WindowFigure[] {
  const view = evaluation.joints.at(-1)
  if (view === undefined) return []
  return CHIP_AXES.map((axis) => {
    const { name, unit, perCore } = AXIS_TEXT[axis]
    const { below, above, isProvisional } = viewChipMark(view, axis)
    const station = heldTo(requirements, HELD[axis], 'passive') * perCore
    const nearest = Math.min(below ?? Number.POSITIVE_INFINITY, above ?? Number.POSITIVE_INFINITY) * perCore
    return {
      axis,
      label: name,
      unit,
      negative: below === null ? null : -below * perCore,
      positive: above === null ? null : above * perCore,
      station,
      withinStation: station <= nearest,
      isProvisional,
    }
  })
}
