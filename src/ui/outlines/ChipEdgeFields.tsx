// The chip's edge in front of a facet, as numbers: ledge, trench, thickness, lid, and a V-groove for a bare fibre.

import { SILICON_WALL_RAD } from '../../analysis/clearance/vGroove'
import { quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { ChipEdge, VGroove } from '../../model/schema/build/chipEdge'
import type { FacetEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { rounded } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'
import { OptionalQuantity } from '../fields/OptionalQuantity'
import { QuantityRow } from '../fields/QuantityRow'
import './outlines.css'

/** A diced chip whose facet was etched behind the saw cut (common practice, no source). */
const newEdge = (): ChipEdge => ({
  recess: quantityOf(10, 'um', 'estimate'),
  ledgeDepth: quantityOf(80, 'um', 'estimate'),
  chipThickness: quantityOf(700, 'um', 'estimate'),
})

/** A groove in (100) silicon for a fibre of 125 um with its core a little above the surface (common practice, no source). */
const newGroove = (): VGroove => ({
  grooveWidth: quantityOf(150, 'um', 'estimate', 0.5),
  wallAngle: quantityOf(rounded((SILICON_WALL_RAD * 180) / Math.PI, 7), 'deg', 'computed'),
  grooveSurface: quantityOf(2, 'um', 'estimate', 0.1),
  groovePosition: quantityOf(0, 'um', 'estimate', 0.5),
})

interface Spec<Field extends string> {
  readonly field: Field
  readonly label: string
  readonly rule: RuleName
}

const ALWAYS: readonly Spec<'recess' | 'ledgeDepth' | 'chipThickness'>[] = [
  { field: 'recess', label: 'Facet recess behind dicing edge', rule: 'recess' },
  { field: 'ledgeDepth', label: 'Ledge below waveguide', rule: 'edgeDepth' },
  { field: 'chipThickness', label: 'Chip thickness', rule: 'chipThickness' },
]
const OPTIONAL: readonly (Spec<'trenchLength' | 'trenchDepth' | 'lidHeight' | 'lidDistance'> & {
  readonly firstUm: number
})[] = [
  { field: 'trenchLength', label: 'Trench length', rule: 'recess', firstUm: 10 },
  { field: 'trenchDepth', label: 'Trench below waveguide', rule: 'edgeDepth', firstUm: 80 },
  { field: 'lidHeight', label: 'Lid height', rule: 'lidHeight', firstUm: 500 },
  { field: 'lidDistance', label: 'Lid behind facet', rule: 'overhang', firstUm: 100 },
]
const GROOVE: readonly Spec<keyof Omit<VGroove, symbol>>[] = [
  { field: 'grooveWidth', label: 'Groove width', rule: 'bodySize' },
  { field: 'wallAngle', label: 'Groove sidewall angle', rule: 'wallAngle' },
  { field: 'grooveSurface', label: 'Groove surface below waveguide', rule: 'edgeDepth' },
  { field: 'groovePosition', label: 'Groove position x', rule: 'offset' },
]

export function ChipEdgeFields({ facet }: { readonly facet: FacetEntry }) {
  const find = (draft: Project) => draft.facets.find(({ id }) => id === facet.id)
  const edit = (recipe: (own: FacetEntry) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own)
    })
  const { chipEdge } = facet
  if (chipEdge === undefined) {
    return (
      <fieldset className="assembly chip-edge">
        <legend>Chip edge of {facet.name}</legend>
        <p>No chip edge given: the chip ends in the plane of the facet.</p>
        <button
          type="button"
          onClick={() =>
            edit((own) => {
              own.chipEdge = newEdge()
            })
          }
        >
          Add chip edge
        </button>
      </fieldset>
    )
  }
  const { groove } = chipEdge
  return (
    <fieldset className="assembly chip-edge">
      <legend>Chip edge of {facet.name}</legend>
      {ALWAYS.map(({ field, label, rule }) => (
        <QuantityRow
          key={field}
          label={label}
          quantity={chipEdge[field]}
          ruleName={rule}
          find={(draft) => find(draft)?.chipEdge?.[field]}
        />
      ))}
      {OPTIONAL.map(({ field, label, rule, firstUm }) => (
        <OptionalQuantity
          key={field}
          label={label}
          field={field}
          rule={rule}
          quantity={chipEdge[field]}
          first={() => quantityOf(firstUm, 'um', 'estimate')}
          find={(draft) => find(draft)?.chipEdge}
        />
      ))}
      {groove !== undefined &&
        GROOVE.map(({ field, label, rule }) => (
          <QuantityRow
            key={field}
            label={label}
            quantity={groove[field]}
            ruleName={rule}
            find={(draft) => find(draft)?.chipEdge?.groove?.[field]}
          />
        ))}
      <p className="outline-actions">
        <button
          type="button"
          className="subtle"
          onClick={() =>
            edit((own) => {
              if (own.chipEdge !== undefined)
                own.chipEdge.groove = groove === undefined ? newGroove() : undefined
            })
          }
        >
          {groove === undefined ? 'Add V-groove' : 'Remove V-groove'}
        </button>
        <button
          type="button"
          className="subtle"
          onClick={() =>
            edit((own) => {
              own.chipEdge = undefined
            })
          }
        >
          Remove chip edge
        </button>
      </p>
    </fieldset>
  )
}
