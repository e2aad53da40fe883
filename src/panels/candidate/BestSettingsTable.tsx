// Where the candidate would lose least, what is pinned, and the click that goes there: one undo step.

import { useDeferredValue, useMemo } from 'react'
import { bestSettings, SETTLED_DIGITS } from '../../analysis/bestSettings'
import { compileCandidate } from '../../analysis/compileCandidate'
import type { SettingName } from '../../model/candidate'
import { setCoreValue } from '../../model/coreQuantity'
import type { Path } from '../../model/issue'
import type { Project } from '../../model/project'
import { quantityAt } from '../../model/quantityAt'
import { RULES } from '../../model/quantityRules'
import { unitFactor, unitLabel } from '../../model/units'
import { editProject } from '../../store/workbench'
import { lossText } from './numbers'

function shown(path: Path, project: Project, rule: keyof typeof RULES, core: number): string {
  const unit = quantityAt(project, path)?.unit ?? RULES[rule].unit
  const factor = unitFactor(RULES[rule].dimension, unit) ?? 1
  return `${Number((core / factor).toPrecision(5))} ${unitLabel(unit)}`
}

export function BestSettingsTable({
  project,
  candidateId,
}: {
  readonly project: Project
  readonly candidateId: string
}) {
  // The search takes longer than a frame for a relay; it follows when there is time.
  const settled = useDeferredValue(project)
  const best = useMemo(() => {
    const compiled = compileCandidate(settled, candidateId)
    return compiled.ok ? bestSettings(compiled.value) : null
  }, [settled, candidateId])
  if (best === null || best.settings.length === 0) return null
  const gainDb = best.nowDb - best.bestDb
  const pin = (elementId: string, name: SettingName, pinned: boolean) =>
    editProject((draft) => {
      const chain = draft.candidates.find((each) => each.id === candidateId)?.chain
      const own = chain?.find((each) => each.id === elementId)
      if (own?.kind !== 'gap' && own?.kind !== 'relay') return
      const rest = (own.pinned ?? []).filter((each) => each !== name)
      own.pinned = pinned ? [...rest, name] : rest
    })
  const use = () =>
    editProject((draft) => {
      for (const { path, rule, best: value, pinned } of best.settings) {
        const quantity = quantityAt(draft, path)
        if (quantity !== undefined && !pinned) setCoreValue(quantity, rule, value, SETTLED_DIGITS)
      }
    })
  return (
    <section className="best-settings">
      <div className="best-settings-line">
        <h2>Ideal setting</h2>
        <span>
          {gainDb > 0
            ? `${lossText(best.bestDb)} dB at the best setting, ${gainDb.toFixed(gainDb < 0.1 ? 3 : 2)} dB less than now.`
            : 'Every free setting is at its best.'}
        </span>
        <button type="button" disabled={gainDb <= 0} onClick={use}>
          Use the best setting
        </button>
      </div>
      <details>
        <summary>Each setting, now and at its best; pins</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">Setting</th>
              <th scope="col" className="number">
                Now
              </th>
              <th scope="col" className="number">
                Best
              </th>
              <th scope="col">Pinned</th>
            </tr>
          </thead>
          <tbody>
            {best.settings.map(({ elementId, name, label, rule, path, pinned, now, best: value }) => (
              <tr key={`${elementId}/${name}`}>
                <th scope="row">{label}</th>
                <td className="number">{shown(path, project, rule, now)}</td>
                <td className="number">{pinned ? 'pinned' : shown(path, project, rule, value)}</td>
                <td>
                  <input
                    type="checkbox"
                    aria-label={`Pin ${label}`}
                    checked={pinned}
                    onChange={(event) => pin(elementId, name, event.target.checked)}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  )
}
