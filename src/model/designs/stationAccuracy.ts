// What the alignment station holds an axis to: the default tolerance of every axis of a joint or a lens, by its kind and by
// whether it is placed or aligned on power. A row of channels turns about its middle, so the station sets both its ends.

import { coreValue, type Quantity } from '../quantity/quantity'
import type { RuleName } from '../quantity/quantityRules'
import type { Requirements } from '../schema/requirements'
import type { AxisSetting } from '../words/candidate'

export const AXIS_KINDS = ['lateral', 'axial', 'angular', 'roll'] as const
export type AxisKind = (typeof AXIS_KINDS)[number]

/** `yaw` is the tilt along the row of an array, which opens the gap from channel to channel. */
export type HeldAxis = AxisKind | 'yaw'

export const accuracyRule = (kind: AxisKind): RuleName =>
  kind === 'lateral' || kind === 'axial' ? 'lateralAccuracy' : 'angularAccuracy'

/** The accuracy that is stated for a kind of axis: that of placing where nothing is stated for alignment on power. */
export function statedAccuracy(
  { station }: Pick<Requirements, 'station'>,
  kind: AxisKind,
  setting: AxisSetting,
): Quantity | undefined {
  return (setting === 'active' ? station.active?.[kind] : undefined) ?? station[kind]
}

/** Half the length of the row of channels, um; 0 for one channel. */
function halfRowUm({ channels, pitch }: Pick<Requirements, 'channels' | 'pitch'>): number {
  return ((channels - 1) * coreValue(pitch, 'pitch')) / 2
}

/**
 * Half width that the station holds an axis to, um or rad. Roll and yaw of an array are those that its outer channels leave
 * when each is set as well as the station sets one: roll by the lateral, yaw by the axial accuracy over half the row, and
 * never wider than what is stated for angles (common practice, no source). A stated roll is used as it is.
 */
export function heldTo(requirements: Requirements, axis: HeldAxis, setting: AxisSetting): number {
  const accuracy = (kind: AxisKind) => {
    const stated = statedAccuracy(requirements, kind, setting)
    return stated === undefined ? null : coreValue(stated, accuracyRule(kind))
  }
  const angular = accuracy('angular') ?? 0
  if (axis === 'lateral' || axis === 'axial') return accuracy(axis) ?? 0
  if (axis === 'angular') return angular
  const stated = axis === 'roll' ? accuracy('roll') : null
  if (stated !== null) return stated
  const armUm = halfRowUm(requirements)
  if (armUm === 0) return angular
  return Math.min(angular, Math.atan((accuracy(axis === 'roll' ? 'lateral' : 'axial') ?? 0) / armUm))
}
