// A join at which two rows of channels face each other: the fibres and a chip, or the ends of a taper chip and what they
// face. Where each quantity is in the vector of values, and what the station moves there.

import type { PoseAxis } from '../../model/words/candidate'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { JoinModel } from '../path/vector/models'
import type { ChannelPlaces, RowPlaces } from '../path/vector/operating'
import type { BlockFreedom } from './blockChannel'
import { gapMiddle, type MiddlePose, type PosePlaces, relayMiddle } from './middlePose'

export interface BlockJoin {
  readonly elementId: string
  readonly model: JoinModel
  readonly pose: PosePlaces
  readonly rows: RowPlaces
  /** Where a channel's displacement is written. */
  readonly displaced: ChannelPlaces
  readonly free: BlockFreedom
  /** Places of what the station's search does not see: its own residual, and what moves when the joint is bonded. */
  readonly unseen: readonly number[]
  readonly bondShift: readonly number[]
  /** Finds gap and tilts for the middle of the row; null where the station leaves both as placed. */
  readonly alignMiddle: MiddlePose | null
}

/** Whether the station moves the row across the light, or turns it. */
export function isMoved({ free }: BlockJoin): boolean {
  return free.x || free.y || free.roll
}

/** The joins of a candidate that was compiled with an array, in the order of the light. */
export function blockJoins(compiled: CompiledCandidate, wavelengthUm: number): readonly BlockJoin[] {
  const { candidate, joins, variables, places, arrayPlaces } = compiled
  const elements = candidate.chain.flatMap((element, at) =>
    element.kind === 'splice' || element.kind === 'gap' || element.kind === 'relay' ? [{ element, at }] : [],
  )
  return elements.flatMap(({ element, at: chainAt }, i) => {
    const model = joins[i]
    const rows = arrayPlaces?.rows.get(element.id)
    const displaced = places.displaced.get(element.id)
    if (element.kind === 'splice' || !model || !rows || !displaced) return []
    const poseAt = (axis: string) =>
      variables.findIndex(({ path }) => path.at(-2) === chainAt && path.at(-1) === axis)
    const pose: PosePlaces = {
      gap: poseAt(element.kind === 'gap' ? 'gap' : 'frontGap'),
      roll: poseAt('roll'),
      tiltX: poseAt('tiltX'),
      tiltY: poseAt('tiltY'),
    }
    const bondShift = variables.flatMap(({ path }, at) =>
      path.at(-3) === chainAt && path.at(-2) === 'bondShift' ? [at] : [],
    )
    const aligned: ReadonlySet<PoseAxis> = new Set(element.aligned ?? [])
    const free = { x: aligned.has('offsetX'), y: aligned.has('offsetY'), roll: aligned.has('roll') }
    const aligns =
      (['gap', 'tiltX', 'tiltY'] as const).some((axis) => aligned.has(axis)) ||
      (element.kind === 'relay' &&
        [element.lens1, element.lens2].some((lens) => (lens.aligned?.length ?? 0) > 0))
    const lensAt = (lens: 'lens1' | 'lens2', axis: string) =>
      variables.findIndex(
        ({ path }) => path.at(-3) === chainAt && path.at(-2) === lens && path.at(-1) === axis,
      )
    const lensPlaces = (lens: 'lens1' | 'lens2') => ({
      x: lensAt(lens, 'offsetX'),
      y: lensAt(lens, 'offsetY'),
    })
    const middle = () =>
      element.kind === 'gap'
        ? gapMiddle(model, pose, aligned, wavelengthUm)
        : relayMiddle(model, pose, { lens1: lensPlaces('lens1'), lens2: lensPlaces('lens2') }, aligned)
    return [
      {
        elementId: element.id,
        model,
        pose,
        rows,
        displaced,
        free,
        unseen: [
          ...(free.x ? [poseAt('offsetX')] : []),
          ...(free.y ? [poseAt('offsetY')] : []),
          ...(free.roll ? [pose.roll] : []),
          ...bondShift,
        ],
        bondShift,
        alignMiddle: aligns ? middle() : null,
      },
    ]
  })
}
