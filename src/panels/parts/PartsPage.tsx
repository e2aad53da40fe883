// Every part of the project with its numbers.

import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../app/Cautions'
import { QuantityField } from '../fields/QuantityField'

interface PartNumber {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (project: Project) => Quantity | undefined
}

interface PartView {
  readonly id: string
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
      kind: 'Fibre',
      numbers: fibreNumbers(at),
    })),
    ...project.facets.map((part, at) => ({
      id: part.id,
      name: part.name,
      kind: 'Facet',
      numbers: facetNumbers(at),
    })),
    ...project.media.map((part, at) => ({
      id: part.id,
      name: part.name,
      kind: 'Gap medium',
      numbers: mediumNumbers(at),
    })),
  ]
}

export function PartsPage() {
  const project = useWorkbench((state) => state.project)
  const parts = partsOf(project)
  return (
    <div className="page">
      <h1>Parts</h1>
      {parts.map((part) => (
        <fieldset key={`${part.kind} ${part.id}`} className="field-grid">
          <legend>
            {part.name} <span className="quiet">{part.kind}</span>
          </legend>
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
        </fieldset>
      ))}
      <Cautions />
    </div>
  )
}
