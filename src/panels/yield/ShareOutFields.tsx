// Tolerance allocation: the loosest tolerances that reach a target yield, by their cost weights.

import { useState } from 'react'
import type { CostWeights, ShareOut } from '../../analysis/yield/shareOut'
import type { RankedTolerance, YieldResult } from '../../analysis/yield/yieldResult'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { cancelRun, inputsOf, startShareOut, useRun } from '../../store/runs'
import { editProject } from '../../store/workbench'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'
import { shareText } from '../../ui/jobs/YieldNumbers'
import { allocatedText, applyAllocation, otherTolerances, toleranceKey, widthText } from './allocation'

/** Tolerances that make less than this share of the variance keep the weight 1. */
const WORTH_WEIGHING = 0.005

/** Why 100 % cannot be a target. */
const NEVER_ALL = ', because no finite sample can show that every assembly passes'

export function ShareOutFields({
  project,
  candidateId,
  result,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly result: YieldResult
}) {
  const [wanted, setWanted] = useState(95)
  const [weights, setWeights] = useState<CostWeights>({})
  const run = useRun('shareOut', candidateId)
  const plan = run.finished?.inputs === inputsOf(project, candidateId) ? run.finished.result : null
  if (result.ranking.length === 0) return null
  const weighed = result.ranking.filter((each) => each.total >= WORTH_WEIGHING)
  const start = () => void startShareOut(project, candidateId, wanted / 100, weights)
  return (
    <div data-table="share-out">
      <div className="run-settings">
        <TextField
          numeric
          label="Target yield, %"
          text={String(wanted)}
          onCommit={numberCommit('Target yield', [1, 99.99], false, setWanted, NEVER_ALL)}
        />
      </div>
      <WeightTable
        lines={weighed}
        weights={weights}
        plan={plan?.reached === true ? plan : null}
        onSet={(key, weight) => setWeights({ ...weights, [key]: weight })}
      />
      <div className="run-line">
        {run.progress === null ? (
          <button type="button" onClick={start}>
            Allocate
          </button>
        ) : (
          <button type="button" onClick={() => cancelRun('shareOut', candidateId)}>
            Cancel allocation
          </button>
        )}
        <span role="status">{run.progress === null ? run.message : 'Allocating…'}</span>
      </div>
      {plan !== null && <SharedOut plan={plan} project={project} listed={weighed} />}
    </div>
  )
}

function WeightTable({
  lines,
  weights,
  plan,
  onSet,
}: {
  readonly lines: readonly RankedTolerance[]
  readonly weights: CostWeights
  /** What the sharing out found for these weights. */
  readonly plan: ShareOut | null
  readonly onSet: (key: string, weight: number) => void
}) {
  return (
    <div className="wide-table">
      <table className="weights">
        <thead>
          <tr>
            <th scope="col">Tolerance</th>
            <th scope="col" className="number">
              Current ±
            </th>
            <th scope="col">Cost weight</th>
            <th scope="col" className="number">
              Allocated ±
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => {
            const { label } = line
            const key = toleranceKey(line.path)
            return (
              <tr key={key}>
                <th scope="row">{label}</th>
                <td className="number">{widthText(line.plusMinus, line.unit)}</td>
                <td>
                  <TextField
                    numeric
                    label={`Cost weight of ${label}`}
                    text={String(weights[key] ?? 1)}
                    onCommit={numberCommit(`Cost weight of ${label}`, [0.001, 1000], false, (weight) =>
                      onSet(key, weight),
                    )}
                  />
                </td>
                <td className="number">{allocatedText(plan, line)}</td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}

/** What the sharing out comes to, with the tolerances that the table of weights does not list. */
function SharedOut({
  plan,
  project,
  listed,
}: {
  readonly plan: ShareOut
  readonly project: Project
  readonly listed: readonly RankedTolerance[]
}) {
  if (!plan.reached) {
    return (
      <p>
        This yield is not reached even with every tolerance cut to one twentieth of its current value: the
        nominal loss is too high.
      </p>
    )
  }
  const others = otherTolerances(plan, project, listed)
  return (
    <>
      <p>
        Yield {shareText(plan.yieldBefore)} now, <strong>{shareText(plan.yieldAfter)}</strong> with these
        tolerances.
      </p>
      {others.length > 0 && (
        <details>
          <summary>{others.length} more with little effect, which may be wider</summary>
          <ul>
            {others.map(({ key, text }) => (
              <li key={key}>{text}</li>
            ))}
          </ul>
        </details>
      )}
      <p className="quiet">
        No tolerance is widened to more than three times its value. Cost (sum of weight / width):{' '}
        {fixedText(plan.cost, 2)}, compared with {fixedText(plan.costInCommon, 2)} if all are scaled by the
        same factor. Evaluated on {plan.samples} samples; run Yield to confirm.
      </p>
      <button type="button" onClick={() => editProject((draft) => applyAllocation(draft, plan))}>
        Apply allocated tolerances
      </button>
    </>
  )
}
