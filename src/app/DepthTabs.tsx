// The views next to the budget, one at a time: tolerance, yield, array, temperature, and what light does.

import { lazy, type ReactNode, Suspense, useEffect } from 'react'
import type { EvaluatedDesign } from '../analysis/results/evaluatedDesign'
import { jointNames } from '../model/designs/jointNames'
import { useSelection } from '../store/selection'
import {
  BUILD_TABS,
  DEPTH_TABS,
  type DepthTab,
  expandDepth,
  LIGHT_TABS,
  showDepthTab,
  useView,
} from '../store/view'
import { Tabs } from '../ui/controls/Tabs'

// Each comes when it is first looked at; the page, with its numbers and its drawing, does not wait for them.
const TolerancePanel = lazy(() =>
  import('../panels/tolerance/TolerancePanel').then((each) => ({ default: each.TolerancePanel })),
)
const YieldPanel = lazy(() =>
  import('../panels/yield/YieldPanel').then((each) => ({ default: each.YieldPanel })),
)
const ArrayPanel = lazy(() =>
  import('../panels/array/ArrayPanel').then((each) => ({ default: each.ArrayPanel })),
)
const ModeFieldsPanel = lazy(() =>
  import('../panels/modeFields/ModeFieldsPanel').then((each) => ({ default: each.ModeFieldsPanel })),
)
const FieldTolerancePanel = lazy(() =>
  import('../panels/tolerance/FieldTolerancePanel').then((each) => ({ default: each.FieldTolerancePanel })),
)
const RelayTolerancePanel = lazy(() =>
  import('../panels/tolerance/RelayTolerancePanel').then((each) => ({ default: each.RelayTolerancePanel })),
)
const TemperaturePanel = lazy(() =>
  import('../panels/temperature/TemperaturePanel').then((each) => ({ default: each.TemperaturePanel })),
)

const ReflectionsPanel = lazy(() =>
  import('../panels/light/ReflectionsPanel').then((each) => ({ default: each.ReflectionsPanel })),
)
const SpectrumPanel = lazy(() =>
  import('../panels/light/SpectrumPanel').then((each) => ({ default: each.SpectrumPanel })),
)
const PolarisationPanel = lazy(() =>
  import('../panels/light/PolarisationPanel').then((each) => ({ default: each.PolarisationPanel })),
)
const PathShapes = lazy(() =>
  import('../panels/parts/modeShape/PathShapes').then((each) => ({ default: each.PathShapes })),
)
const ClearancePanel = lazy(() =>
  import('../panels/clearance/ClearancePanel').then((each) => ({ default: each.ClearancePanel })),
)
const AssemblyPanel = lazy(() =>
  import('../panels/assembly/AssemblyPanel').then((each) => ({ default: each.AssemblyPanel })),
)
const FirstLightPanel = lazy(() =>
  import('../panels/firstLight/FirstLightPanel').then((each) => ({ default: each.FirstLightPanel })),
)
const LifetimePanel = lazy(() =>
  import('../panels/lifetime/LifetimePanel').then((each) => ({ default: each.LifetimePanel })),
)
const PowerPanel = lazy(() =>
  import('../panels/light/PowerPanel').then((each) => ({ default: each.PowerPanel })),
)

/** Inside the tab's panel, so that the tabs stay and keep the focus while it loads. */
function later(panel: ReactNode, key?: string) {
  return (
    <Suspense key={key} fallback={<p className="quiet">Loading…</p>}>
      {panel}
    </Suspense>
  )
}

function Tolerances({ project, design, evaluation }: EvaluatedDesign) {
  const { station } = project.requirements
  const names = jointNames(design.chain)
  const selection = useSelection(design)
  // The joint that is selected, else the one at the chip.
  const view =
    evaluation.joints.find(({ elementId }) => elementId === selection.id) ?? evaluation.joints.at(-1)
  if (view === undefined) {
    return <p className="quiet">This path has no gap or relay, and so no joint with alignment tolerances.</p>
  }
  const own = { designId: design.id, view, station, name: names.get(view.elementId) }
  if (view.lenses !== undefined)
    return <RelayTolerancePanel key={view.elementId} {...own} lenses={view.lenses} />
  return view.field === undefined || 'refusal' in view.field.loss ? (
    <TolerancePanel key={view.elementId} {...own} />
  ) : (
    <FieldTolerancePanel key={view.elementId} {...own} field={view.field} />
  )
}

const PANELS: Readonly<Record<DepthTab, (shown: EvaluatedDesign) => ReactNode>> = {
  tolerance: (shown) => <Tolerances {...shown} />,
  yield: ({ project, design }) => <YieldPanel project={project} candidate={design} />,
  array: ({ project, design }) => <ArrayPanel project={project} candidate={design} />,
  temperature: ({ project, design }) => <TemperaturePanel project={project} candidate={design} />,
  fields: ({ project, design, evaluation }) => (
    <ModeFieldsPanel
      project={project}
      design={design}
      evaluation={evaluation}
      shapes={<PathShapes project={project} design={design} />}
    />
  ),
  reflections: (shown) => <ReflectionsPanel {...shown} />,
  spectrum: ({ project, design }) => <SpectrumPanel project={project} candidate={design} />,
  polarisation: (shown) => <PolarisationPanel {...shown} />,
  power: ({ project, evaluation }) => <PowerPanel project={project} evaluation={evaluation} />,
  assembly: ({ project, design }) => <AssemblyPanel project={project} candidate={design} />,
  firstLight: (shown) => <FirstLightPanel {...shown} />,
  lifetime: ({ project, design }) => <LifetimePanel project={project} candidate={design} />,
  clearance: (shown) => <ClearancePanel {...shown} />,
}

const LABELS: Readonly<Record<DepthTab | GroupId, string>> = {
  tolerance: 'Tolerance',
  yield: 'Yield',
  array: 'Array',
  temperature: 'Temperature',
  fields: 'Fields',
  light: 'Light',
  reflections: 'Reflections',
  spectrum: 'Spectrum',
  polarisation: 'Polarisation',
  power: 'Power',
  build: 'Build',
  clearance: 'Clearance',
  assembly: 'Assembly',
  firstLight: 'First light',
  lifetime: 'Lifetime',
}
type GroupId = 'light' | 'build'
/** Tabs that share one place in the row. */
const GROUPS: Readonly<Record<GroupId, readonly DepthTab[]>> = { light: LIGHT_TABS, build: BUILD_TABS }
const GROUP_IDS: readonly GroupId[] = ['light', 'build']
const groupOf = (tab: string) => GROUP_IDS.find((id) => GROUPS[id].some((each) => each === tab))
const TABS: readonly (DepthTab | GroupId)[] = [
  ...DEPTH_TABS.filter((tab) => groupOf(tab) === undefined),
  ...GROUP_IDS,
]
const isGroup = (id: DepthTab | GroupId): id is GroupId => GROUP_IDS.some((each) => each === id)

export function DepthTabs(shown: EvaluatedDesign) {
  const chosen = useView((state) => state.depthTab)
  const expanded = useView((state) => state.depthExpanded)
  useEffect(() => {
    if (!expanded) return
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key === 'Escape' && !event.defaultPrevented) expandDepth(false)
    }
    window.addEventListener('keydown', onKeyDown)
    return () => window.removeEventListener('keydown', onKeyDown)
  }, [expanded])
  const choose = (id: string) => {
    const group = GROUP_IDS.find((each) => each === id)
    const first = group === undefined ? DEPTH_TABS.find((tab) => tab === id) : GROUPS[group][0]
    if (first !== undefined) showDepthTab(first)
  }
  // Choices and refused texts in a panel are those of its design.
  const panel = (tab: DepthTab) => later(PANELS[tab](shown), `${shown.design.id} ${tab}`)
  const group = (id: GroupId) => (
    <>
      <fieldset className="segmented" aria-label={LABELS[id]}>
        {GROUPS[id].map((tab) => (
          <button key={tab} type="button" aria-pressed={tab === chosen} onClick={() => showDepthTab(tab)}>
            {LABELS[tab]}
          </button>
        ))}
      </fieldset>
      {panel(chosen)}
    </>
  )
  return (
    <div className="pane" data-pane="Depth">
      <Tabs
        label="Analyses"
        chosen={groupOf(chosen) ?? chosen}
        onChoose={choose}
        onChosenAgain={() => expandDepth(!expanded)}
        tabs={TABS.map((tab) => ({
          id: tab,
          label: LABELS[tab],
          view: () => (isGroup(tab) ? group(tab) : panel(tab)),
        }))}
        tools={
          <button
            type="button"
            className="subtle"
            aria-pressed={expanded}
            title={expanded ? 'Show all panes (Esc)' : 'Expand over the whole work area (Enter on the tab)'}
            onClick={() => expandDepth(!expanded)}
          >
            {expanded ? 'Restore' : 'Expand'}
          </button>
        }
      />
    </div>
  )
}
