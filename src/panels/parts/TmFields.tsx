// The TM mode of a facet, where it differs from that of TE.

import { quantityOf } from '../../model/quantity/quantity'
import type { FacetEntry, TmMode } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'

/** Starts as a copy of the TE mode, without its tolerances. */
function newTm({ mfdX, mfdY }: FacetEntry): TmMode {
  return { mfdX: quantityOf(mfdX.value, mfdX.unit), mfdY: quantityOf(mfdY.value, mfdY.unit) }
}

export function TmFields({
  facet,
  find,
}: {
  readonly facet: FacetEntry
  readonly find: (draft: Project) => FacetEntry | undefined
}) {
  const { tm } = facet
  const set = (next: TmMode | undefined) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) own.tm = next
    })
  if (tm === undefined) {
    return (
      <div className="field">
        <button type="button" className="subtle" onClick={() => set(newTm(facet))}>
          Add TM mode
        </button>
      </div>
    )
  }
  return (
    <>
      <QuantityField
        label="TM, MFD x"
        quantity={tm.mfdX}
        ruleName="mfd"
        find={(draft) => find(draft)?.tm?.mfdX}
      />
      <QuantityField
        label="TM, MFD y"
        quantity={tm.mfdY}
        ruleName="mfd"
        find={(draft) => find(draft)?.tm?.mfdY}
      />
      <OptionalQuantity
        label="Effective index, TM"
        field="index"
        rule="index"
        quantity={tm.index}
        first={() => quantityOf(1.45, '1')}
        find={(draft) => find(draft)?.tm}
      />
      <OptionalQuantity
        label="Taper loss, TM"
        field="taperLoss"
        rule="loss"
        quantity={tm.taperLoss}
        first={() => quantityOf(facet.taperLoss.value, 'dB')}
        find={(draft) => find(draft)?.tm}
      />
      <div className="field">
        <button type="button" className="subtle" onClick={() => set(undefined)}>
          Remove TM mode
        </button>
      </div>
    </>
  )
}
