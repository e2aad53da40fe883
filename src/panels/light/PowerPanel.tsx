// Optical power along the chain and the irradiance on its faces, against the limits that the engineer has set.

import type { Evaluation } from '../../analysis/results/evaluation'
import { quantityOf } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { Cautions } from '../../ui/cautions/Cautions'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { PowerBalance, PowerTable } from './PowerTable'
import './light.css'

export function PowerPanel({
  project,
  evaluation,
}: {
  readonly project: Project
  readonly evaluation: Evaluation
}) {
  const { requirements } = project
  const find = (draft: Project) => draft.requirements
  return (
    <section aria-label="Power" className="light views-below">
      <Cautions />
      <div className="light-choices">
        <OptionalQuantity
          label="Launch power"
          field="powerIn"
          rule="power"
          quantity={requirements.powerIn}
          first={() => quantityOf(1, 'mW')}
          find={find}
        />
        <OptionalQuantity
          label="Irradiance limit of end faces and coatings"
          field="faceIrradiance"
          rule="irradiance"
          quantity={requirements.faceIrradiance}
          first={null}
          find={find}
        />
      </div>
      <div className="table-beside">
        {evaluation.power !== null && <PowerTable power={evaluation.power} />}
        <div>
          {evaluation.power !== null && <PowerBalance power={evaluation.power} />}
          <p className="quiet">
            Peak irradiance of a Gaussian, 2 P / (π wx wy), against the limit entered here or, for a gap
            medium, in Parts. Two-photon absorption, ageing and damage are not computed, and no limit is
            assumed.
          </p>
        </div>
      </div>
    </section>
  )
}
