// The second row of the frame, on every page: each requirement as met, not met or not evaluated for the chosen design,
// and the headline of its loss. A mark and a word carry the verdict, never colour alone.

import { lazy, Suspense } from 'react'
import type { Verdict, VerdictStatus } from '../../analysis/index'
import type { Evaluation } from '../../analysis/results/evaluation'
import { STATUS_MARKS, statusText } from '../../analysis/results/verdict'
import { aboveWorstCase } from '../../analysis/yield/aboveWorstCase'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { percentileName } from '../../model/project/statedRequirements'
import { lossText } from '../../model/quantity/lossText'
import { byId } from '../../model/words/byId'
import { rememberedVerdicts, useEvaluations } from '../../store/evaluations'
import { useFreshRuns, useLastRuns } from '../../store/runs'
import { useDesign } from '../../store/selection'
import { openDesign, selectDesign, useView } from '../../store/view'
import { useWorkbench } from '../../store/workbench'
import { Menu } from '../../ui/controls/Menu'
import { Tooltip } from '../../ui/controls/Tooltip'
import { type Chip, chipOf } from '../../ui/text/verdictChip'
import { useFitting } from './useFitting'
import './verdicts.css'

const NeededRunButton = lazy(async () => ({ default: (await import('./NeededRunButton')).NeededRunButton }))

/** What needs attention comes first, so that it is what stays in sight where space is short. */
const ORDER: readonly VerdictStatus[] = ['not met', 'not known', 'met']

function VerdictChip({
  verdict,
  chip,
  last,
  designId,
}: {
  readonly verdict: Verdict
  readonly chip: Chip
  /** What an outdated run said; null where none did, or where it still holds. */
  readonly last: Verdict | null
  readonly designId: string
}) {
  return (
    <Tooltip
      text={`${verdict.label}: ${statusText(verdict.status)} (${verdict.reason})${last === null ? '' : `. Out of date: ${statusText(last.status)}, ${last.reason}`}`}
    >
      <button
        type="button"
        className="verdict-chip"
        data-status={verdict.status}
        data-verdict={verdict.id}
        onClick={() => openDesign(designId, chip.tab)}
      >
        <span aria-hidden="true" className="verdict-sign">
          {STATUS_MARKS[verdict.status]}
        </span>
        <span className="verdict-name">
          {chip.name}
          {chip.value !== '' && (
            <span className={verdict.provisional ? 'provisional' : undefined}> {chip.value}</span>
          )}
        </span>
        {last?.value !== undefined && (
          <span className="verdict-old" data-stale="true">
            {last.value} <span className="visually-hidden">out of date, </span>
          </span>
        )}
        {chip.limit !== '' && <span className="verdict-limit">{chip.limit}</span>}
        <span className="visually-hidden">{statusText(verdict.status)}</span>
      </button>
    </Tooltip>
  )
}

function Headline({
  evaluation,
  run,
}: {
  readonly evaluation: Evaluation
  readonly run: YieldResult | null
}) {
  const percentiles = run?.percentiles.filter(({ share }) => share >= 0.95) ?? []
  const { awaitsFit } = evaluation
  const totals: readonly { label: string; lossDb: number; note?: string | null; provisional?: boolean }[] = [
    { label: 'nominal', lossDb: evaluation.nominalDb },
    { label: 'RSS', lossDb: evaluation.rootSumSquare.lossDb, provisional: awaitsFit },
    ...percentiles.map(({ share, lossDb }) => ({
      label: percentileName(100 * share),
      lossDb,
    })),
    {
      label: 'worst case',
      lossDb: evaluation.worstCorner.lossDb,
      note: awaitsFit ? null : aboveWorstCase(evaluation, run),
      provisional: awaitsFit,
    },
  ]
  return (
    <div className="headline">
      <dl aria-label="Insertion loss">
        {totals.map(({ label, lossDb, note, provisional }) => (
          <div key={label} data-headline={label}>
            <dt>{label}</dt>
            <dd className={provisional ? 'provisional' : undefined}>
              {note == null ? (
                lossText(lossDb)
              ) : (
                <Tooltip text={`${note}.`}>
                  <span className="headline-noted">{lossText(lossDb)}</span>
                </Tooltip>
              )}
            </dd>
          </div>
        ))}
      </dl>
      <span>dB</span>
    </div>
  )
}

/** Which design the row is about, where the page does not say so itself. */
function DesignMenu({ name, designId }: { readonly name: string; readonly designId: string }) {
  const designs = useWorkbench((state) => state.project.candidates)
  return (
    <Menu
      label={`Design: ${name}`}
      className="subtle verdict-design"
      entries={() =>
        designs.map((each) => ({
          id: each.id,
          label: each.name,
          checked: each.id === designId,
          onChoose: () => selectDesign(each.id),
        }))
      }
    >
      {name} <span aria-hidden="true">▾</span>
    </Menu>
  )
}

export function VerdictStrip() {
  const project = useWorkbench((state) => state.project)
  const page = useView((state) => state.page)
  const design = useDesign()
  const evaluate = useEvaluations()
  const yields = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const result = design === undefined ? null : evaluate(project, design.id)
  const run = yields.get(design?.id ?? '') ?? null
  const lastYield = useLastRuns('yield', project).get(design?.id ?? '') ?? null
  const lastArray = useLastRuns('array', project).get(design?.id ?? '') ?? null
  const before =
    design === undefined || result?.ok !== true
      ? []
      : rememberedVerdicts(project, result.value, lastYield, lastArray)
  /** An outdated answer to a verdict that needs a run. */
  const lastOf = ({ id, needs }: Verdict): Verdict | null => {
    const found = needs === undefined ? undefined : byId(before, id)
    return found === undefined || found.needs !== undefined ? null : found
  }
  const verdicts =
    design === undefined || result?.ok !== true
      ? []
      : rememberedVerdicts(project, result.value, run, arrays.get(design.id) ?? null).toSorted(
          (a, b) => ORDER.indexOf(a.status) - ORDER.indexOf(b.status),
        )
  const [holder, fitting] = useFitting(
    verdicts.map((verdict) => {
      const { name, value, limit } = chipOf(verdict, project)
      return `${verdict.id} ${name} ${verdict.status} ${value.length} ${limit.length}`
    }),
  )
  if (design === undefined || result === null) return null
  const folded = verdicts.slice(fitting)
  return (
    <section className="verdict-strip screen-only" aria-label="Verdicts">
      {page !== 'design' && page !== 'compare' && <DesignMenu name={design.name} designId={design.id} />}
      {result.ok ? (
        <>
          <div className="verdict-chips" ref={holder}>
            {verdicts.map((verdict, at) => (
              <span key={verdict.id} hidden={at >= fitting}>
                <VerdictChip
                  verdict={verdict}
                  chip={chipOf(verdict, project)}
                  last={lastOf(verdict)}
                  designId={design.id}
                />
                {verdict.needs !== undefined && (
                  <Suspense fallback={null}>
                    <NeededRunButton verdict={verdict} designId={design.id} />
                  </Suspense>
                )}
              </span>
            ))}
            {folded.length > 0 && (
              <Menu
                label={`${folded.length} more verdicts`}
                className="verdict-chip"
                entries={() =>
                  folded.map((verdict) => ({
                    id: verdict.id,
                    label: `${STATUS_MARKS[verdict.status]} ${verdict.label}: ${statusText(verdict.status)}`,
                    note: verdict.reason,
                    onChoose: () => openDesign(design.id, chipOf(verdict, project).tab),
                  }))
                }
              >
                {folded.every(({ status }) => status === 'met')
                  ? `✓ ${folded.length} more met`
                  : `${folded.length} more`}
              </Menu>
            )}
          </div>
          <Headline evaluation={result.value} run={run} />
        </>
      ) : (
        <span className="complaint">{design.name} cannot be evaluated; see the Design page</span>
      )}
    </section>
  )
}
