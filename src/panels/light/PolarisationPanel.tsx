// What the chain does to polarisation: loss of TE and TM, key angles and the extinction ratio they leave.

import { useDeferredValue, useMemo } from 'react'
import { extinction, statesTm } from '../../analysis/light/extinction'
import { polarisationSpectrum } from '../../analysis/light/polarisationSpectrum'
import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { polarisationFigure } from '../../figures/light/spectrum'
import { quantityOf } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import { byId } from '../../model/words/byId'
import { fixedText } from '../../numerics/numberText'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { FigureView } from '../../ui/figures/FigureView'
import { ExtinctionTable } from './ExtinctionTable'
import './light.css'

const HEIGHT_PX = 300
/** Curves that differ by less than this are one. */
const LEAST_DB = 0.0005

function KeyAngles({
  candidate,
  found,
}: {
  readonly candidate: Candidate
  readonly found: ReturnType<typeof extinction>
}) {
  const nameOf = (id: string) => found.joins.find(({ elementId }) => elementId === id)?.label.toLowerCase()
  const joins = candidate.chain.filter(
    (each) => each.kind === 'splice' || each.kind === 'gap' || each.kind === 'relay',
  )
  return (
    <div className="light-choices">
      {joins.map((join) => (
        <OptionalQuantity
          key={join.id}
          label={`Key angle, ${nameOf(join.id) ?? join.kind}`}
          field="keyAngle"
          rule="keyAngle"
          quantity={join.keyAngle}
          first={() => quantityOf(0, 'deg', 'estimate', 2)}
          find={(draft) => {
            const own = byId(byId(draft.candidates, candidate.id)?.chain, join.id)
            return own?.kind === 'splice' || own?.kind === 'gap' || own?.kind === 'relay' ? own : undefined
          }}
        />
      ))}
    </div>
  )
}

export function PolarisationPanel({ project, design, evaluation }: EvaluatedDesign) {
  const settled = useDeferredValue(project)
  const curves = useMemo(() => polarisationSpectrum(settled, design.id), [settled, design.id])
  const { teDb, tmDb, dependentLossDb } = evaluation.polarisation
  const found = extinction(project, design)
  return (
    <section aria-label="Polarisation" className="light views-below depth-columns">
      <div>
        <h2>Loss by polarisation</h2>
        <dl className="light-facts">
          <dt>TE, field along the chip surface</dt>
          <dd>{fixedText(teDb, 2)} dB</dd>
          <dt>TM, field normal to the chip surface</dt>
          <dd>{fixedText(tmDb, 2)} dB</dd>
          <dt>Polarisation-dependent loss</dt>
          <dd data-fact="pdl">{fixedText(dependentLossDb, 2)} dB</dd>
        </dl>
        {!statesTm(project, design) && (
          <p>
            One facet mode is given for both polarisations, so TE and TM differ only at angled faces. Add its
            TM mode in Parts.
          </p>
        )}
        {dependentLossDb >= LEAST_DB && (
          <p className="quiet">
            The budget uses the TE mode of the facet, and unpolarised light at the faces. The loss of the
            worse polarisation is shown below its totals.
          </p>
        )}
        {curves.ok && curves.value.greatestDb > LEAST_DB && (
          <FigureView figure={polarisationFigure(curves.value)} heightPx={HEIGHT_PX} />
        )}
        {!curves.ok && (
          <ul className="complaints">
            {curves.issues.map((issue) => (
              <li key={issue.message}>{issue.message}</li>
            ))}
          </ul>
        )}
      </div>
      <div>
        <h2>Extinction ratio</h2>
        <ExtinctionTable found={found} />
        <KeyAngles candidate={design} found={found} />
        <p className="quiet">
          The extinction ratio follows from the angle between the axes of two polarisation-maintaining
          waveguides; crosstalk and stress inside the waveguides are not included. A joint without a key angle
          is not evaluated.
        </p>
      </div>
    </section>
  )
}
