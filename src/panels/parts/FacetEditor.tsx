// A chip facet: the mode it shows, the taper behind it, and the guide as it is drawn.

import type { FacetEntry } from '../../model/parts'
import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import { QuantityField } from '../fields/QuantityField'
import { IndexField } from './IndexField'
import { PartFrame } from './PartFrame'

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
      <IndexField label="Effective index" source={facet.index} find={find} />
    </PartFrame>
  )
}
