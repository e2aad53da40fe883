// The outline of what is brought up to the chip: bare cladding, tapered tip, glass block, or the barrel of a lens.

import { quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Barrel, Outline, OutlineKind } from '../../model/schema/build/outline'
import type { ChainElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../fields/ChoiceField'
import { OptionalQuantity } from '../fields/OptionalQuantity'
import { QuantityRow } from '../fields/QuantityRow'

type Outlined = Extract<ChainElement, { kind: 'fibre' | 'stub' | 'taper chip' }>
export const isOutlined = (element: ChainElement | undefined): element is Outlined =>
  element?.kind === 'fibre' || element?.kind === 'stub' || element?.kind === 'taper chip'

/** First sizes of each kind (common practice, no source). */
const FIRST: Readonly<Record<OutlineKind, () => Outline>> = {
  tapered: () => ({
    kind: 'tapered',
    endDiameter: quantityOf(30, 'um', 'estimate'),
    coneAngle: quantityOf(10, 'deg', 'estimate'),
  }),
  block: () => ({
    kind: 'block',
    width: quantityOf(2.5, 'mm', 'estimate'),
    below: quantityOf(500, 'um', 'estimate'),
    above: quantityOf(500, 'um', 'estimate'),
  }),
}

const CHOICES = [
  { value: 'bare', label: 'bare cladding' },
  { value: 'tapered', label: 'tapered tip' },
  { value: 'block', label: 'glass block with lid' },
]
const OF_CHIP = [{ value: 'bare', label: 'chip alone' }, ...CHOICES.slice(2)]

interface Spec<Field extends string> {
  readonly field: Field
  readonly label: string
  readonly rule: RuleName
}
const TAPERED: readonly Spec<'endDiameter' | 'coneAngle'>[] = [
  { field: 'endDiameter', label: 'Tip diameter', rule: 'bodySize' },
  { field: 'coneAngle', label: 'Cone half-angle', rule: 'coneAngle' },
]
const BLOCK: readonly Spec<'width' | 'below' | 'above'>[] = [
  { field: 'width', label: 'Block width', rule: 'bodySize' },
  { field: 'below', label: 'Block below axis', rule: 'bodySize' },
  { field: 'above', label: 'Block above axis', rule: 'bodySize' },
]
const BLOCK_OPTIONAL: readonly Spec<'protrusion' | 'lidOverhang'>[] = [
  { field: 'protrusion', label: 'Fibre protrusion', rule: 'overhang' },
  { field: 'lidOverhang', label: 'Lid overhang', rule: 'overhang' },
]

export function OutlineFields({
  element,
  designId,
}: {
  readonly element: Outlined
  readonly designId: string
}) {
  const find = (draft: Project): Outlined | undefined => {
    const own = draft.candidates
      .find(({ id }) => id === designId)
      ?.chain.find(({ id, kind }) => id === element.id && kind === element.kind)
    return isOutlined(own) ? own : undefined
  }
  const { outline } = element
  const findBlock = (draft: Project) => {
    const own = find(draft)?.outline
    return own?.kind === 'block' ? own : undefined
  }
  const findTapered = (draft: Project) => {
    const own = find(draft)?.outline
    return own?.kind === 'tapered' ? own : undefined
  }
  return (
    <fieldset className="assembly">
      <legend>Outline of the fibre side</legend>
      <ChoiceField
        label="Outline"
        value={outline?.kind ?? 'bare'}
        choices={element.kind === 'taper chip' ? OF_CHIP : CHOICES}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            if (own !== undefined)
              own.outline = value === 'tapered' || value === 'block' ? FIRST[value]() : undefined
          })
        }
      />
      {outline?.kind === 'tapered' &&
        TAPERED.map(({ field, label, rule }) => (
          <QuantityRow
            key={field}
            label={label}
            quantity={outline[field]}
            ruleName={rule}
            find={(draft) => findTapered(draft)?.[field]}
          />
        ))}
      {outline?.kind === 'block' &&
        BLOCK.map(({ field, label, rule }) => (
          <QuantityRow
            key={field}
            label={label}
            quantity={outline[field]}
            ruleName={rule}
            find={(draft) => findBlock(draft)?.[field]}
          />
        ))}
      {outline?.kind === 'block' &&
        BLOCK_OPTIONAL.map(({ field, label, rule }) => (
          <OptionalQuantity
            key={field}
            label={label}
            field={field}
            rule={rule}
            quantity={outline[field]}
            first={() => quantityOf(0, 'um', 'estimate')}
            find={findBlock}
          />
        ))}
    </fieldset>
  )
}

/** A holder as wide as small lens cells are (common practice, no source). */
const newBarrel = (): Barrel => ({
  diameter: quantityOf(2, 'mm', 'estimate'),
  barrelOverhang: quantityOf(0, 'um', 'estimate'),
})
const BARREL: readonly Spec<'diameter' | 'barrelOverhang'>[] = [
  { field: 'diameter', label: 'Barrel diameter', rule: 'bodySize' },
  { field: 'barrelOverhang', label: 'Barrel overhang beyond lens', rule: 'overhang' },
]

export function BarrelFields({
  relay,
  designId,
}: {
  readonly relay: RelayElement
  readonly designId: string
}) {
  const find = (draft: Project): RelayElement | undefined => {
    const own = draft.candidates.find(({ id }) => id === designId)?.chain.find(({ id }) => id === relay.id)
    return own?.kind === 'relay' ? own : undefined
  }
  const { barrel } = relay
  return (
    <fieldset className="assembly">
      <legend>Barrel of lens 2</legend>
      {barrel !== undefined &&
        BARREL.map(({ field, label, rule }) => (
          <QuantityRow
            key={field}
            label={label}
            quantity={barrel[field]}
            ruleName={rule}
            find={(draft) => find(draft)?.barrel?.[field]}
          />
        ))}
      <button
        type="button"
        className="subtle"
        onClick={() =>
          editProject((draft) => {
            const own = find(draft)
            if (own !== undefined) own.barrel = barrel === undefined ? newBarrel() : undefined
          })
        }
      >
        {barrel === undefined ? 'Add lens barrel' : 'Remove lens barrel'}
      </button>
    </fieldset>
  )
}
