// How wide every tolerance may be for the loss limit, alone and shared out; a click writes the shared ones into parts
// and chain, as one undo step.

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

/** How hard a tolerance is to hold, as its weight in the sharing. */
const LEFT_OUT = '0'
const WEIGHTS = [
  { value: LEFT_OUT, label: 'left out' },
  { value: '0.5', label: 'easy' },
  { value: '1', label: 'usual' },
  { value: '2', label: 'hard' },
  { value: '4', label: 'very hard' },
]
const ORDER_DIGITS = 3

/** A number without a tolerance is left out until somebody wants it shared too. */
const usual = (now: number) => (now > 0 ? '1' : LEFT_OUT)

const keyOf = (path: Path) => path.join('/')

const asItIs = (now: number, weight: string | undefined) =>
  now === 0 || weight === LEFT_OUT ? 'left out' : 'as it is'

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
    <section className="allowances" aria-label="Allowed tolerances">
      <h2>Allowed tolerances for {limitDb} dB</h2>
      <div className="axis-choices screen-only">
        <ChoiceField
          label="Shared out by"
          value={basis}
          choices={SHARE_BASES.map((value) => ({ value, label: value }))}
          onChoose={(value) => setBasis(SHARE_BASES.find((each) => each === value) ?? basis)}
        />
        <button type="button" disabled={!possible} onClick={write}>
          Write the shared tolerances into parts and chain
        </button>
      </div>
      <p>
        {possible
          ? `Nominal ${nominalDb.toFixed(2)} dB; ${basis} now ${nowDb.toFixed(2)} dB, ${sharedDb.toFixed(2)} dB with the shared tolerances.`
          : `Nominal ${nominalDb.toFixed(2)} dB, and what cannot be ordered tighter leaves nothing of ${limitDb} dB to share out.`}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col" className="number">
              Now ±
            </th>
            <th scope="col" className="number">
              Alone ±
            </th>
            <th scope="col" className="number">
              Shared ±
            </th>
            <th scope="col">Hard to hold</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ path, label, rule, now, alone, shared }) => (
            <tr key={keyOf(path)}>
              <th scope="row">{label}</th>
              <td className="number">{now > 0 ? coreText(project, path, rule, now) : 'none stated'}</td>
              <td className="number">{alone === null ? 'no limit' : coreText(project, path, rule, alone)}</td>
              <td className="number">
                {shared === null ? asItIs(now, weights[keyOf(path)]) : coreText(project, path, rule, shared)}
              </td>
              <td>
                <select
                  aria-label={`How hard ${label} is to hold`}
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
    </section>
  )
}
