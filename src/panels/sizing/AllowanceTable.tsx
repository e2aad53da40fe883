// How wide every tolerance may be for the loss limit, alone and allocated together; a click applies the allocated ones as
// one undo step.

import { useState } from 'react'
import type { Allowances } from '../../analysis/sizing/allowances'
import { isSampled, SIZING_CRITERIA, type SizingCriterion } from '../../analysis/sizing/criteria'
import { SIZING_SAMPLES } from '../../analysis/sizing/sampledLosses'
import type { Path } from '../../model/issue'
import { followerOf } from '../../model/parts/oneWidth'
import { leadingLimitDb, leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import { setCoreHalfWidthWithin } from '../../model/quantity/coreQuantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import type { LossCriterion } from '../../model/schema/requirements'
import { countText, fixedText } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { SearchLine } from '../../ui/jobs/SearchLine'
import { type SearchedDesign, useDesignJob } from '../../ui/jobs/useDesignJob'
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

/** A number without a tolerance is excluded until the user includes it in the allocation. */
const usual = (now: number) => (now > 0 ? '1' : LEFT_OUT)

const keyOf = (path: Path) => path.join('/')

const asItIs = (now: number, weight: string | undefined) =>
  now === 0 || weight === LEFT_OUT ? 'excluded' : 'unchanged'

/** How a percentile was found where the fit of a joint by fields misses its target. */
const directText = ({ direct }: Allowances) =>
  direct === null
    ? ''
    : ` The fit to the fields of a joint is less accurate than its target, so the ${countText(direct.summed)} assemblies that decide the percentile are computed directly from the fields; standard error ${fixedText(direct.standardErrorDb, 2)} dB.`

function summaryOf({ nominalDb, nowDb, sharedDb, limitDb, possible }: Allowances, label: string): string {
  const nominal = `${fixedText(nominalDb, 2)} dB`
  return possible
    ? `Nominal ${nominal}. ${label}: ${fixedText(nowDb, 2)} dB now, ${fixedText(sharedDb, 2)} dB with the allocated tolerances.`
    : `The nominal loss of ${nominal}, with the fixed contributions, already exceeds the ${limitDb} dB limit; nothing is left to allocate.`
}

export function AllowanceTable({ project, designId, ready }: SearchedDesign) {
  const [chosen, setCriterion] = useState<SizingCriterion | null>(null)
  const [weights, setWeights] = useState<Readonly<Record<string, string>>>({})
  const limitDb = leadingLimitDb(project.requirements)
  const leading = leadingLoss(project.requirements)
  const { percentile } = leading
  const { channels } = project.requirements
  const asked = askedCriterion(leading)
  const criterion = chosen ?? asked
  const search = useDesignJob(
    'allocation',
    { project, designId, ready },
    {
      limitDb,
      basis: { criterion, share: percentile / 100 },
      weights: Object.fromEntries(Object.entries(weights).map(([key, weight]) => [key, Number(weight)])),
    },
  )
  const { answer: result, isCurrent } = search
  const write = () =>
    editProject((draft) => {
      for (const { path, rule, shared } of result?.rows ?? []) {
        const quantity = quantityAt(draft, path)
        if (quantity === undefined || shared === null) continue
        // Found before the leader is written, because the ratio is that of both stated tolerances.
        const follower = followerOf(draft, path)
        setCoreHalfWidthWithin(quantity, rule, shared, ORDER_DIGITS)
        const follows = follower && quantityAt(draft, follower.path)
        if (follows) setCoreHalfWidthWithin(follows, rule, shared * follower.perCore, ORDER_DIGITS)
      }
    })
  return (
    <div className="allowances" aria-busy={!isCurrent}>
      <h2>Tolerance allocation for a {limitDb} dB limit</h2>
      <div className="axis-choices screen-only">
        <ChoiceField
          label="Criterion"
          value={criterion}
          choices={SIZING_CRITERIA.filter((value) => value !== 'all channels' || channels > 1).map(
            (value) => ({
              value,
              label: labelOf(value, percentile, channels),
            }),
          )}
          onChoose={(value) => setCriterion(SIZING_CRITERIA.find((each) => each === value) ?? criterion)}
        />
        <button
          type="button"
          className="primary"
          disabled={!isCurrent || result?.possible !== true}
          onClick={write}
        >
          Apply allocated tolerances
        </button>
      </div>
      <SearchLine label="Tolerance allocation" search={search} />
      {result !== null && (
        <p className={isCurrent ? undefined : 'outdated'} data-stale={!isCurrent}>
          {summaryOf(result, labelOf(result.basis.criterion, percentile, channels))}
        </p>
      )}
      <p className="quiet">
        {channels > 1 &&
          (criterion === 'all channels'
            ? `Sized for all ${channels} channels together. `
            : `Sized for the worst of three channels of the array (both outer ones and one in the middle of ${channels}), so losses here are higher than those of a single channel. `)}
        {isSampled(criterion) &&
          `Percentiles from ${countText(SIZING_SAMPLES)} simulated assemblies, each at its worst required temperature. The allocated tolerances leave a margin of two standard errors to the limit, so that a yield or array run confirms them.`}
        {result !== null && directText(result)}
      </p>
      {result !== null && (
        <table className={isCurrent ? undefined : 'outdated'}>
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
            {result.rows.map(({ path, label: name, rule, now, alone, shared }) => (
              <tr key={keyOf(path)}>
                <th scope="row">{name}</th>
                <td className="number">{now > 0 ? coreText(project, path, rule, now) : 'none given'}</td>
                <td className="number">
                  {alone === null ? 'no limit' : coreText(project, path, rule, alone)}
                </td>
                <td className="number">
                  {shared === null
                    ? asItIs(now, weights[keyOf(path)])
                    : coreText(project, path, rule, shared)}
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
      )}
    </div>
  )
}
