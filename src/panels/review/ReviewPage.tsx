// The review: what the engineer decides on the left, the document as it will be printed on the right.

import { useDeferredValue, useMemo, useState } from 'react'
import { restoredProject } from '../../model/project/revisions'
import { sheetBody } from '../../report/document/body'
import { sheetStyle } from '../../report/document/sheetStyle'
import { buildSheet } from '../../report/sheet'
import { useEvaluations } from '../../store/evaluations'
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
import { SectionTicks } from './SectionTicks'
import { useEvidence } from './useEvidence'

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
  const withModes = useWithSolvedFields()
  const { evidence, busy } = useEvidence(shown.measurements)
  const { before } = compared
  const sheet = buildSheet({
    project: shown,
    date: today,
    ...(revision === undefined ? {} : { revision: revision.name }),
    runs: { yields, arrays },
    evidence,
    ...(before === null ? {} : { before }),
    evaluate,
    withModes,
  })
  const tools = (
    <section className="pane screen-only" aria-label="Review settings">
      <header className="review-head">
        <button type="button" className="primary" onClick={() => window.print()}>
          Print or PDF
        </button>
        <span role="status" className="quiet">
          {busy ? 'Evaluating measurements…' : ''}
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
              view: () => <Downloads sheet={sheet} project={withModes(shown)} />,
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
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
            <section className="sheet-preview" aria-label="As printed" tabIndex={0}>
              <style>{sheetStyle(sheet.head)}</style>
              <MarkupView nodes={[sheetBody(sheet)]} />
            </section>
          </Pane>
        }
      />
    </div>
  )
}
