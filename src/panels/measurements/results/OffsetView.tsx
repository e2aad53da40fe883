// A transverse-offset scan: the unknown mode, how Gaussian it is, and the scan as a tolerance curve.

import { useMemo } from 'react'
import { fitFigure } from '../../../figures/measure/scans'
import type { MeasurementResult, OffsetOutcome } from '../../../measure/index'
import type { Project } from '../../../model/schema/project'
import { fixedText, unbroken, withUncertainty } from '../../../numerics/numberText'
import { FactTable, Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { MfdTable } from './MfdTable'
import { WindowComparison } from './WindowComparison'

type Signal = OffsetOutcome['signals'][number]
type Scan = Extract<Signal['outcome'], { ok: true }>['value']

const HEIGHT_PX = 330

export function OffsetView({
  project,
  result,
}: {
  readonly project: Project
  readonly result: MeasurementResult & OffsetOutcome
}) {
  return (
    <>
      {result.mfds.length > 0 && <MfdTable mfds={result.mfds} />}
      {result.signals.map(({ label, outcome }) => (
        <section key={label} aria-label={label}>
          {result.signals.length > 1 && <h2>{label}</h2>}
          {outcome.ok ? (
            <div className="result-columns">
              <ScanDrawing label={label} scan={outcome.value} />
              <ScanDetails project={project} label={label} scan={outcome.value} />
            </div>
          ) : (
            <p className="complaint">{outcome.message}</p>
          )}
        </section>
      ))}
    </>
  )
}

function ScanDetails({
  project,
  label,
  scan,
}: {
  readonly project: Project
  readonly label: string
  readonly scan: Scan
}) {
  return (
    <div>
      <p className="gaussian">{unbroken(scan.gaussianity.sentence)}</p>
      <Warnings messages={scan.warnings.filter((warning) => warning !== scan.gaussianity.sentence)} />
      <FactTable
        caption="Scan results"
        rows={[
          ['Centre', `${withUncertainty(scan.centreUm, 2 * scan.centreStandardUm)} µm`],
          ['1/e² scan radius', `${fixedText(scan.scanRadiusUm, 3)} µm`],
          ['Background level', `${fixedText((100 * scan.backgroundPower) / scan.peakPower, 2)} %`],
        ]}
      />
      <WindowComparison project={project} windows={scan.windows} axis={/y\b/i.test(label) ? 'y' : 'x'} />
    </div>
  )
}

function ScanDrawing({ label, scan }: { readonly label: string; readonly scan: Scan }) {
  const figure = useMemo(() => {
    const { positionUm, power, fitted, residual } = scan.profile
    const share = (values: Float64Array) => values.map((value) => (100 * value) / scan.peakPower)
    return fitFigure(
      { label, x: positionUm, y: share(power), fitted: share(fitted), residual: share(residual) },
      { x: 'Position, µm', y: 'Power, % of the peak', residual: 'Residual, %' },
      `${label}: measured power and Gaussian fit against position; lower plot: residual.`,
    )
  }, [label, scan])
  return <FigureView figure={figure} heightPx={HEIGHT_PX} />
}
