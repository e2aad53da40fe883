// The rest of a tolerance: how many standard deviations its half width is, on which side it lies, who shares a draw.

import { type Quantity, SHARES, SIDES, type Tolerance } from '../../model/quantity/quantity'
import { DEFAULT_COVERAGE } from '../../model/quantity/spread'
import { LIMITS } from '../../model/words/limits'
import { ChoiceField } from './ChoiceField'
import { TextField } from './TextField'

const SIDE_CHOICES = SIDES.map((value) => ({ value, label: `${value} the value` }))
const SHARE_CHOICES = [
  { value: 'part', label: 'per part' },
  { value: 'channel', label: 'per channel' },
]

export function ToleranceShape({
  tolerance,
  edit,
  label,
}: {
  readonly tolerance: Tolerance
  readonly edit: (recipe: (target: Quantity) => void) => void
  readonly label: string
}) {
  const change = (recipe: (own: Tolerance) => void) =>
    edit((target) => {
      if (target.tolerance !== undefined) recipe(target.tolerance)
    })
  const { distribution, coverage, side, share } = tolerance
  const setCoverage = (text: string) => {
    const value = Number(text.replace(',', '.'))
    const { least, most } = LIMITS.coverage
    if (!(value >= least && value <= most))
      return `Number of σ of ${label} is "${text}"; must be ${least} to ${most}`
    change((own) => {
      own.coverage = value
    })
    return null
  }
  return (
    <>
      {(distribution === 'normal' || distribution === 'truncated normal') && (
        <TextField
          label="± equals (number of σ)"
          text={String(coverage ?? DEFAULT_COVERAGE)}
          onCommit={setCoverage}
        />
      )}
      {distribution === 'one-sided' && (
        <ChoiceField
          label="Direction"
          value={side ?? 'above'}
          choices={SIDE_CHOICES}
          onChoose={(value) =>
            change((own) => {
              own.side = SIDES.find((each) => each === value) ?? own.side
            })
          }
        />
      )}
      <ChoiceField
        label="Varies"
        value={share ?? 'part'}
        choices={SHARE_CHOICES}
        onChoose={(value) =>
          change((own) => {
            own.share = SHARES.find((each) => each === value) ?? own.share
          })
        }
      />
    </>
  )
}
