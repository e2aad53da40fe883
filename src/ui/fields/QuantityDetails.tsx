// Tolerance and source of a number: one line that says them, and the fields behind it.

import { DISTRIBUTIONS, PROVENANCES, type Quantity } from '../../model/quantity/quantity'
import { unitLabel, withUnit } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { plainText } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'
import { ChoiceField } from './ChoiceField'
import { TextField } from './TextField'
import { ToleranceShape } from './ToleranceShape'
import { numberText } from './useQuantityInput'

const choicesOf = (values: readonly string[]) => values.map((value) => ({ value, label: value }))

type FindQuantity = (draft: Project) => Quantity | undefined

const editWith =
  (find: FindQuantity) =>
  (recipe: (target: Quantity) => void): void =>
    editProject((draft) => {
      const target = find(draft)
      if (target !== undefined) recipe(target)
    })

/** Writes a half width; 0 takes the tolerance away, a first one is uniform. */
export function writePlusMinus(find: FindQuantity, plusMinus: number): void {
  editWith(find)((target) => {
    if (plusMinus === 0) target.tolerance = undefined
    else target.tolerance = { ...(target.tolerance ?? { distribution: 'uniform' }), plusMinus }
  })
}

function summary(quantity: Quantity): string {
  const { tolerance, unit, provenance, typed } = quantity
  const known = tolerance !== undefined && tolerance.distribution !== 'fixed'
  return [
    ...(typed === undefined ? [] : [`= ${numberText(quantity)}`]),
    ...(known ? [withUnit(`± ${plainText(tolerance.plusMinus, 4)}`, unit)] : []),
    provenance,
  ].join(', ')
}

export function QuantityDetails({
  label,
  quantity,
  find,
}: {
  readonly label: string
  readonly quantity: Quantity
  readonly find: FindQuantity
}) {
  const { tolerance } = quantity
  const setPlusMinus = (text: string) => {
    const plusMinus = Number(text.replace(',', '.'))
    if (!(plusMinus >= 0 && plusMinus <= LIMITS.plusMinus)) {
      return `± of ${label} is "${text}"; must be a number in ${unitLabel(quantity.unit) || 'the same unit'}, 0 to ${LIMITS.plusMinus}`
    }
    writePlusMinus(find, plusMinus)
    return null
  }
  return (
    <details className="quantity-details">
      <summary>
        <span className="visually-hidden">Tolerance and source of {label}: </span>
        {summary(quantity)}
      </summary>
      <TextField
        label={`± in ${unitLabel(quantity.unit) || 'the same unit'}`}
        text={String(tolerance?.plusMinus ?? 0)}
        onCommit={setPlusMinus}
      />
      <QuantityShape label={label} quantity={quantity} find={find} />
    </details>
  )
}

/** Distribution, shape and source of a number: what is behind its value and its ±. */
export function QuantityShape({
  label,
  quantity,
  find,
}: {
  readonly label: string
  readonly quantity: Quantity
  readonly find: FindQuantity
}) {
  const { tolerance, provenance } = quantity
  const edit = editWith(find)
  return (
    <>
      {tolerance !== undefined && (
        <ChoiceField
          label="Distribution"
          value={tolerance.distribution}
          choices={choicesOf(DISTRIBUTIONS)}
          onChoose={(value) =>
            edit((target) => {
              const distribution = DISTRIBUTIONS.find((each) => each === value)
              if (distribution !== undefined && target.tolerance !== undefined) {
                target.tolerance.distribution = distribution
              }
            })
          }
        />
      )}
      {tolerance !== undefined && <ToleranceShape tolerance={tolerance} edit={edit} label={label} />}
      <ChoiceField
        label="Source"
        value={provenance}
        choices={choicesOf(PROVENANCES)}
        onChoose={(value) =>
          edit((target) => {
            const chosen = PROVENANCES.find((each) => each === value)
            if (chosen !== undefined) target.provenance = chosen
          })
        }
      />
      {quantity.uncertainty !== undefined && (
        <p className="wide">
          Measurement uncertainty ± {plainText(quantity.uncertainty.plusMinus, 3)} {unitLabel(quantity.unit)}{' '}
          (k = {quantity.uncertainty.coverage}), common to all parts. The ± above is the production tolerance,
          from part to part.
        </p>
      )}
      {quantity.note !== undefined && <p className="quiet wide">{quantity.note}</p>}
    </>
  )
}
