// The review: what the engineer decides on the left, the document as it will be printed on the right.

import { memo, useDeferredValue, useEffect, useMemo, useState } from 'react'
import { restoredProject } from '../../model/project/revisions'
import type { Section } from '../../report/document/blocks'
import { headBody, sectionBody } from '../../report/document/body'
import { sheetStyle } from '../../report/document/sheetStyle'
import type { Sheet, SheetRequest } from '../../report/sheet'
import { useEvaluations, useEvaluationsInTurn } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useWithSolvedFields } from '../../store/solvedFields'
import { useWorkbench } from '../../store/workbench'
import { ListDetail } from '../../ui/controls/ListDetail'
import { Pane } from '../../ui/controls/Panes'
import { Tabs } from '../../ui/controls/Tabs'
import { MarkupView } from '../../ui/figures/MarkupView'
import { Downloads } from './Downloads'
import { ReviewFields } from './ReviewFields'
import { type Compared, Revisions } from './Revisions'
import './review.css'
import { RunMissing } from './RunMissing'
import { SectionTicks } from './SectionTicks'
import { useEvidence } from './useEvidence'
import { useSheet } from './useSheet'

const SectionView = memo(function SectionView({ section }: { readonly section: Section }) {
  return <MarkupView nodes={[sectionBody(section)]} />
})

/** The article that the files hold (report/document/body.ts), section by section. */
function SheetView({ sheet }: { readonly sheet: Sheet }) {
  return (
    <>
      <style>{sheetStyle(sheet.head)}</style>
      <article className="review-sheet">
        <MarkupView nodes={[headBody(sheet.head)]} />
        {sheet.sections.map((section) => (
          <SectionView key={section.id} section={section} />
        ))}
      </article>
    </>
  )
}

export function ReviewPage() {
  const project = useWorkbench((state) => state.project)
  const [compared, setCompared] = useState<Compared>({ shownId: '', before: null })
  const [tab, setTab] = useState('decision')
  // The day on which the page was opened: a document that is being read does not change at midnight.
  const [today] = useState(() => new Date().toISOString().slice(0, 10))
  const revision = project.revisions?.find(({ id }) => id === compared.shownId)
  const shown = useDeferredValue(
    useMemo(
      () => (revision === undefined ? project : (restoredProject(project, revision.id) ?? project)),
      [project, revision],
    ),
  )
  const yields = useFreshRuns('yield', shown)
  const arrays = useFreshRuns('array', shown)
  const evaluate = useEvaluations()
  const evaluated = useEvaluationsInTurn(shown, '').share === 1
  // Nothing is printed or saved with numbers that the fields of real joints are about to change.
  const moving =
    evaluated &&
    shown.candidates.some(({ id }) => {
      const result = evaluate(shown, id)
      return result.ok && result.value.awaitsFit
    })
  const withModes = useWithSolvedFields()
  const { evidence, busy } = useEvidence(shown.measurements)
  const { before } = compared
  const name = revision?.name
  const request = useMemo(
    (): SheetRequest | null =>
      evaluated
        ? {
            project: shown,
            date: today,
            ...(name === undefined ? {} : { revision: name }),
            runs: { yields, arrays },
            evidence,
            ...(before === null ? {} : { before }),
            evaluate,
            withModes,
          }
        : null,
    [evaluated, shown, today, name, yields, arrays, evidence, before, evaluate, withModes],
  )
  const { sheet, current, provisional, now } = useSheet(request, moving)
  const waiting = !evaluated || moving || provisional
  // A printed file is named by it.
  useEffect(() => {
    const own = document.title
    document.title = shown.name
    return () => {
      document.title = own
    }
  }, [shown.name])
  const tools = (
    <section className="pane screen-only" aria-label="Review settings">
      <header className="review-head">
        <button type="button" className="primary" disabled={waiting} onClick={() => window.print()}>
          Print or PDF
        </button>
        <RunMissing sheet={sheet} current={current} />
        <span role="status" className="quiet">
          {busy
            ? 'Evaluating measurements…'
            : !evaluated
              ? 'Evaluating…'
              : waiting
                ? 'Computing real fields…'
                : ''}
        </span>
      </header>
      <div className="pane-body">
        <Tabs
          flowing
          label="Review settings"
          chosen={tab}
          onChoose={setTab}
          tabs={[
            { id: 'decision', label: 'Decision', view: () => <ReviewFields project={project} /> },
            { id: 'sections', label: 'Sections', view: () => <SectionTicks review={project.review} /> },
            {
              id: 'revisions',
              label: 'Revisions',
              view: () => (
                <Revisions project={project} today={today} compared={compared} onCompare={setCompared} />
              ),
            },
            {
              id: 'files',
              label: 'Files',
              view: () =>
                sheet === null ? null : (
                  <Downloads sheet={sheet} sheetNow={now} project={withModes(shown)} waiting={waiting} />
                ),
            },
          ]}
        />
      </div>
    </section>
  )
  return (
    <div className="review">
      <h1 className="visually-hidden">Review</h1>
      <ListDetail
        id="review"
        size="20rem"
        listName="review-settings"
        detailName="review-document"
        list={tools}
        detail={
          <Pane name="Review document" headless>
            <section
              className="sheet-preview"
              aria-label="As printed"
              aria-busy={!current || waiting}
              data-outdated={!current}
              // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
              tabIndex={0}
            >
              {sheet === null ? <p role="status">Evaluating…</p> : <SheetView sheet={sheet} />}
            </section>
          </Pane>
        }
      />
    </div>
  )
}
