// The requirements that are chosen or counted, not measured.

import type { Requirements } from '../../model/schema/requirements'
import { LIGHT_DIRECTIONS } from '../../model/words/requirements'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { TextField } from '../../ui/fields/TextField'
import { choicesOf as choices, editRequirements as edit, numberField } from './editRequirements'

const POLARISATIONS = ['any', 'maintained'] as const
const BONDINGS = ['free choice', 'bonded', 'not bonded'] as const
const BONDING_NAMES = {
  'free choice': 'no preference',
  bonded: 'bonded',
  'not bonded': 'not bonded',
} as const
const YES_NO = ['no', 'yes'] as const

export function RequirementChoices({ requirements }: { readonly requirements: Requirements }) {
  return (
    <>
      <TextField
        numeric
        label="Channels"
        text={String(requirements.channels)}
        onCommit={numberField('Channels', [1, 64], true, (value) =>
          edit((own) => {
            own.channels = value
          }),
        )}
      />
      <ChoiceField
        label="Direction of light"
        value={requirements.direction}
        choices={choices(LIGHT_DIRECTIONS)}
        onChoose={(value) =>
          edit((own) => {
            own.direction = LIGHT_DIRECTIONS.find((each) => each === value) ?? own.direction
          })
        }
      />
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
        label="Collimated section required"
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
        choices={BONDINGS.map((value) => ({ value, label: BONDING_NAMES[value] }))}
        onChoose={(value) =>
          edit((own) => {
            own.bonding = BONDINGS.find((each) => each === value) ?? own.bonding
          })
        }
      />
      <TextField
        numeric
        emptyAllowed
        placeholder="no limit"
        label="Maximum cost per channel"
        text={requirements.costCeiling === undefined ? '' : String(requirements.costCeiling)}
        onCommit={numberField('Maximum cost', [0, 1e9], false, (value) =>
          edit((own) => {
            own.costCeiling = value === 0 ? undefined : value
          }),
        )}
      />
    </>
  )
}
