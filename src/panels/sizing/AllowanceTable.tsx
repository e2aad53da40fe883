// How wide every tolerance may be for the loss limit, alone and allocated together; a click applies the allocated ones as
// one undo step.

import { useDeferredValue, useMemo, useState } from 'react'
import { allowances } from '../../analysis/sizing/allowances'
import {
  isSampled,
  SIZING_CRITERIA,
  SIZING_SAMPLES,
  type SizingCriterion,
} from '../../analysis/sizing/criteria'
import type { SizedCandidate } from '../../analysis/sizing/wholeRow'
import type { Path } from '../../model/issue'
import { followerOf } from '../../model/parts/oneWidth'
import { leadingLimitDb, leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import { setCoreHalfWidthWithin } from '../../model/quantity/coreQuantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import type { Project } from '../../model/schema/project'
import type { LossCriterion } from '../../model/schema/requirements'
import { fixedText } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { coreText } from '../../ui/text/coreText'

/** How difficult a tolerance is to hold, as its weight in the allocation. */
const LEFT_OUT = '0'
const WEIGHTS = [
  { value: LEFT_OUT, label: 'excluded' },
  { value: '0.5', label: 'easy' },
  { value: '1', label: 'normal' },
  { value: '2', label: 'difficult' },
  { value: '4', label: 'very difficult' },
]
const ORDER_DIGITS = 3

const labelOf = (criterion: SizingCriterion, percentile: number, channels: number) =>
  ({
    RSS: 'RSS',
    'worst case': 'Worst case',
    percentile: percentileName(percentile),
    'all channels': `${percentileName(percentile)}, all ${channels} channels`,
  })[criterion]

/** The criterion of the leading requirement; RSS where it asks for the nominal loss, which leaves nothing to size by. */
function askedCriterion({ basis, channels }: LossCriterion): SizingCriterion {
  if (basis === 'percentile') return channels === 'all' ? 'all channels' : 'percentile'
  return basis === 'worst case' ? 'worst case' : 'RSS'
}

/** A number without a tolerance is excluded until somebody wants it allocated too. */
const usual = (now: number) => (now > 0 ? '1' : LEFT_OUT)

const keyOf = (path: Path) => path.join('/')

const asItIs = (now: number, weight: string | undefined) =>
  now === 0 || weight === LEFT_OUT ? 'excluded' : 'unchanged'

export function AllowanceTable({
  project,
  compiled,
}: {
  readonly project: Project
  readonly compiled: SizedCandidate
}) {
  const [chosen, setCriterion] = useState<SizingCriterion | null>(null)
  const [weights, setWeights] = useState<Readonly<Record<string, string>>>({})
  const limitDb = leadingLimitDb(project.requirements)
  const leading = leadingLoss(project.requirements)
  const { percentile } = leading
  const { channels } = project.requirements
  const asked = askedCriterion(leading)
  // Every assembly of a relay is a search or a trace: seconds to minutes, so it runs on request only.
  const isSlow = isSampled(asked) && compiled.candidate.chain.some(({ kind }) => kind === 'relay')
  const wanted = chosen ?? (isSlow ? 'RSS' : asked)
  // A percentile takes longer than a frame; the page is there before it.
  const criterion = useDeferredValue(wanted, 'RSS')
  const label = labelOf(criterion, percentile, channels)
  const result = useMemo(
    () =>
      allowances(compiled, limitDb, { criterion, share: percentile / 100 }, (path, now) =>
        Number(weights[keyOf(path)] ?? usual(now)),
      ),
    [compiled, limitDb, criterion, percentile, weights],
  )
  const write = () =>
    editProject((draft) => {
      for (const { path, rule, shared } of result.rows) {
        const quantity = quantityAt(draft, path)
        if (quantity === undefined || shared === null) continue
        // Found before the leader is written, because the ratio is that of both stated tolerances.
        const follower = followerOf(draft, path)
        setCoreHalfWidthWithin(quantity, rule, shared, ORDER_DIGITS)
        const follows = follower && quantityAt(draft, follower.path)
        if (follows) setCoreHalfWidthWithin(follows, rule, shared * follower.perCore, ORDER_DIGITS)
      }
    })
  const { nominalDb, nowDb, sharedDb, possible, rows } = result
  return (
    <div className="allowances" aria-busy={criterion !== wanted}>
      <h2>Tolerance allocation for a {limitDb} dB limit</h2>
      <div className="axis-choices screen-only">
        <ChoiceField
          label="Criterion"
          value={wanted}
          choices={SIZING_CRITERIA.filter((value) => value !== 'all channels' || channels > 1).map(
            (value) => ({
              value,
              label: labelOf(value, percentile, channels),
            }),
          )}
          onChoose={(value) => setCriterion(SIZING_CRITERIA.find((each) => each === value) ?? wanted)}
        />
        <button
          type="button"
          className="primary"
          disabled={!possible || criterion !== wanted}
          onClick={write}
        >
          Apply allocated tolerances
        </button>
      </div>
      <p>
        {possible
          ? `Nominal ${fixedText(nominalDb, 2)} dB. ${label}: ${fixedText(nowDb, 2)} dB now, ${fixedText(sharedDb, 2)} dB with the allocated tolerances.`
          : `Nominal ${fixedText(nominalDb, 2)} dB plus fixed contributions already exceed the ${limitDb} dB limit; nothing left to allocate.`}
      </p>
      <p className="quiet">
        {channels > 1 &&
          `Sized for the whole array of ${channels} channels: the worst of the outer two and the middle one. `}
        {isSampled(criterion) &&
          `Percentiles from ${SIZING_SAMPLES} simulated assemblies; confirm with a yield or array run.`}
        {isSlow &&
          chosen === null &&
          `The requirement is ${labelOf(asked, percentile, channels)}; for a relay, choose it as the criterion: the calculation takes longer.`}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col" className="number">
              Current ±
            </th>
            <th scope="col" className="number">
              Maximum ± (alone)
            </th>
            <th scope="col" className="number">
              Allocated ±
            </th>
            <th scope="col">Difficulty</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ path, label: name, rule, now, alone, shared }) => (
            <tr key={keyOf(path)}>
              <th scope="row">{name}</th>
              <td className="number">{now > 0 ? coreText(project, path, rule, now) : 'none given'}</td>
              <td className="number">{alone === null ? 'no limit' : coreText(project, path, rule, alone)}</td>
              <td className="number">
                {shared === null ? asItIs(now, weights[keyOf(path)]) : coreText(project, path, rule, shared)}
              </td>
              <td>
                <select
                  aria-label={`Difficulty of ${name}`}
                  value={weights[keyOf(path)] ?? usual(now)}
                  onChange={(event) => setWeights({ ...weights, [keyOf(path)]: event.target.value })}
                >
                  {WEIGHTS.map(({ value, label: text }) => (
                    <option key={value} value={value}>
                      {text}
                    </option>
                  ))}
                </select>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
