// A chip facet: its mode, the taper behind it, and the waveguide cross-section from which the mode can be solved.

import { lazy, type ReactNode, Suspense, useState } from 'react'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { FacetEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { partsView, usePartsView } from '../../store/partsView'
import { editProject } from '../../store/workbench'
import { Tabs } from '../../ui/controls/Tabs'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { IndexField } from '../../ui/fields/IndexField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { ChipEdgeFields } from '../../ui/outlines/ChipEdgeFields'
import type { SectionTab, SolveChoice } from './crossSection/CrossSectionPanel'
import { facetOwner } from './crossSection/sectionOwner'
import { ModeOverWavelengthFields } from './ModeOverWavelength'
import { SolvedShapeFields } from './modeShape/ModeShapeFields'
import { PartFrame } from './PartFrame'
import { TmFields } from './TmFields'

const CrossSectionPanel = lazy(() =>
  import('./crossSection/CrossSectionPanel').then((each) => ({ default: each.CrossSectionPanel })),
)

const SECTION_VIEWS: readonly { readonly id: SectionTab; readonly label: string }[] = [
  { id: 'cross-section', label: 'Waveguide cross-section' },
  { id: 'mode', label: 'Solved mode' },
  { id: 'sweep', label: 'Sweep' },
  { id: 'taper', label: 'Taper' },
]

/** Whether one width, such as that of the taper's tip, lies behind both diameters. */
const APART = 'independently'
const TOGETHER = 'together, from one width'

const NUMBERS: readonly {
  readonly label: string
  readonly rule: RuleName
  readonly pick: (facet: FacetEntry) => Quantity
}[] = [
  { label: 'MFD x', rule: 'mfd', pick: (facet) => facet.mfdX },
  { label: 'MFD y', rule: 'mfd', pick: (facet) => facet.mfdY },
  { label: 'Taper loss', rule: 'loss', pick: (facet) => facet.taperLoss },
  { label: 'Waveguide width at the facet', rule: 'guideSize', pick: (facet) => facet.guideWidth },
  { label: 'Waveguide height at the facet', rule: 'guideSize', pick: (facet) => facet.guideHeight },
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
  const find = (draft: Project) => byId(draft.facets, facet.id)
  const tab = usePartsView((state) => state.facetTab)
  const [choice, setChoice] = useState<SolveChoice>({ fibreId: project.fibres[0]?.id ?? '', grid: '200x150' })
  const section = (view: SectionTab): ReactNode => (
    <Suspense fallback={<p className="quiet">Loading…</p>}>
      <CrossSectionPanel
        project={project}
        owner={facetOwner(facet)}
        facet={facet}
        view={view}
        choice={choice}
        onChoice={setChoice}
        onDefined={() => partsView.setState({ facetTab: 'cross-section' })}
      />
    </Suspense>
  )
  return (
    <PartFrame
      project={project}
      list="facets"
      kind="facet"
      part={facet}
      tabs={(fields) => (
        <Tabs
          flowing
          label={`Views of ${facet.name}`}
          tabs={[
            { id: 'facet', label: 'Facet', view: () => fields },
            { id: 'chip-edge', label: 'Chip edge', view: () => <ChipEdgeFields facet={facet} /> },
            ...SECTION_VIEWS.map(({ id, label }) => ({ id, label, view: () => section(id) })),
          ]}
          chosen={tab}
          onChoose={(id) => partsView.setState({ facetTab: id })}
        />
      )}
    >
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
      <ChoiceField
        label="MFD x and y vary"
        value={facet.oneWidth === true ? TOGETHER : APART}
        choices={[APART, TOGETHER].map((value) => ({ value, label: value }))}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            if (own !== undefined) own.oneWidth = value === TOGETHER ? true : undefined
          })
        }
      />
      <SolvedShapeFields project={project} owner={facetOwner(facet)} />
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
        Unless a field is supplied, the facet mode is modelled as a Gaussian with flat phase, as at the tip of
        an inverse taper. Taper loss and substrate leakage are added separately.
      </p>
      <ModeOverWavelengthFields
        law={facet.overWavelength}
        mode={facet}
        wavelength={project.requirements.wavelength}
        find={find}
      />
      <TmFields facet={facet} find={find} />
    </PartFrame>
  )
}
