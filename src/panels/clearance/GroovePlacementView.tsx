// Passive placement in a V-groove: where the core comes to lie and how well, and its transfer to the joint.

import { groovePlacement, type PlacementError, rssUm, worstUm } from '../../analysis/clearance/vGroove'
import { quantityOf } from '../../model/quantity/quantity'
import type { VGroove } from '../../model/schema/build/chipEdge'
import type { FibreEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { fixedText, rounded, roundedTo, signedText } from '../../numerics/numberText'
import { findElement } from '../../store/elementEdits'
import { editProject } from '../../store/workbench'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { FactTable } from '../../ui/figures/FactTable'

const um = (value: number) => `${fixedText(value, 2)} µm`

function ErrorTable({
  axis,
  errors,
}: {
  readonly axis: 'x' | 'y'
  readonly errors: readonly PlacementError[]
}) {
  return (
    <table>
      <caption>Placement error {axis}</caption>
      <thead>
        <tr>
          <th scope="col">Contribution</th>
          <th scope="col" className="number">
            ±, µm
          </th>
        </tr>
      </thead>
      <tbody>
        {errors.map(({ label, plusMinusUm }) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td className="number">{fixedText(plusMinusUm, 3)}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">RSS</th>
          <td className="number">{fixedText(rssUm(errors), 3)}</td>
        </tr>
        <tr>
          <th scope="row">Worst case</th>
          <td className="number">{fixedText(worstUm(errors), 3)}</td>
        </tr>
      </tfoot>
    </table>
  )
}

export function GroovePlacementView({
  groove,
  fibre,
  designId,
  gapId,
}: {
  readonly groove: VGroove
  readonly fibre: FibreEntry
  readonly designId: string
  readonly gapId: string
}) {
  const placed = groovePlacement(groove, fibre)
  const apply = () =>
    editProject((draft) => {
      const gap = findElement(draft, designId, gapId, 'gap')
      if (gap === undefined) return
      const offset = (valueUm: number, errors: readonly PlacementError[]) =>
        quantityOf(roundedTo(valueUm, 3), 'um', 'computed', rounded(rssUm(errors), 3))
      gap.offsetX = offset(placed.offsetXUm, placed.errorsX)
      gap.offsetY = offset(placed.offsetYUm, placed.errorsY)
      gap.aligned = gap.aligned?.filter((axis) => axis !== 'offsetX' && axis !== 'offsetY')
    })
  return (
    <div className="depth-columns">
      <div>
        <p className="depth-answer">
          The core of {fibre.name} lies {um(placed.coreHeightUm)} above the groove surface:{' '}
          {signedText(placed.offsetYUm, 2)} µm from the waveguide in y, {signedText(placed.offsetXUm, 2)} µm
          in x.
        </p>
        <FactTable
          caption="V-groove placement"
          rows={[
            ['Offset y', um(placed.offsetYUm)],
            ['Offset x', um(placed.offsetXUm)],
            [
              'Groove width for offset y = 0',
              placed.idealWidthUm === null ? 'none' : um(placed.idealWidthUm),
            ],
            ['Fibre contact', placed.restsOnEdges ? 'at the groove edges' : 'at both sidewalls'],
          ]}
        />
        <button type="button" onClick={apply}>
          Apply placement to the joint
        </button>
        <p className="quiet">
          Applying sets offsets x and y, placed passively, with their RSS as ±; one undo step restores the
          previous values.
        </p>
      </div>
      <div>
        <ErrorTable axis="y" errors={placed.errorsY} />
        <ErrorTable axis="x" errors={placed.errorsX} />
        <OptionalQuantity
          label="Core-cladding concentricity error"
          field="concentricity"
          rule="concentricity"
          quantity={fibre.concentricity}
          first={() => quantityOf(0.5, 'um', 'estimate')}
          find={(draft: Project) => draft.fibres.find(({ id }) => id === fibre.id)}
        />
      </div>
    </div>
  )
}
