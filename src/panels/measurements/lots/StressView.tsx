// A stress test: change of the loss with hours or cycles, fitted by each law, over the range that was measured.

import { useMemo, useState } from 'react'
import { fitDrift } from '../../../analysis/lifetime/fitDrift'
import { driftFigure } from '../../../figures/build/drift'
import { attempted, type StressOutcome } from '../../../measure/index'
import { stressTest } from '../../../model/measurements/stressSeries'
import type { MeasurementOf } from '../../../model/schema/measurement'
import { DRIFT_LAWS, type DriftLaw, exposureText, LAW_TEXTS } from '../../../model/words/lifetime'
import { signedText } from '../../../numerics/numberText'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { FactTable } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'

const HEIGHT_PX = 300

export function StressView({
  measurement,
  result,
}: {
  readonly measurement: MeasurementOf<'stress'>
  readonly result: StressOutcome
}) {
  const [law, setLaw] = useState<DriftLaw>('linear')
  const { stress } = result
  const fitted = useMemo(
    () =>
      attempted(() => {
        const test = stressTest(measurement.rows)
        return driftFigure({ test, fit: fitDrift(test, law), exposure: null })
      }),
    [measurement.rows, law],
  )
  const change = (db: number | null) => (db === null ? 'not measured twice' : `${signedText(db, 3)} dB`)
  return (
    <>
      <div className="result-columns">
        {fitted.ok ? (
          <FigureView figure={fitted.value} heightPx={HEIGHT_PX} />
        ) : (
          <p className="complaint" role="alert">
            {fitted.message}
          </p>
        )}
        <div>
          <div className="take-over">
            <ChoiceField
              label="Law shown"
              value={law}
              choices={DRIFT_LAWS.map((each) => ({
                value: each,
                label: `${LAW_TEXTS[each].label}, ${LAW_TEXTS[each].form}`,
              }))}
              onChoose={(value) => setLaw(DRIFT_LAWS.find((each) => each === value) ?? law)}
            />
          </div>
          <FactTable
            caption="Stress test"
            rows={[
              ['Readings', String(stress.readings)],
              ['Assemblies', String(stress.assemblies)],
              ['Channels', String(stress.series)],
              ['Last reading at', exposureText(stress.last, stress.unit)],
              ['Mean change, first to last reading', change(stress.meanChangeDb)],
              ['Greatest change', change(stress.greatestChangeDb)],
            ]}
          />
        </div>
      </div>
      <p className="quiet">
        To include the drift in a design, open Design, Build, Lifetime, and enter the law, the service
        conditions and the acceleration. Nothing is extrapolated here.
      </p>
    </>
  )
}
