// What fills a gap.

import { quantityOf } from '../../model/quantity/quantity'
import type { MediumEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { MEDIUM_STATES } from '../../model/words/parts'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { IndexField } from '../../ui/fields/IndexField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { PartFrame } from './PartFrame'

const STATE_CHOICES = MEDIUM_STATES.map((value) => ({ value, label: value }))

export function MediumEditor({
  project,
  medium,
}: {
  readonly project: Project
  readonly medium: MediumEntry
}) {
  const find = (draft: Project) => byId(draft.media, medium.id)
  return (
    <PartFrame project={project} list="media" kind="gap medium" part={medium}>
      <ChoiceField
        label="State"
        value={medium.state}
        choices={STATE_CHOICES}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            const state = MEDIUM_STATES.find((each) => each === value)
            if (own !== undefined && state !== undefined) own.state = state
          })
        }
      />
      <IndexField label="Refractive index" source={medium.index} find={find} />
      <OptionalQuantity
        label="Thermo-optic coefficient, dn/dT"
        field="thermoOptic"
        rule="thermoOptic"
        quantity={medium.thermoOptic}
        first={() => quantityOf(medium.state === 'gas' ? -1e-6 : -2e-4, '1/K')}
        find={find}
      />
      <OptionalQuantity
        label="Irradiance limit"
        field="irradianceLimit"
        rule="irradiance"
        quantity={medium.irradianceLimit}
        first={null}
        find={find}
      />
    </PartFrame>
  )
}
