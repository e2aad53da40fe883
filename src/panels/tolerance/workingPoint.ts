// Moving the working point of a gap or relay along the axes of its map or curve: one edit, one undo step.

import type { Chart } from '../../figures/chart'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { setCoreValue } from '../../model/quantity/coreQuantity'
import { coreValue } from '../../model/quantity/quantity'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import type { GapElement } from '../../model/schema/candidate'
import type { GaussianJoint, MisalignmentAxis } from '../../optics/index'
import { editElement, findElement } from '../../store/elementEdits'
import { workbench } from '../../store/workbench'
import type { Movable } from '../../ui/figures/LiveChart'
import { type MovedAxis, relayChanges } from './relayMove'

const AXIS_FIELDS: Readonly<
  Record<
    MisalignmentAxis,
    { readonly field: 'offsetX' | 'offsetY' | 'gap' | 'tiltX' | 'tiltY' | 'roll'; readonly rule: RuleName }
  >
> = {
  offsetXUm: { field: 'offsetX', rule: 'offset' },
  offsetYUm: { field: 'offsetY', rule: 'offset' },
  gapUm: { field: 'gap', rule: 'gap' },
  tiltXRad: { field: 'tiltX', rule: 'tilt' },
  tiltYRad: { field: 'tiltY', rule: 'tilt' },
  rollRad: { field: 'roll', rule: 'roll' },
}
/** Digits that a click is written with: more than can be placed by eye. */
const DIGITS = 4

/** A press of an arrow key moves the working point by this part of the chart. */
const KEY_STEPS = 60

/** The value within the range that the field allows. */
function allowed(rule: RuleName, core: number): number {
  const { minCore, maxCore } = RULES[rule]
  return Math.min(maxCore, Math.max(minCore, core))
}

/** Moves a gap so that its joint has the given values; what the joint adds to the fields, such as pointing, stays. */
function moveGap(gap: GapElement, joint: GaussianJoint, moves: readonly MovedAxis[]): void {
  for (const [axis, toCore] of moves) {
    if (toCore === joint[axis]) continue
    const { field, rule } = AXIS_FIELDS[axis]
    const quantity = gap[field]
    setCoreValue(quantity, rule, allowed(rule, coreValue(quantity, rule) + toCore - joint[axis]), DIGITS)
  }
}

/** Moves the joint so that it has the given values: one edit, one undo step. */
function moveWorkingPoint(
  designId: string,
  elementId: string,
  joint: GaussianJoint,
  moves: readonly MovedAxis[],
): void {
  const { project } = workbench.getState()
  if (findElement(project, designId, elementId, 'gap') !== undefined) {
    editElement(designId, elementId, 'gap', (gap) => moveGap(gap, joint, moves))
    return
  }
  const changes = relayChanges(project, { designId, elementId }, moves)
  editElement(designId, elementId, 'relay', (relay) => {
    for (const { field, rule, core } of changes) {
      setCoreValue(relay[field], rule, allowed(rule, core), DIGITS)
    }
  })
}

/** What a screen needs to let a click or the keys move the working point on a chart of one or two axes. */
export function movableOn(
  chart: Chart,
  target: { readonly designId: string; readonly elementId: string; readonly joint: GaussianJoint },
  x: MisalignmentAxis,
  y: MisalignmentAxis | null,
): Movable {
  const { designId, elementId, joint } = target
  const step = (axis: { readonly from: number; readonly to: number } | undefined) =>
    Math.abs((axis?.to ?? 1) - (axis?.from ?? 0)) / KEY_STEPS
  const [perX, perY] = [AXIS_TEXT[x].perCore, y === null ? 1 : AXIS_TEXT[y].perCore]
  return {
    at: { x: joint[x] * perX, y: y === null ? 0 : joint[y] * perY },
    step: { x: step(chart.x), y: y === null ? 0 : step(chart.panes[0]?.y) },
    onMove: (to) =>
      moveWorkingPoint(designId, elementId, joint, [
        [x, to.x / perX],
        ...(y === null ? [] : [[y, to.y / perY] as const]),
      ]),
  }
}
