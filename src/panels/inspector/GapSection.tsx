// A gap: its six degrees of freedom and its end faces, then what is folded until it is needed.

import type { JointView } from '../../analysis/results/evaluation'
import type { Quantity } from '../../model/quantity/quantity'
import { quantityOf } from '../../model/quantity/quantity'
import { valueText } from '../../model/quantity/quantityWords'
import type { Candidate, GapElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { PoseAxis } from '../../model/words/candidate'
import { findElement } from '../../store/elementEdits'
import { AssemblyFields } from '../../ui/fields/AssemblyFields'
import { DriftFields } from '../../ui/fields/DriftFields'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { plusMinusText } from '../../ui/fields/plusMinus'
import { FacesSection } from './FacesSection'
import { InspectorSection } from './InspectorSection'
import { ANGLE_SPECS, Numbers, OFFSET_SPECS, type Spec } from './Numbers'

type GapQuantity = PoseAxis | 'nearFaceAngle' | 'farFaceAngle'

const FIELDS: readonly Spec<GapQuantity>[] = [
  { field: 'gap', label: 'Gap', rule: 'gap' },
  ...OFFSET_SPECS,
  ...ANGLE_SPECS,
]
const SHIFT_AXES: Readonly<Partial<Record<GapQuantity, 'x' | 'y' | 'z'>>> = {
  offsetX: 'x',
  offsetY: 'y',
  gap: 'z',
}

/** `−0.2 ± 0.6 µm` */
function shiftText(shift: Quantity): string {
  const [value = '', ...unit] = valueText(shift).split(' ')
  return [value, plusMinusText(shift), ...unit].filter((word) => word !== '').join(' ')
}

/** How the axis is aligned and what moves it afterwards: `active alignment, then cure shift 0.2 ± 0.1 µm`. */
function assemblyNote(gap: GapElement, field: GapQuantity, bonded: boolean): string | undefined {
  const aligned = gap.aligned?.some((axis) => axis === field) === true
  const axis = SHIFT_AXES[field]
  const shift = axis === undefined ? undefined : gap.bondShift?.[axis]
  const moves = shift !== undefined && (shift.value !== 0 || shift.tolerance !== undefined)
  const parts = [
    ...(aligned ? ['active alignment'] : []),
    ...(moves ? [`${bonded ? 'cure shift' : 'holder drift'} ${shiftText(shift)}`] : []),
  ]
  return parts.length === 0 ? undefined : parts.join(', then ')
}

export function GapSection({
  project,
  design,
  gap,
  view,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly gap: GapElement
  readonly view: JointView | undefined
}) {
  const bonded = project.media.some((each) => each.id === gap.mediumId && each.state === 'adhesive')
  const find = (draft: Project) => findElement(draft, design.id, gap.id, 'gap')
  const drift = bonded ? 'Cure shift' : 'Holder drift'
  const atChip = gap === design.chain.findLast(({ kind }) => kind === 'gap' || kind === 'relay')
  const aligned = gap.aligned?.length ?? 0
  return (
    <>
      <div className="inspector-rows">
        <Numbers
          specs={FIELDS}
          owner={gap}
          find={find}
          noteOf={(field) => assemblyNote(gap, field, bonded)}
        />
      </div>
      <FacesSection joint={gap} designId={design.id} view={view} />
      <InspectorSection
        title={atChip ? `Alignment and ${drift.toLowerCase()}` : drift}
        note={atChip && aligned > 0 ? `${aligned} axes active` : undefined}
      >
        {atChip ? (
          <AssemblyFields candidate={design} />
        ) : (
          <DriftFields joint={gap} find={find} bonded={bonded} />
        )}
      </InspectorSection>
      <div className="inspector-line">
        <OptionalQuantity
          label="Joint loss (entered)"
          field="typedLoss"
          rule="loss"
          quantity={gap.typedLoss}
          first={() => quantityOf(0.5, 'dB')}
          find={find}
          words={['Enter joint loss manually', 'Remove entered loss']}
          whole
        />
      </div>
    </>
  )
}
