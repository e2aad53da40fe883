// One tolerance for the same number of several parts: in its unit, or in per cent of each value.

import { useId, useState } from 'react'
import { partOf, setTolerances } from '../../../model/parts/partEdits'
import type { PartRef } from '../../../model/parts/partKinds'
import { partQuantities } from '../../../model/parts/partQuantities'
import { DISTRIBUTIONS, type Quantity } from '../../../model/quantity/quantity'
import { unitLabel } from '../../../model/quantity/units'
import type { Project } from '../../../model/schema/project'
import { LIMITS } from '../../../model/words/limits'
import { editProject } from '../../../store/workbench'
import { Dialog } from '../../../ui/controls/Dialog'
import { ChoiceField } from '../../../ui/fields/ChoiceField'

const PER_CENT = 'per cent'

interface Known {
  readonly field: string
  readonly label: string
  readonly units: readonly Quantity['unit'][]
  readonly count: number
}

/** The numbers that the parts have, those of most parts first. */
function knownQuantities(project: Project, refs: readonly PartRef[]): readonly Known[] {
  const found = new Map<string, Known>()
  for (const ref of refs) {
    const part = partOf(project, ref)
    for (const { field, label, quantity } of part === undefined ? [] : partQuantities(part)) {
      const before = found.get(field)
      found.set(field, {
        field,
        label,
        units: [...new Set([...(before?.units ?? []), quantity.unit])],
        count: (before?.count ?? 0) + 1,
      })
    }
  }
  return [...found.values()].sort((a, b) => b.count - a.count)
}

export function SetTolerance({
  project,
  refs,
  shown,
  onClose,
  onSaid,
}: {
  readonly project: Project
  readonly refs: readonly PartRef[]
  readonly shown: boolean
  readonly onClose: () => void
  readonly onSaid: (said: string) => void
}) {
  const id = useId()
  const known = knownQuantities(project, refs)
  const [field, setField] = useState('')
  const [text, setText] = useState('')
  const [unit, setUnit] = useState<string>(PER_CENT)
  const [distribution, setDistribution] = useState<string>('uniform')
  const chosen = known.find((each) => each.field === field) ?? known[0]
  const units: readonly string[] = [...(chosen?.units ?? []), PER_CENT]
  const shownUnit = units.includes(unit) ? unit : (units[0] ?? PER_CENT)
  const plusMinus = Number(text.trim().replace(',', '.'))
  const sound = text.trim() !== '' && plusMinus >= 0 && plusMinus <= LIMITS.plusMinus
  const apply = () => {
    if (!sound || chosen === undefined) return
    let changed = 0
    editProject((draft) => {
      changed = setTolerances(draft, refs, {
        field: chosen.field,
        plusMinus,
        unit: shownUnit as Quantity['unit'] | typeof PER_CENT,
        distribution: DISTRIBUTIONS.find((each) => each === distribution) ?? 'uniform',
      })
    })
    onSaid(
      `${chosen.label}: tolerance set for ${changed} of ${refs.length} ${refs.length === 1 ? 'part' : 'parts'}`,
    )
    onClose()
  }
  return (
    <Dialog
      title={`Set tolerance of ${refs.length} ${refs.length === 1 ? 'part' : 'parts'}`}
      shown={shown}
      onClose={onClose}
      className="set-tolerance"
    >
      <form
        onSubmit={(event) => {
          event.preventDefault()
          apply()
        }}
      >
        <div className="field-grid">
          <ChoiceField
            label="Quantity"
            value={chosen?.field ?? ''}
            choices={known.map((each) => ({ value: each.field, label: `${each.label} (${each.count})` }))}
            onChoose={setField}
          />
          <div className="field">
            <label htmlFor={id}>±</label>
            <input
              id={id}
              inputMode="decimal"
              value={text}
              aria-invalid={text.trim() !== '' && !sound}
              onChange={(event) => setText(event.target.value)}
            />
          </div>
          <ChoiceField
            label="Unit"
            value={shownUnit}
            choices={units.map((each) => ({
              value: each,
              label: each === PER_CENT ? '% of each value' : unitLabel(each as Quantity['unit']) || 'number',
            }))}
            onChoose={setUnit}
          />
          <ChoiceField
            label="Distribution"
            value={distribution}
            choices={DISTRIBUTIONS.map((value) => ({ value, label: value }))}
            onChoose={setDistribution}
          />
        </div>
        <p className="quiet">0 removes the tolerance. Parts without this quantity are left unchanged.</p>
        <div className="dialog-actions">
          <button type="submit" className="primary" disabled={!sound}>
            Apply
          </button>
        </div>
      </form>
    </Dialog>
  )
}
