// How far the near side of a joint moves after alignment: the drift of a holder, or what curing does to a bond.

import { newDrift } from '../../model/designs/newElements'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { QuantityRow } from './QuantityRow'

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
  const what = bonded ? 'cure shift' : 'holder drift'
  const set = (shift: GapElement['bondShift']) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) own.bondShift = shift
    })
  const { bondShift } = joint
  if (bondShift === undefined) {
    return (
      <div className="field">
        <button type="button" className="subtle" onClick={() => set(newDrift())}>
          Add {what}
        </button>
      </div>
    )
  }
  return (
    <>
      {AXES.map((axis) => (
        <QuantityRow
          key={axis}
          label={bonded ? `Cure shift, ${axis}` : `Holder drift, ${axis}`}
          quantity={bondShift[axis]}
          ruleName="offset"
          find={(draft) => find(draft)?.bondShift?.[axis]}
        />
      ))}
      <div className="field">
        <button type="button" className="subtle" onClick={() => set(undefined)}>
          Remove {what}
        </button>
      </div>
    </>
  )
}
