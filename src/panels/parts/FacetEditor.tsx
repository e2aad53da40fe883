// A chip facet: the mode it shows, the taper behind it, and the guide as it is drawn.

import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { FacetEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { IndexField } from '../../ui/fields/IndexField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { CrossSectionDisclosure } from './crossSection/CrossSectionDisclosure'
import { ModeOverWavelengthFields } from './ModeOverWavelength'
import { FacetShapeFields } from './modeShape/ModeShapeFields'
import { PartFrame } from './PartFrame'
import { TmFields } from './TmFields'

const NUMBERS: readonly {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (facet: FacetEntry) => Quantity
}[] = [
  { label: 'MFD x', rule: 'mfd', pick: (facet) => facet.mfdX },
  { label: 'MFD y', rule: 'mfd', pick: (facet) => facet.mfdY },
  { label: 'Taper loss', rule: 'loss', pick: (facet) => facet.taperLoss },
  { label: 'Guide width', rule: 'guideSize', pick: (facet) => facet.guideWidth },
  { label: 'Guide height', rule: 'guideSize', pick: (facet) => facet.guideHeight },
  { label: 'Depth below the surface', rule: 'depth', pick: (facet) => facet.depth },
]

const OPTIONAL: readonly {
  readonly field: 'substrateLeakage' | 'tipWidth' | 'routingWidth' | 'taperLength'
  readonly label: string
  readonly rule: RuleName
  readonly first: () => Quantity
}[] = [
  {
    field: 'substrateLeakage',
    label: 'Substrate leakage',
    rule: 'loss',
    first: () => quantityOf(0.1, 'dB', 'estimate', 0.1),
  },
  { field: 'tipWidth', label: 'Taper tip width', rule: 'guideSize', first: () => quantityOf(0.15, 'um') },
  { field: 'routingWidth', label: 'Routing width', rule: 'guideSize', first: () => quantityOf(0.8, 'um') },
  { field: 'taperLength', label: 'Taper length', rule: 'taperLength', first: () => quantityOf(200, 'um') },
]

export function FacetEditor({ project, facet }: { readonly project: Project; readonly facet: FacetEntry }) {
  const find = (draft: Project) => draft.facets.find((each) => each.id === facet.id)
  return (
    <PartFrame project={project} list="facets" kind="Facet" part={facet}>
      {NUMBERS.map(({ label, rule, pick }) => (
        <QuantityField
          key={label}
          label={label}
          quantity={pick(facet)}
          ruleName={rule}
          find={(draft) => {
            const own = find(draft)
            return own === undefined ? undefined : pick(own)
          }}
        />
      ))}
      <FacetShapeFields project={project} facet={facet} />
      <IndexField label="Effective index" source={facet.index} find={find} />
      {OPTIONAL.map(({ field, label, rule, first }) => (
        <OptionalQuantity
          key={field}
          label={label}
          field={field}
          rule={rule}
          quantity={facet[field]}
          first={first}
          find={find}
        />
      ))}
      <p className="quiet wide">
        The mode counts as Gaussian with a flat phase at the facet, as the narrow end of an inverse taper
        shows it, unless its field is known; the taper behind it takes its loss and what leaks into the
        substrate.
      </p>
      <ModeOverWavelengthFields
        law={facet.overWavelength}
        mode={facet}
        wavelength={project.requirements.wavelength}
        find={find}
      />
      <TmFields facet={facet} find={find} />
      <CrossSectionDisclosure project={project} facet={facet} />
    </PartFrame>
  )
}
