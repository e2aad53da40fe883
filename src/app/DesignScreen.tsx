// One design in one view: the rail of designs, the path, the drawing of what is selected, its numbers, the budget, and the
// depth tabs. Everything follows one selection (store/selection.ts); panes keep their sizes.

import { lazy, Suspense } from 'react'
import type { Evaluation } from '../analysis/results/evaluation'
import { issueText } from '../model/issue'
import type { Candidate } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { DesignsRail } from '../panels/designs/DesignsRail'
import { useEvaluations } from '../store/evaluations'
import { useDesign } from '../store/selection'
import { useView } from '../store/view'
import { useWorkbench } from '../store/workbench'
import { ErrorBoundary } from '../ui/controls/ErrorBoundary'
import { NoDesign } from '../ui/controls/NoDesign'
import { Pane, Split } from '../ui/controls/Panes'
import { PANES_FIT, useMedia } from '../ui/controls/useMedia'
import { DepthTabs } from './DepthTabs'

// What the first picture does not need comes a moment later.
const BudgetPane = lazy(async () => ({ default: (await import('../panels/budget/BudgetPane')).BudgetPane }))
const DrawingPane = lazy(async () => ({
  default: (await import('../panels/drawing/DrawingPane')).DrawingPane,
}))
const PathPane = lazy(async () => ({ default: (await import('../panels/path/PathPane')).PathPane }))
const Inspector = lazy(async () => ({ default: (await import('../panels/inspector/Inspector')).Inspector }))

interface Shown {
  readonly project: Project
  readonly design: Candidate
  readonly evaluation: Evaluation
}

/** The panes by name, each failing for itself. */
function panesOf({ project, design, evaluation }: Shown) {
  const guarded = (name: string, view: React.ReactNode) => (
    <ErrorBoundary key={`${design.id} ${name}`} resetKey={project}>
      <Suspense fallback={null}>{view}</Suspense>
    </ErrorBoundary>
  )
  const shown = { project, design, evaluation }
  return {
    path: guarded('path', <PathPane {...shown} />),
    drawing: guarded('drawing', <DrawingPane {...shown} />),
    budget: guarded('budget', <BudgetPane {...shown} />),
    depth: guarded('depth', <DepthTabs {...shown} />),
  }
}

function Refused({ issues }: { readonly issues: readonly Parameters<typeof issueText>[0][] }) {
  return (
    <Pane name="Drawing" title="This design cannot be evaluated">
      <ul className="complaints">
        {issues.map((issue) => (
          <li key={issue.message}>{issueText(issue)}</li>
        ))}
      </ul>
    </Pane>
  )
}

export function DesignScreen() {
  const project = useWorkbench((state) => state.project)
  const design = useDesign()
  const result = useEvaluations()(project, design?.id ?? '')
  const expanded = useView((state) => state.depthExpanded)
  const sideBySide = useMedia(PANES_FIT)
  if (design === undefined) {
    return (
      <div className="page">
        <h1>Design</h1>
        <NoDesign />
      </div>
    )
  }
  const rail = (
    <Pane name="Designs" headless>
      <DesignsRail project={project} design={design} />
    </Pane>
  )
  const inspector = (
    <Pane name="Inspector" headless>
      <ErrorBoundary key={design.id} resetKey={project}>
        <Suspense fallback={null}>
          <Inspector project={project} design={design} evaluation={result.ok ? result.value : null} />
        </Suspense>
      </ErrorBoundary>
    </Pane>
  )
  const panes = result.ok ? panesOf({ project, design, evaluation: result.value }) : null
  const refused = result.ok ? null : <Refused issues={result.issues} />
  const heading = <h1 className="visually-hidden">{design.name}</h1>
  if (!sideBySide) {
    return (
      <div className="pane-stack">
        {heading}
        {rail}
        {panes === null ? (
          <>
            {refused}
            {inspector}
          </>
        ) : (
          <>
            {panes.path}
            {panes.drawing}
            {inspector}
            {panes.budget}
            {panes.depth}
          </>
        )}
      </div>
    )
  }
  const middle =
    panes === null ? (
      refused
    ) : expanded ? (
      panes.depth
    ) : (
      <Split
        id="design-middle"
        panes={[
          { id: 'path', view: panes.path, size: '9.8rem', least: '7rem', fixed: true, collapsible: true },
          { id: 'drawing', view: panes.drawing, least: '10rem' },
          {
            id: 'lower',
            size: '48%',
            least: '10rem',
            view: (
              <Split
                across
                id="design-lower"
                panes={[
                  { id: 'budget', view: panes.budget, least: '16rem', collapsible: true },
                  { id: 'depth', view: panes.depth, least: '18rem', collapsible: true },
                ]}
              />
            ),
          },
        ]}
      />
    )
  return (
    <>
      {heading}
      <Split
        across
        id="design"
        panes={[
          {
            id: 'designs',
            view: rail,
            size: '13.5rem',
            least: '9rem',
            most: '30%',
            fixed: true,
            collapsible: true,
          },
          { id: 'middle', view: middle, least: '34rem' },
          {
            id: 'inspector',
            view: inspector,
            size: '19rem',
            least: '15rem',
            most: '40%',
            fixed: true,
            collapsible: true,
          },
        ]}
      />
    </>
  )
}
