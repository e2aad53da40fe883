// How wide every tolerance may be for the loss limit, alone and allocated together; a click applies the allocated ones as
// one undo step.

import { useMemo, useState } from 'react'
import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import { allowances, SHARE_BASES, type ShareBasis } from '../../analysis/sizing/allowances'
import type { Path } from '../../model/issue'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { setCoreHalfWidth } from '../../model/quantity/coreQuantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import type { Project } from '../../model/schema/project'
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

const BASIS_LABELS: Readonly<Record<ShareBasis, string>> = {
  'root sum square': 'RSS',
  'worst corner': 'Worst case',
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
  readonly compiled: CompiledCandidate
}) {
  const [basis, setBasis] = useState<ShareBasis>('root sum square')
  const [weights, setWeights] = useState<Readonly<Record<string, string>>>({})
  const limitDb = leadingLimitDb(project.requirements)
  const result = useMemo(
    () => allowances(compiled, limitDb, basis, (path, now) => Number(weights[keyOf(path)] ?? usual(now))),
    [compiled, limitDb, basis, weights],
  )
  const write = () =>
    editProject((draft) => {
      for (const { path, rule, shared } of result.rows) {
        const quantity = quantityAt(draft, path)
        if (quantity !== undefined && shared !== null) setCoreHalfWidth(quantity, rule, shared, ORDER_DIGITS)
      }
    })
  const { nominalDb, nowDb, sharedDb, possible, rows } = result
  return (
    <div className="allowances">
      <h2>Tolerance allocation for a {limitDb} dB limit</h2>
      <div className="axis-choices screen-only">
        <ChoiceField
          label="Allocation method"
          value={basis}
          choices={SHARE_BASES.map((value) => ({ value, label: BASIS_LABELS[value] }))}
          onChoose={(value) => setBasis(SHARE_BASES.find((each) => each === value) ?? basis)}
        />
        <button type="button" className="primary" disabled={!possible} onClick={write}>
          Apply allocated tolerances
        </button>
      </div>
      <p>
        {possible
          ? `Nominal ${nominalDb.toFixed(2)} dB. ${BASIS_LABELS[basis]}: ${nowDb.toFixed(2)} dB now, ${sharedDb.toFixed(2)} dB with the allocated tolerances.`
          : `Nominal ${nominalDb.toFixed(2)} dB plus fixed contributions already exceed the ${limitDb} dB limit; nothing left to allocate.`}
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
          {rows.map(({ path, label, rule, now, alone, shared }) => (
            <tr key={keyOf(path)}>
              <th scope="row">{label}</th>
              <td className="number">{now > 0 ? coreText(project, path, rule, now) : 'none given'}</td>
              <td className="number">{alone === null ? 'no limit' : coreText(project, path, rule, alone)}</td>
              <td className="number">
                {shared === null ? asItIs(now, weights[keyOf(path)]) : coreText(project, path, rule, shared)}
              </td>
              <td>
                <select
                  aria-label={`Difficulty of ${label}`}
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
