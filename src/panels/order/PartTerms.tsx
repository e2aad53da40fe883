// What the order of one part states in addition to the numbers of the design.

import { quantityOf } from '../../model/quantity/quantity'
import type { OrderText } from '../../model/words/purchase'
import { orderTextLabel, type SpecifiedItem, textOf, wantedTexts } from '../../report/purchase/specification'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { TextField } from '../../ui/fields/TextField'
import { orderedPart, setPartText } from './editPurchase'

const LONGEST = 2000

export function PartTerms({
  items,
  chosen,
  onChoose,
}: {
  readonly items: readonly SpecifiedItem[]
  /** Key of the part. */
  readonly chosen: string
  readonly onChoose: (key: string) => void
}) {
  const item = items.find(({ key }) => key === chosen) ?? items[0]
  if (item === undefined) return <p>This design has no parts yet.</p>
  const fields: readonly OrderText[] = [...wantedTexts(item), 'note']
  return (
    <section aria-label="Order terms">
      <ChoiceField
        label="Part"
        value={item.key}
        choices={items.map(({ key, name, kind }, i) => ({ value: key, label: `${i + 1}. ${kind}: ${name}` }))}
        onChoose={onChoose}
      />
      {fields.map((field) => (
        <TextField
          key={`${item.key} ${field}`}
          label={orderTextLabel(item, field)}
          text={textOf(item.own, field)}
          emptyAllowed
          longest={LONGEST}
          onCommit={(text) => setPartText(item.key, field, text)}
        />
      ))}
      {item.has.cable && (
        <OptionalQuantity
          key={item.key}
          label="Fibre length"
          field="length"
          rule="length"
          quantity={item.own.length}
          first={() => quantityOf(1, 'm', 'estimate', 0.05)}
          find={(draft) => orderedPart(draft, item.key)}
        />
      )}
    </section>
  )
}
