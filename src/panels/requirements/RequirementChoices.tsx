// The requirements that are chosen or counted, not measured.

import type { Requirements } from '../../model/schema/requirements'
import { LOSS_BASES } from '../../model/words/requirements'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { TextField } from '../../ui/fields/TextField'

const choices = (values: readonly string[]) => values.map((value) => ({ value, label: value }))

const POLARISATIONS = ['any', 'maintained'] as const
const BONDINGS = ['free choice', 'bonded', 'not bonded'] as const
const YES_NO = ['no', 'yes'] as const

function edit(recipe: (own: Requirements) => void): void {
  editProject((draft) => recipe(draft.requirements))
}

/** Reads a count or an amount; answers with a complaint where it is none. */
function numberField(
  label: string,
  [least, greatest]: readonly [number, number],
  whole: boolean,
  take: (value: number) => void,
): (text: string) => string | null {
  return (text) => {
    const value = Number(text.replace(',', '.'))
    const fits =
      Number.isFinite(value) && value >= least && value <= greatest && (!whole || Number.isInteger(value))
    if (!fits)
      return `${label} is "${text}"; must be ${whole ? 'a whole number, ' : ''}${least} to ${greatest}`
    take(value)
    return null
  }
}

export function RequirementChoices({ requirements }: { readonly requirements: Requirements }) {
  return (
    <>
      <TextField
        label="Channels"
        text={String(requirements.channels)}
        onCommit={numberField('Channels', [1, 64], true, (value) =>
          edit((own) => {
            own.channels = value
          }),
        )}
      />
      <ChoiceField
        label="Loss limit holds for"
        value={requirements.lossBasis}
        choices={choices(LOSS_BASES)}
        onChoose={(value) =>
          edit((own) => {
            own.lossBasis = LOSS_BASES.find((each) => each === value) ?? own.lossBasis
          })
        }
      />
      {requirements.lossBasis === 'percentile' && (
        <TextField
          label="Percentile"
          text={String(requirements.lossPercentile)}
          onCommit={numberField('Percentile', [50, 99.99], false, (value) =>
            edit((own) => {
              own.lossPercentile = value
            }),
          )}
        />
      )}
      <ChoiceField
        label="Polarisation"
        value={requirements.polarisation}
        choices={choices(POLARISATIONS)}
        onChoose={(value) =>
          edit((own) => {
            own.polarisation = POLARISATIONS.find((each) => each === value) ?? own.polarisation
          })
        }
      />
      <ChoiceField
        label="Collimated section needed"
        value={requirements.collimatedSection ? 'yes' : 'no'}
        choices={choices(YES_NO)}
        onChoose={(value) =>
          edit((own) => {
            own.collimatedSection = value === 'yes'
          })
        }
      />
      <ChoiceField
        label="Bonding"
        value={requirements.bonding}
        choices={choices(BONDINGS)}
        onChoose={(value) =>
          edit((own) => {
            own.bonding = BONDINGS.find((each) => each === value) ?? own.bonding
          })
        }
      />
      <TextField
        label="Cost ceiling a channel, 0 for none"
        text={String(requirements.costCeiling ?? 0)}
        onCommit={numberField('Cost ceiling', [0, 1e9], false, (value) =>
          edit((own) => {
            own.costCeiling = value === 0 ? undefined : value
          }),
        )}
      />
    </>
  )
}
