// The limits on the insertion loss: each with the figure that must stay within it.

import { forgetRequirement } from '../../model/project/requirementGroups'
import type { LossCriterion, Requirements } from '../../model/schema/requirements'
import { byId } from '../../model/words/byId'
import { LIMITS } from '../../model/words/limits'
import { CHANNEL_SCOPES, LOSS_BASES, type LossBasis } from '../../model/words/requirements'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'
import { TextField } from '../../ui/fields/TextField'
import { choicesOf, editRequirements, numberField } from './editRequirements'

const SCOPE_NAMES = { one: 'one channel', all: 'all channels at once' } as const

function change(id: string, recipe: (own: LossCriterion) => void): void {
  editRequirements((own) => {
    const found = byId(own.losses, id)
    if (found !== undefined) recipe(found)
  })
}

/** A free id: `loss-2`, `loss-3`, ... */
function freeId(losses: readonly LossCriterion[]): string {
  let number = losses.length + 1
  while (losses.some(({ id }) => id === `loss-${number}`)) number += 1
  return `loss-${number}`
}

/** What is requested next to a criterion of another kind, in this order. */
const NEXT_BASES: readonly LossBasis[] = ['percentile', 'worst case', 'nominal', 'RSS']

function addCriterion(): void {
  editRequirements((own) => {
    const last = own.losses.at(-1)
    if (last === undefined) return
    const used = new Set(own.losses.map(({ basis }) => basis))
    const basis = NEXT_BASES.find((each) => !used.has(each)) ?? last.basis
    own.losses.push({ ...last, basis, limit: { ...last.limit }, id: freeId(own.losses) })
  })
}

function removeCriterion(id: string): void {
  editRequirements((own) => {
    own.losses = own.losses.filter((each) => each.id !== id)
    forgetRequirement(own, id)
  })
}

function CriterionFields({
  criterion,
  number,
  channels,
}: {
  readonly criterion: LossCriterion
  /** From 1; said where there are several. */
  readonly number: number | null
  readonly channels: number
}) {
  const { id, basis } = criterion
  const named = (label: string) => (number === null ? label : `${label} ${number}`)
  return (
    <>
      <QuantityField
        label={named('Insertion-loss limit')}
        quantity={criterion.limit}
        ruleName="loss"
        find={(draft) => byId(draft.requirements.losses, id)?.limit}
      />
      <ChoiceField
        label={named('Limit applies to')}
        value={basis}
        choices={choicesOf(LOSS_BASES)}
        onChoose={(value) =>
          change(id, (own) => {
            own.basis = LOSS_BASES.find((each) => each === value) ?? own.basis
          })
        }
      />
      {basis === 'percentile' && (
        <TextField
          numeric
          label={named('Percentile')}
          text={String(criterion.percentile)}
          onCommit={numberField('Percentile', [50, 99.99], false, (value) =>
            change(id, (own) => {
              own.percentile = value
            }),
          )}
        />
      )}
      {basis === 'percentile' && channels > 1 && (
        <ChoiceField
          label={named('Channels included')}
          value={criterion.channels}
          choices={CHANNEL_SCOPES.map((value) => ({ value, label: SCOPE_NAMES[value] }))}
          onChoose={(value) =>
            change(id, (own) => {
              own.channels = CHANNEL_SCOPES.find((each) => each === value) ?? own.channels
            })
          }
        />
      )}
    </>
  )
}

export function LossCriteria({ requirements }: { readonly requirements: Requirements }) {
  const { losses, channels } = requirements
  const several = losses.length > 1
  return (
    <>
      {losses.map((criterion, at) => (
        <fieldset key={criterion.id} className="field-grid">
          <legend>{several ? `Loss criterion ${at + 1}` : 'Loss criterion'}</legend>
          <CriterionFields criterion={criterion} number={several ? at + 1 : null} channels={channels} />
          {several && (
            <button type="button" className="drop" onClick={() => removeCriterion(criterion.id)}>
              Remove criterion {at + 1}
            </button>
          )}
        </fieldset>
      ))}
      {losses.length < LIMITS.lossCriteria && (
        <button type="button" className="add-criterion" onClick={addCriterion}>
          Add loss criterion
        </button>
      )}
    </>
  )
}
