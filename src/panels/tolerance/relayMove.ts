// Which values of a relay give its joint the misalignment that a click asks for. What arrives at the far guide follows the
// pose of the near guide and the last gap linearly, so one step with the measured slopes is exact.

import { compileCandidate } from '../../analysis/path/compileCandidate'
import { seenJoint } from '../../analysis/tolerance/viewWindows'
import { setCoreValue } from '../../model/quantity/coreQuantity'
import { coreValue } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Project } from '../../model/schema/project'
import type { GaussianJoint, MisalignmentAxis } from '../../optics/index'
import { findElement } from '../../store/elementEdits'

export type MovedAxis = readonly [axis: MisalignmentAxis, toCore: number]

type RelayField = 'offsetX' | 'offsetY' | 'backGap' | 'tiltX' | 'tiltY' | 'roll'

/** The value of the relay that moves each axis of its joint, and a step to measure the slope with. */
const AXIS_FIELDS: Readonly<
  Record<MisalignmentAxis, { readonly field: RelayField; readonly rule: RuleName; readonly step: number }>
> = {
  offsetXUm: { field: 'offsetX', rule: 'offset', step: 0.01 },
  offsetYUm: { field: 'offsetY', rule: 'offset', step: 0.01 },
  gapUm: { field: 'backGap', rule: 'gap', step: 0.01 },
  tiltXRad: { field: 'tiltX', rule: 'tilt', step: 1e-4 },
  tiltYRad: { field: 'tiltY', rule: 'tilt', step: 1e-4 },
  rollRad: { field: 'roll', rule: 'roll', step: 1e-3 },
}
const FINE_DIGITS = 14
/** Below this the two axes move together and no value sets them apart. */
const SINGULAR = 1e-9

interface RelayChange {
  readonly field: RelayField
  readonly rule: RuleName
  /** The new value in the core's unit. */
  readonly core: number
}

interface MoveTarget {
  readonly designId: string
  readonly elementId: string
}

/** The joint as the map of these axes shows it. */
function jointOf(
  project: Project,
  { designId, elementId }: MoveTarget,
  axes: readonly MisalignmentAxis[],
): GaussianJoint | null {
  const result = compileCandidate(project, designId)
  if (!result.ok) return null
  const { joins, nominal } = result.value
  const views = joins.flatMap((join) => join.view?.(nominal) ?? [])
  const view = views.find((each) => each.elementId === elementId)
  return view === undefined ? null : seenJoint(view, ...axes)
}

/** The changes of one or two values; none where the axes cannot be moved. */
export function relayChanges(
  project: Project,
  target: MoveTarget,
  moves: readonly MovedAxis[],
): readonly RelayChange[] {
  const axes = moves.map(([axis]) => axis)
  const here = jointOf(project, target, axes)
  const relay = findElement(project, target.designId, target.elementId, 'relay')
  if (here === null || relay === undefined) return []
  /** Slopes of all axes against the value that moves the given one. */
  const slopesOf = (moved: MisalignmentAxis): readonly number[] => {
    const { field, rule, step } = AXIS_FIELDS[moved]
    const trial = structuredClone(project)
    const own = findElement(trial, target.designId, target.elementId, 'relay')
    if (own !== undefined) setCoreValue(own[field], rule, coreValue(own[field], rule) + step, FINE_DIGITS)
    const there = jointOf(trial, target, axes)
    return axes.map((axis) => (there === null ? 0 : (there[axis] - here[axis]) / step))
  }
  const wanted = moves.map(([axis, toCore]) => toCore - here[axis])
  const [a = [0, 0], b = [0, 1]] = axes.map(slopesOf)
  const [[aa = 0, ab = 0], [ba = 0, bb = 1]] = [a, b]
  const [first = 0, second = 0] = wanted
  const det = axes.length < 2 ? aa : aa * bb - ba * ab
  const scale = axes.length < 2 ? Math.abs(aa) : Math.abs(aa * bb) + Math.abs(ba * ab)
  if (Math.abs(det) <= SINGULAR * Math.max(1, scale)) return []
  const by =
    axes.length < 2 ? [first / aa] : [(first * bb - second * ba) / det, (second * aa - first * ab) / det]
  return axes.map((axis, i) => {
    const { field, rule } = AXIS_FIELDS[axis]
    return { field, rule, core: coreValue(relay[field], rule) + (by[i] ?? 0) }
  })
}
