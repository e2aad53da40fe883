// A stub: how long it is, and whether it is ordered one by one or as an array.

import type { ElementOf } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { STUB_FORMS } from '../../model/words/candidate'
import { findElement } from '../../store/elementEdits'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'

const FORMS = [
  { value: '', label: 'not decided' },
  { value: 'single', label: 'single stubs' },
  { value: 'array', label: 'one array' },
]

export function StubFields({
  stub,
  candidateId,
}: {
  readonly stub: ElementOf<'stub'>
  readonly candidateId: string
}) {
  const find = (draft: Project) => findElement(draft, candidateId, stub.id, 'stub')
  return (
    <>
      <QuantityField
        label="Stub length"
        quantity={stub.length}
        ruleName="length"
        find={(draft) => find(draft)?.length}
      />
      <ChoiceField
        label="Ordered as"
        value={stub.form ?? ''}
        choices={FORMS}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            if (own !== undefined) own.form = STUB_FORMS.find((each) => each === value)
          })
        }
      />
    </>
  )
}
