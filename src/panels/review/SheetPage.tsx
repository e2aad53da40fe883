// The review sheet: what the engineer decides about it on the left, the sheet as it will be printed on the right.

import { useDeferredValue, useMemo, useState } from 'react'
import { restoredProject } from '../../model/project/revisions'
import { sheetBody } from '../../report/document/body'
import { sheetStyle } from '../../report/document/sheetStyle'
import { buildSheet } from '../../report/sheet'
import { useEvaluations } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useWithSolvedFields } from '../../store/solvedFields'
import { useWorkbench } from '../../store/workbench'
import { MarkupView } from '../../ui/figures/MarkupView'
import { Downloads } from './Downloads'
import { ReviewFields } from './ReviewFields'
import { type Compared, Revisions } from './Revisions'
import { SectionTicks } from './SectionTicks'
import './sheet.css'
import { useEvidence } from './useEvidence'

export function SheetPage() {
  const project = useWorkbench((state) => state.project)
  const [compared, setCompared] = useState<Compared>({ shownId: '', before: null })
  // The day on which the page was opened: a sheet that is being read does not change at midnight.
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
  return (
    <div className="page sheet-page">
      <div className="sheet-tools screen-only">
        <Downloads sheet={sheet} project={withModes(shown)} />
        <ReviewFields project={project} />
        <SectionTicks review={project.review} />
        <Revisions project={project} today={today} compared={compared} onCompare={setCompared} />
        {busy && (
          <p role="status" className="quiet">
            Measurements are being evaluated
          </p>
        )}
      </div>
      <div className="sheet-preview">
        <style>{sheetStyle(sheet.head)}</style>
        <MarkupView nodes={[sheetBody(sheet)]} />
      </div>
    </div>
  )
}
