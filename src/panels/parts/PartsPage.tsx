// Every part of the project with its numbers.

import { freeId, newFacet, newFibre, newMedium } from '../../model/newParts'
import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import { candidatesUsing } from '../../model/references'
import { editProject, useWorkbench } from '../../store/workbench'
import { Cautions } from '../app/Cautions'
import { QuantityField } from '../fields/QuantityField'
import { TextField } from '../fields/TextField'

interface PartNumber {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (project: Project) => Quantity | undefined
}

interface PartView {
  readonly id: string
  readonly list: 'fibres' | 'facets' | 'media'
  readonly kind: string
  readonly name: string
  readonly numbers: readonly PartNumber[]
}

function fibreNumbers(at: number): readonly PartNumber[] {
  const mode = (project: Project) => project.fibres[at]?.mode
  return [
    { label: 'MFD x', rule: 'mfd', pick: (p) => pickFrom(mode(p), 'mfd', (m) => m.mfdX) },
    { label: 'MFD y', rule: 'mfd', pick: (p) => pickFrom(mode(p), 'mfd', (m) => m.mfdY) },
    {
      label: 'Core diameter',
      rule: 'coreDiameter',
      pick: (p) => pickFrom(mode(p), 'core', (m) => m.coreDiameter),
    },
    { label: 'Numerical aperture', rule: 'na', pick: (p) => pickFrom(mode(p), 'core', (m) => m.na) },
    { label: 'Cladding diameter', rule: 'claddingDiameter', pick: (p) => p.fibres[at]?.claddingDiameter },
    {
      label: 'Mode index',
      rule: 'index',
      pick: (p) => pickFrom(p.fibres[at]?.index, 'value', (s) => s.index),
    },
  ]
}

function pickFrom<U extends { kind: string }, K extends U['kind']>(
  union: U | undefined,
  kind: K,
  pick: (member: Extract<U, { kind: K }>) => Quantity | undefined,
): Quantity | undefined {
  return union?.kind === kind ? pick(union as Extract<U, { kind: K }>) : undefined
}

function facetNumbers(at: number): readonly PartNumber[] {
  return [
    { label: 'MFD x', rule: 'mfd', pick: (p) => p.facets[at]?.mfdX },
    { label: 'MFD y', rule: 'mfd', pick: (p) => p.facets[at]?.mfdY },
    {
      label: 'Effective index',
      rule: 'index',
      pick: (p) => pickFrom(p.facets[at]?.index, 'value', (s) => s.index),
    },
    { label: 'Taper loss', rule: 'loss', pick: (p) => p.facets[at]?.taperLoss },
    { label: 'Guide width', rule: 'guideSize', pick: (p) => p.facets[at]?.guideWidth },
    { label: 'Guide height', rule: 'guideSize', pick: (p) => p.facets[at]?.guideHeight },
    { label: 'Depth below the surface', rule: 'depth', pick: (p) => p.facets[at]?.depth },
  ]
}

function mediumNumbers(at: number): readonly PartNumber[] {
  return [
    { label: 'Index', rule: 'index', pick: (p) => pickFrom(p.media[at]?.index, 'value', (s) => s.index) },
    { label: 'Index change with temperature', rule: 'thermoOptic', pick: (p) => p.media[at]?.thermoOptic },
  ]
}

function partsOf(project: Project): readonly PartView[] {
  return [
    ...project.fibres.map((part, at) => ({
      id: part.id,
      name: part.name,
      list: 'fibres' as const,
      kind: 'Fibre',
      numbers: fibreNumbers(at),
    })),
    ...project.facets.map((part, at) => ({
      id: part.id,
      name: part.name,
      list: 'facets' as const,
      kind: 'Facet',
      numbers: facetNumbers(at),
    })),
    ...project.media.map((part, at) => ({
      id: part.id,
      name: part.name,
      list: 'media' as const,
      kind: 'Gap medium',
      numbers: mediumNumbers(at),
    })),
  ]
}

/** A part that a candidate uses cannot be deleted; the reason stands where the button would be. */
function DeletePart({ project, part }: { readonly project: Project; readonly part: PartView }) {
  const users = candidatesUsing(project, part.list, part.id)
  if (users.length > 0) return <p className="quiet">In use by {users.join(', ')}; cannot be deleted.</p>
  return (
    <button
      type="button"
      onClick={() =>
        editProject((draft) => {
          const at = draft[part.list].findIndex((each) => each.id === part.id)
          if (at >= 0) draft[part.list].splice(at, 1)
        })
      }
    >
      Delete {part.name}
    </button>
  )
}

export function PartsPage() {
  const project = useWorkbench((state) => state.project)
  const parts = partsOf(project)
  return (
    <div className="page">
      <h1>Parts</h1>
      <div className="add-part">
        <button
          type="button"
          onClick={() => editProject((d) => void d.fibres.push(newFibre(freeId('fibre', d.fibres))))}
        >
          Add fibre
        </button>
        <button
          type="button"
          onClick={() => editProject((d) => void d.facets.push(newFacet(freeId('facet', d.facets))))}
        >
          Add facet
        </button>
        <button
          type="button"
          onClick={() => editProject((d) => void d.media.push(newMedium(freeId('medium', d.media))))}
        >
          Add gap medium
        </button>
      </div>
      {parts.map((part) => (
        <fieldset key={`${part.kind} ${part.id}`} className="field-grid">
          <legend>
            {part.name} <span className="quiet">{part.kind}</span>
          </legend>
          <TextField
            label="Name"
            text={part.name}
            onCommit={(name) =>
              editProject((draft) => {
                const own = draft[part.list].find((each) => each.id === part.id)
                if (own !== undefined) own.name = name
              })
            }
          />
          {part.numbers.map((number) => {
            const quantity = number.pick(project)
            if (quantity === undefined) return null
            return (
              <QuantityField
                key={number.label}
                label={number.label}
                quantity={quantity}
                ruleName={number.rule}
                find={number.pick}
              />
            )
          })}
          <DeletePart project={project} part={part} />
        </fieldset>
      ))}
      <Cautions />
    </div>
  )
}
