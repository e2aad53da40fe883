// The optimum of a design, what is pinned, and the click that applies it: one undo step.

import { memo } from 'react'
import { type PartFit, writeFreedPart } from '../../analysis/sizing/partFits'
import { SETTLED_DIGITS } from '../../analysis/tolerance/bestSettings'
import type { Path } from '../../model/issue'
import { setCoreValue } from '../../model/quantity/coreQuantity'
import { lossText } from '../../model/quantity/lossText'
import { quantityAt } from '../../model/quantity/quantityAt'
import { RULES } from '../../model/quantity/quantityRules'
import { unitFactor, withUnit } from '../../model/quantity/units'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import type { SettingName } from '../../model/words/candidate'
import { fixedText, plainText } from '../../numerics/numberText'
import { useEvaluations } from '../../store/evaluations'
import { editProject } from '../../store/workbench'
import { Fold } from '../../ui/controls/Fold'
import { useAfterFrame } from '../../ui/figures/useAfterFrame'
import { SearchLine } from '../../ui/jobs/SearchLine'
import { useDesignJob } from '../../ui/jobs/useDesignJob'
import { PartFitRows } from './PartFitRows'

/** A gain that three decimals do not show is none. */
const WORTH_DB = 5e-4

function shown(path: Path, project: Project, rule: keyof typeof RULES, core: number): string {
  const unit = quantityAt(project, path)?.unit ?? RULES[rule].unit
  const factor = unitFactor(RULES[rule].dimension, unit) ?? 1
  return withUnit(plainText(core / factor, 5), unit)
}

/** A list of names with one more, or without it. */
function listed<T>(names: readonly T[] | undefined, name: T, on: boolean): T[] {
  const rest = (names ?? []).filter((each) => each !== name)
  return on ? [...rest, name] : rest
}

interface OfDesign {
  readonly project: Project
  readonly designId: string
}

export function OptimumView({ project, designId }: OfDesign) {
  // A drag keeps its frame for the numbers; what is searched follows when there is time.
  const settled = useAfterFrame(project)
  return <FoundOptimum key={designId} project={settled} designId={designId} isBehind={settled !== project} />
}

interface Searched extends OfDesign {
  /** Whether the project is an earlier one than that on the screen. */
  readonly isBehind: boolean
}

const FoundOptimum = memo(function FoundOptimum({ project, designId, isBehind }: Searched) {
  const evaluate = useEvaluations()
  const evaluation = evaluate(project, designId)
  const ready = evaluation.ok && !evaluation.value.awaitsFit
  const search = useDesignJob('optimum', { project, designId, ready }, {})
  const { answer: best } = search
  const isCurrent = search.isCurrent && !isBehind
  if (!evaluation.ok) return null
  const frame = {
    className: 'optimum',
    'aria-label': 'Optimum settings',
    'aria-busy': isBehind || (!search.isCurrent && search.message === ''),
  }
  if (best === null || best.settings.length === 0) {
    return (
      <section {...frame}>
        <SearchLine label="Optimum" search={search} />
      </section>
    )
  }
  const { fits, changed } = best
  const byFields = evaluation.value.joints.some(({ field }) => field !== undefined)
  const gained = best.nowDb - best.bestDb
  const gainDb = gained < WORTH_DB ? 0 : gained
  const onJoint = (elementId: string, recipe: (own: GapElement | RelayElement) => void) =>
    editProject((draft) => {
      const chain = byId(draft.candidates, designId)?.chain
      const own = byId(chain, elementId)
      if (own?.kind === 'gap' || own?.kind === 'relay') recipe(own)
    })
  const pin = (elementId: string, name: SettingName, pinned: boolean) =>
    onJoint(elementId, (own) => {
      own.pinned = listed(own.pinned, name, pinned)
    })
  const free = ({ elementId, name }: PartFit, freed: boolean) =>
    onJoint(elementId, (own) => {
      own.freed = listed(own.freed, name, freed)
    })
  const use = () =>
    editProject((draft) => {
      for (const part of changed) writeFreedPart(draft, part)
      for (const { path, rule, best: value, pinned } of best.settings) {
        const quantity = quantityAt(draft, path)
        if (quantity !== undefined && !pinned) setCoreValue(quantity, rule, value, SETTLED_DIGITS)
      }
    })
  // That all are at their optimum would contradict a pose that has moved since.
  const ungained = isCurrent ? 'All unpinned parameters are at their optimum.' : 'Out of date'
  const text =
    gainDb > 0 ? `${lossText(best.bestDb)} dB, −${fixedText(gainDb, gainDb < 0.1 ? 3 : 2)}` : ungained
  return (
    <section {...frame}>
      <div className="optimum-line">
        <button type="button" className="primary" disabled={!isCurrent || gainDb <= 0} onClick={use}>
          Apply optimum
        </button>
        <span className={isCurrent ? 'quiet' : 'quiet outdated'} data-stale={!isCurrent}>
          {text}
        </span>
      </div>
      <SearchLine label="Optimum" search={search} />
      {byFields && (
        <p className="quiet">Optimised with Gaussian modes; the field-based minimum may differ.</p>
      )}
      <Fold className="inspector-section" summary="Current and optimum values">
        {() => (
          <>
            <table className={isCurrent ? undefined : 'outdated'}>
              <thead>
                <tr>
                  <th scope="col">Parameter</th>
                  <th scope="col" className="number">
                    Current
                  </th>
                  <th scope="col" className="number">
                    Optimum
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
                <PartFitRows project={project} fits={fits} changed={changed} onFree={free} />
              </tbody>
            </table>
            {changed.length > 0 && (
              <p className="quiet">
                Applying an unpinned spot size or magnification changes the part, and with it every design
                that uses it.
              </p>
            )}
          </>
        )}
      </Fold>
    </section>
  )
})
