// The verdict on a measured loss, each cause with its interval, and both curves.

import { useMemo } from 'react'
import { pointsAndLinesFigure } from '../../../figures/measure/scans'
import { runMeasureJob } from '../../../jobs/measureClient'
import type { MeasureOutput } from '../../../jobs/measureJobs'
import type { MeasuredLossCurve } from '../../../measure/index'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { fixedText } from '../../../numerics/numberText'
import { FigureView } from '../../../ui/figures/FigureView'
import { useJob } from '../../../ui/jobs/useJob'
import { degrees } from '../measurementText'

type Output = MeasureOutput<'explain'>
type Found = Extract<Output, { ok: true }>['value']
type Cause = Found['result']['single'][number]

const HEIGHT_PX = 300

const isAngle = (id: string) => id.startsWith('tilt')
const screenUnit = (id: string) => (isAngle(id) ? '°' : ' µm')
const screenValue = (id: string, core: number) => fixedText(isAngle(id) ? degrees(core) : core, 3)

function useExplanation(
  project: Project,
  candidateId: string,
  curve: MeasuredLossCurve,
  axis: 'x' | 'y',
  shapeOnly: boolean,
  withoutShift: boolean,
): Output | null {
  const points = JSON.stringify(curve)
  // The readings are by far the most of a project, and what is measured now has not drifted yet.
  const bare = useMemo(() => ({ ...project, measurements: [] }), [project])
  const options = `${candidateId} ${points} ${axis} ${shapeOnly} ${withoutShift}`
  // biome-ignore lint/correctness/useExhaustiveDependencies: one key for each project and set of options
  const key = useMemo(() => ({}), [bare, options])
  const { answer, message } = useJob<Output>({
    key,
    work: (signal) => {
      const { positionUm, lossDb, standardDb } = curve
      const without = withoutShift ? [axis === 'x' ? 'offsetX' : 'offsetY'] : []
      const measured = { axis, positionsUm: positionUm, measuredDb: lossDb, standardDb, shapeOnly, without }
      return runMeasureJob('explain', { project: bare, candidateId, ...measured }, { signal })
    },
  })
  return message === '' ? answer : { ok: false, message }
}

/** The verdict in screen units; the core's sentence where it names no single cause. */
function verdictText({ verdict, sentence, single }: Found['result']): string {
  const cause = byId(single, verdict)
  if (cause === undefined) return sentence
  return `Best single cause: ${cause.id} = ${screenValue(cause.id, cause.value)}${screenUnit(cause.id)} (${fixedText(cause.pull, 1)} σ from nominal).`
}

function intervalText({ id, interval, isAtLimit }: Cause): string {
  if (interval === null) return isAtLimit ? 'at the search limit' : 'undetermined'
  return `${screenValue(id, interval[0])} to ${screenValue(id, interval[1])}${screenUnit(id)}`
}

export function ExplainedDifference({
  project,
  candidateId,
  curve,
  axis,
  shapeOnly,
  withoutShift,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly curve: MeasuredLossCurve
  readonly axis: 'x' | 'y'
  readonly shapeOnly: boolean
  /** True where the stage's zero is not known, so that the scan gives no information on the offset along it. */
  readonly withoutShift: boolean
}) {
  const output = useExplanation(project, candidateId, curve, axis, shapeOnly, withoutShift)
  if (output === null) return <p role="status">Comparing…</p>
  if (!output.ok) return <p className="complaint">{output.message}</p>
  const { result, held, predictedDb } = output.value
  const unsigned = Math.abs(result.meanDifferenceDb)
  return (
    <>
      <p data-verdict={result.verdict}>
        Measured loss is {fixedText(unsigned, 2)} dB {result.meanDifferenceDb < 0 ? 'lower' : 'higher'} than
        predicted
        {curve.positionUm.length > 1 && ', on average over the scan'}. <strong>{verdictText(result)}</strong>
      </p>
      <div className="explained">
        <CauseTable {...result} />
        {curve.positionUm.length > 1 ? (
          <CurveDrawing curve={curve} predictedDb={predictedDb} axis={axis} />
        ) : (
          <p className="quiet">
            A single loss value rarely separates causes. Measure loss against offset and import the scan.
          </p>
        )}
      </div>
      <p className="quiet">
        σ is the standard uncertainty of each tolerance; values are searched within 5 σ. The last two columns
        before the result take no account of the tolerance. A cause is excluded by the data only, never by its
        tolerance. {held.length > 0 && `Fixed (no tolerance given): ${held.join(', ')}. `}
        {withoutShift && `Offset ${axis} is not among the causes because the stage origin is unknown. `}
        Assumes these are the only causes; contamination, reflections and non-Gaussian modes are not
        considered.
      </p>
    </>
  )
}

/** The causes that remain next to the best one need not explain anything. */
function verdictOf({ ruledOut }: Cause, verdict: string): string {
  if (ruledOut) return 'excluded'
  return verdict === 'unexplained' || verdict === 'several causes' ? 'insufficient' : 'possible'
}

function CauseTable({ single, joint, verdict }: Found['result']) {
  return (
    <table className="causes">
      <caption>Single causes, best first, and all causes combined</caption>
      <thead>
        <tr>
          <th scope="col">Cause</th>
          <th scope="col" className="number">
            Best value
          </th>
          <th scope="col" className="number">
            95 % interval
          </th>
          <th scope="col" className="number">
            Explained loss, dB
          </th>
          <th scope="col" className="number">
            Value by the data alone
          </th>
          <th scope="col" className="number">
            χ² of the data
          </th>
          <th scope="col">Result</th>
          <th scope="col" className="number">
            Combined
          </th>
        </tr>
      </thead>
      <tbody>
        {single.map((cause) => (
          <tr key={cause.id} data-cause={cause.id}>
            <th scope="row">{cause.id}</th>
            <td className="number">
              {screenValue(cause.id, cause.value)}
              {screenUnit(cause.id)}
            </td>
            <td className="number">{intervalText(cause)}</td>
            <td className="number">{fixedText(cause.explainedDb, 2)}</td>
            <td className="number">
              {screenValue(cause.id, cause.dataValue)}
              {screenUnit(cause.id)} ({fixedText(cause.dataPull, 1)} σ)
            </td>
            <td className="number">{fixedText(cause.dataChiSquare, 1)}</td>
            <td>{verdictOf(cause, verdict)}</td>
            <td className="number">
              {screenValue(cause.id, joint.values[cause.id] ?? cause.value)}
              {screenUnit(cause.id)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function CurveDrawing({
  curve,
  predictedDb,
  axis,
}: {
  readonly curve: MeasuredLossCurve
  readonly predictedDb: readonly number[]
  readonly axis: 'x' | 'y'
}) {
  const figure = useMemo(
    () =>
      pointsAndLinesFigure(
        { label: 'measured', x: curve.positionUm, y: curve.lossDb },
        [{ label: 'predicted', x: curve.positionUm, y: predictedDb }],
        { x: `Offset ${axis}, µm`, y: 'Loss, dB' },
        'Loss against offset: measured, and predicted at the nominal values.',
      ),
    [curve, predictedDb, axis],
  )
  return <FigureView figure={figure} heightPx={HEIGHT_PX} />
}
