// A refractive index: a material with dispersion, or a number.

import { quantityOf } from '../../model/quantity/quantity'
import type { IndexSource } from '../../model/schema/indexSource'
import type { Project } from '../../model/schema/project'
import { MATERIAL_NAMES } from '../../model/words/indexSource'
import { editProject } from '../../store/workbench'
import { ChoiceField } from './ChoiceField'
import { QuantityField } from './QuantityField'

const BY_NUMBER = 'entered value'
const CHOICES = [BY_NUMBER, ...MATERIAL_NAMES].map((value) => ({ value, label: value }))
const FIRST_INDEX = 1.45

export function IndexField({
  label,
  source,
  find,
}: {
  readonly label: string
  readonly source: IndexSource
  /** The entry that holds the index, in the project being edited. */
  readonly find: (draft: Project) => { index: IndexSource } | undefined
}) {
  const choose = (value: string) =>
    editProject((draft) => {
      const owner = find(draft)
      if (owner === undefined) return
      const material = MATERIAL_NAMES.find((name) => name === value)
      owner.index =
        material === undefined
          ? { kind: 'value', index: quantityOf(FIRST_INDEX, '1') }
          : { kind: 'material', material }
    })
  return (
    <>
      <ChoiceField
        label={`${label} defined by`}
        value={source.kind === 'value' ? BY_NUMBER : source.material}
        choices={CHOICES}
        onChoose={choose}
      />
      {source.kind === 'value' && (
        <QuantityField
          label={label}
          quantity={source.index}
          ruleName="index"
          find={(draft) => {
            const own = find(draft)?.index
            return own?.kind === 'value' ? own.index : undefined
          }}
        />
      )}
    </>
  )
}
