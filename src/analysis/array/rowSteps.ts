// What the station does at a joint of an array, step by step in the stated order: each step aligns one row, that of the guides on the
// fibre side or one of the lenses of a relay.

import { alignedAxes, alignOrder } from '../../model/designs/alignOrder'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import type { RelayMember } from '../../model/words/candidate'
import type { JoinModel, PoseForm } from '../path/vector/elementModels'
import type { Values } from '../path/vector/valueReaders'
import type { BlockFreedom } from './blockChannel'
import { gapMiddle, type MiddlePose, type PoseSlots, relayMiddle } from './middlePose'

export interface RowStep {
  /** A lens of a relay, or the guides on the fibre side. */
  readonly member: RelayMember
  /** Across the light, and in roll: to the optimum of the strategy over all channels. */
  readonly free: BlockFreedom
  /** Finds the axial place and tilts for the middle of the row; null where the station leaves them as placed. */
  readonly middle: MiddlePose | null
  /** Places of the residuals: across the light and in roll, which the search does not see, and of what the middle is aligned in. */
  readonly residuals: { readonly across: readonly number[]; readonly middle: readonly number[] }
  /** Loss of a channel as a quadratic form of the row's displacement. */
  readonly form: (v: Values) => PoseForm | undefined
  /** Where the move of a row of lenses is written; null for the guides, which move as displaced channels. */
  readonly offsets: { readonly x: number; readonly y: number } | null
}

/** The slot of a field of the element, or of one of its lenses, in the vector of values. */
export type SlotOf = (...keys: readonly string[]) => number

const anyOf = (axes: ReadonlySet<string>, names: readonly string[]) => names.some((name) => axes.has(name))

/** Whether the step moves the row across the light, or turns it. */
export const movesAcross = ({ free }: RowStep): boolean => free.x || free.y || free.roll

export function gapSteps(
  element: GapElement,
  model: JoinModel,
  pose: PoseSlots,
  slotOf: SlotOf,
  wavelengthUm: number,
): readonly RowStep[] {
  const aligned = new Set(element.aligned ?? [])
  const free = { x: aligned.has('offsetX'), y: aligned.has('offsetY'), roll: aligned.has('roll') }
  return aligned.size === 0
    ? []
    : [
        {
          member: 'guide',
          free,
          middle: anyOf(aligned, ['gap', 'tiltX', 'tiltY'])
            ? gapMiddle(model, pose, aligned, wavelengthUm)
            : null,
          residuals: residualSlots(aligned, slotOf),
          form: (v) => model.poseForm?.(v),
          offsets: null,
        },
      ]
}

/** In the order in which the relay is aligned. */
export function relaySteps(element: RelayElement, model: JoinModel, slotOf: SlotOf): readonly RowStep[] {
  return alignOrder(element).flatMap((member): readonly RowStep[] => {
    const aligned = alignedAxes(element, member)
    if (aligned.size === 0) return []
    const own = (axis: string) => (member === 'guide' ? slotOf(axis) : slotOf(member, axis))
    const free = { x: aligned.has('offsetX'), y: aligned.has('offsetY'), roll: aligned.has('roll') }
    return [
      {
        member,
        free,
        middle: anyOf(aligned, ['offsetZ', 'tiltX', 'tiltY'])
          ? relayMiddle(
              model,
              member,
              { axial: own('offsetZ'), tiltX: own('tiltX'), tiltY: own('tiltY') },
              aligned,
            )
          : null,
        residuals: residualSlots(aligned, own),
        form: (v) => model.poseForm?.(v, member),
        offsets: member === 'guide' ? null : { x: own('offsetX'), y: own('offsetY') },
      },
    ]
  })
}

const ACROSS = ['offsetX', 'offsetY', 'roll']

function residualSlots(aligned: ReadonlySet<string>, slotOf: SlotOf): RowStep['residuals'] {
  const slots = (across: boolean) =>
    [...aligned].filter((axis) => ACROSS.includes(axis) === across).map((axis) => slotOf(axis))
  return { across: slots(true), middle: slots(false) }
}
