// One design in one view: the rail of designs, the path, the drawing of what is selected, its numbers, the budget, and the
// depth tabs. Everything follows one selection (store/selection.ts); panes keep their sizes. Each pane reads the design for
// itself: an edit renders the panes, not the frame around them.

import { lazy, type ReactNode, Suspense } from 'react'
import type { Evaluation } from '../analysis/results/evaluation'
import { issueText, type Result } from '../model/issue'
import type { Candidate } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { DesignsRail } from '../panels/designs/DesignsRail'
import { useEvaluations } from '../store/evaluations'
import { useDesign } from '../store/selection'
import { useView } from '../store/view'
import { useWorkbench } from '../store/workbench'
import { ErrorBoundary } from '../ui/controls/ErrorBoundary'
import { Pane, Split } from '../ui/controls/Panes'
import { PANES_FIT, useMedia } from '../ui/controls/useMedia'
import { DepthTabs } from './DepthTabs'

// What the first picture does not need comes a moment later.
const BudgetPane = lazy(async () => ({ default: (await import('../panels/budget/BudgetPane')).BudgetPane }))
const DrawingPane = lazy(async () => ({
  default: (await import('../panels/drawing/DrawingPane')).DrawingPane,
}))
const PathPane = lazy(async () => ({ default: (await import('../panels/path/PathPane')).PathPane }))
const NoDesign = lazy(async () => ({ default: (await import('../ui/empty/NoDesign')).NoDesign }))
const Inspector = lazy(async () => ({ default: (await import('../panels/inspector/Inspector')).Inspector }))

interface Shown {
  readonly project: Project
  readonly design: Candidate
  readonly result: Result<Evaluation>
}

/** The chosen design as it is now; it fails for itself, and starts anew with another design unless it is `lasting`. */
function Live({
  show,
  lasting = false,
}: {
  readonly show: (shown: Shown) => ReactNode
  /** True for the list that designs are chosen in: the chosen row keeps the focus. */
  readonly lasting?: boolean
}) {
  const project = useWorkbench((state) => state.project)
  const design = useDesign()
  const result = useEvaluations()(project, design?.id ?? '')
  if (design === undefined) return null
  return (
    <ErrorBoundary key={lasting ? undefined : design.id}>
      <Suspense fallback={null}>{show({ project, design, result })}</Suspense>
    </ErrorBoundary>
  )
}

type Evaluated = Omit<Shown, 'result'> & { readonly evaluation: Evaluation }

/** A pane of a design that can be evaluated. */
const evaluated = (view: (shown: Evaluated) => ReactNode) => (
  <Live show={({ result, ...shown }) => (result.ok ? view({ ...shown, evaluation: result.value }) : null)} />
)

const PATH = evaluated((shown) => <PathPane {...shown} />)
const DRAWING = evaluated((shown) => <DrawingPane {...shown} />)
const BUDGET = evaluated((shown) => <BudgetPane {...shown} />)
const DEPTH = evaluated((shown) => <DepthTabs {...shown} />)
const RAIL = (
  <Pane name="Designs" headless>
    <Live lasting show={({ project, design }) => <DesignsRail project={project} design={design} />} />
  </Pane>
)
const INSPECTOR = (
  <Pane name="Inspector" headless>
    <Live
      show={({ project, design, result }) => (
        <Inspector project={project} design={design} evaluation={result.ok ? result.value : null} />
      )}
    />
  </Pane>
)
const REFUSED = (
  <Pane name="Drawing" title="This design cannot be evaluated">
    <Live
      show={({ result }) =>
        result.ok ? null : (
          <ul className="complaints">
            {result.issues.map((issue) => (
              <li key={issue.message}>{issueText(issue)}</li>
            ))}
          </ul>
        )
      }
    />
  </Pane>
)

const LOWER = (
  <Split
    across
    id="design-lower"
    panes={[
      { id: 'budget', view: BUDGET, least: '16rem', collapsible: true },
      { id: 'depth', name: 'analysis', view: DEPTH, least: '18rem', collapsible: true },
    ]}
  />
)
const ALL_PANES = (
  <Split
    id="design-middle"
    panes={[
      { id: 'path', view: PATH, size: '9.8rem', least: '7rem', fixed: true, collapsible: true },
      { id: 'drawing', view: DRAWING, least: '10rem' },
      { id: 'lower', name: 'budget and analysis', size: '48%', least: '10rem', view: LOWER },
    ]}
  />
)

/** The whole screen around its middle. */
const framed = (middle: ReactNode) => (
  <Split
    across
    id="design"
    panes={[
      {
        id: 'designs',
        view: RAIL,
        size: '13.5rem',
        least: '9rem',
        most: '30%',
        fixed: true,
        collapsible: true,
      },
      { id: 'middle', name: 'main panes', view: middle, least: '34rem' },
      {
        id: 'inspector',
        view: INSPECTOR,
        size: '19.5rem',
        least: '15rem',
        most: '40%',
        fixed: true,
        collapsible: true,
      },
    ]}
  />
)
const SIDE_BY_SIDE = { all: framed(ALL_PANES), depth: framed(DEPTH), refused: framed(REFUSED) } as const

const STACKED = {
  all: (
    <>
      {RAIL}
      {PATH}
      {DRAWING}
      {INSPECTOR}
      {BUDGET}
      {DEPTH}
    </>
  ),
  refused: (
    <>
      {RAIL}
      {REFUSED}
      {INSPECTOR}
    </>
  ),
} as const

export function DesignScreen() {
  const project = useWorkbench((state) => state.project)
  const design = useDesign()
  const { ok } = useEvaluations()(project, design?.id ?? '')
  const expanded = useView((state) => state.depthExpanded)
  const sideBySide = useMedia(PANES_FIT)
  if (design === undefined) {
    return (
      <div className="page">
        <h1>Design</h1>
        <Suspense fallback={null}>
          <NoDesign shows="One design in one view: path, drawing, loss budget and tolerances." />
        </Suspense>
      </div>
    )
  }
  const heading = <h1 className="visually-hidden">{design.name}</h1>
  return sideBySide ? (
    <>
      {heading}
      {SIDE_BY_SIDE[ok ? (expanded ? 'depth' : 'all') : 'refused']}
    </>
  ) : (
    <div className="pane-stack">
      {heading}
      {STACKED[ok ? 'all' : 'refused']}
    </div>
  )
}
