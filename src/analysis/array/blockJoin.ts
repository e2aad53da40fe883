// A join at which two rows of channels face each other: the fibres and a chip, or the ends of a taper chip and what they
// face. Where each quantity is in the vector of values, and what the station moves there.

import type { CompiledCandidate } from '../path/compileCandidate'
import type { JoinModel } from '../path/vector/elementModels'
import type { ChannelSlots, RowSlots } from '../path/vector/operatingSlots'
import type { PoseSlots } from './middlePose'
import { gapSteps, movesAcross, type RowStep, relaySteps, type SlotOf } from './rowSteps'

export interface BlockJoin {
  readonly elementId: string
  readonly model: JoinModel
  readonly pose: PoseSlots
  readonly rows: RowSlots
  /** Where a channel's displacement is written. */
  readonly displaced: ChannelSlots
  /** Steps of the station at this join, in order; empty where everything is placed as entered. */
  readonly steps: readonly RowStep[]
  /** Places of what moves when the joint is bonded: no search sees it. */
  readonly bondShift: readonly number[]
}

/** Whether the station moves a row across the light, or turns it. */
export function isMoved({ steps }: BlockJoin): boolean {
  return steps.some(movesAcross)
}

/** The joins of a candidate that was compiled with an array, along the path. */
export function blockJoins(compiled: CompiledCandidate, wavelengthUm: number): readonly BlockJoin[] {
  const { candidate, joins, variables, slots, arraySlots } = compiled
  const elements = candidate.chain.flatMap((element, at) =>
    element.kind === 'splice' || element.kind === 'gap' || element.kind === 'relay' ? [{ element, at }] : [],
  )
  return elements.flatMap(({ element, at: chainAt }, i) => {
    const model = joins[i]
    const rows = arraySlots?.rows.get(element.id)
    const displaced = slots.displaced.get(element.id)
    if (element.kind === 'splice' || !model || !rows || !displaced) return []
    const slotOf: SlotOf = (...keys) =>
      variables.findIndex(
        ({ path }) =>
          path.at(-1 - keys.length) === chainAt && keys.every((key, n) => path.at(n - keys.length) === key),
      )
    const pose: PoseSlots = {
      gap: slotOf(element.kind === 'gap' ? 'gap' : 'frontGap'),
      roll: slotOf('roll'),
      tiltX: slotOf('tiltX'),
      tiltY: slotOf('tiltY'),
    }
    const bondShift = variables.flatMap(({ path }, at) =>
      path.at(-3) === chainAt && path.at(-2) === 'bondShift' ? [at] : [],
    )
    const steps =
      element.kind === 'gap'
        ? gapSteps(element, model, pose, slotOf, wavelengthUm)
        : relaySteps(element, model, slotOf)
    return [{ elementId: element.id, model, pose, rows, displaced, steps, bondShift }]
  })
}
