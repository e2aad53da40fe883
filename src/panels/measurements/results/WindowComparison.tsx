// The scan read as a tolerance curve: windows as measured, by the fit, and as a candidate's joint predicts them.

import { fieldWindows } from '../../../analysis/field/fieldWindows'
import { toleranceWindows, WINDOW_STEPS_DB } from '../../../analysis/tolerance/toleranceCurve'
import type { ToleranceWindow } from '../../../measure/index'
import type { Project } from '../../../model/schema/project'
import { fixedText } from '../../../numerics/numberText'
import { useEvaluations } from '../../../store/evaluations'
import { useDesign } from '../../../store/selection'

const DECIMALS = 3
const shown = (value: number | null | undefined) =>
  value === null || value === undefined ? 'beyond the scan' : `± ${fixedText(value, DECIMALS)}`

export function WindowComparison({
  project,
  windows,
  axis,
}: {
  readonly project: Project
  readonly windows: readonly ToleranceWindow[]
  readonly axis: 'x' | 'y'
}) {
  const candidate = useDesign()
  const evaluate = useEvaluations()
  const evaluation = candidate === undefined ? null : evaluate(project, candidate.id)
  const view = evaluation?.ok ? evaluation.value.joints.at(-1) : undefined
  const real = view === undefined ? null : fieldWindows(view)
  const wanted = axis === 'x' ? 'offsetXUm' : 'offsetYUm'
  const found = real === null || real === 'pending' ? view && toleranceWindows(view.joint) : real
  const marks = found?.find((window) => window.axis === wanted)?.marks
  const predicted = (excessDb: number) => {
    const mark = marks?.find((each) => each.excessDb === excessDb)
    return mark?.below == null || mark.above == null
      ? 'not reached'
      : `± ${fixedText((mark.below + mark.above) / 2, DECIMALS)}`
  }
  return (
    <>
      <table data-table="windows">
        <caption>Alignment tolerance, µm</caption>
        <thead>
          <tr>
            <th scope="col">Excess loss</th>
            <th scope="col" className="number">
              Measured
            </th>
            <th scope="col" className="number">
              From fit
            </th>
            {marks !== undefined && (
              <th scope="col" className="number">
                Predicted
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {windows
            .filter(({ excessDb }) => WINDOW_STEPS_DB.some((step) => step === excessDb))
            .map((window) => (
              <tr key={window.excessDb}>
                <th scope="row">{window.excessDb} dB</th>
                <td className="number">{shown(window.measuredHalfWidthUm)}</td>
                <td className="number">{shown(window.fittedHalfWidthUm)}</td>
                {marks !== undefined && (
                  <td className={real === 'pending' ? 'number provisional' : 'number'}>
                    {predicted(window.excessDb)}
                  </td>
                )}
              </tr>
            ))}
        </tbody>
      </table>
      {marks !== undefined && candidate !== undefined && (
        <p className="quiet">
          Predicted along {axis} for {candidate.name}; valid only if the fibre of this design was the probe.
        </p>
      )}
    </>
  )
}
