// How far the near side of a joint moves after alignment: the drift of a holder, or what curing does to a bond.

import { newDrift } from '../../model/designs/newElements'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { QuantityField } from './QuantityField'

const AXES = ['x', 'y', 'z'] as const

export function DriftFields({
  joint,
  find,
  bonded,
}: {
  readonly joint: GapElement | RelayElement
  readonly find: (draft: Project) => GapElement | RelayElement | undefined
  /** Whether an adhesive fills the joint. */
  readonly bonded: boolean
}) {
  const what = bonded ? 'movement on bonding' : 'drift of the holder'
  const set = (shift: GapElement['bondShift']) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) own.bondShift = shift
    })
  const { bondShift } = joint
  if (bondShift === undefined) {
    return (
      <div className="field">
        <button type="button" onClick={() => set(newDrift())}>
          State {what}
        </button>
      </div>
    )
  }
  return (
    <>
      {AXES.map((axis) => (
        <QuantityField
          key={axis}
          label={bonded ? `Bonding moves ${axis} by` : `Holder drifts in ${axis} by`}
          quantity={bondShift[axis]}
          ruleName="offset"
          find={(draft) => find(draft)?.bondShift?.[axis]}
        />
      ))}
      <div className="field">
        <button type="button" onClick={() => set(undefined)}>
          Drop {what}
        </button>
      </div>
    </>
  )
}
