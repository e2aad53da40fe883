// The frame: name, commands, pages, and what was refused.

import { lazy, Suspense, useEffect, useState } from 'react'
import type { Issue } from '../../model/issue'
import { recoverProject, SAVE_STATES, type SaveState, startAutosave } from '../../store/autosave'
import { forgetRefusals, refuse, useRefusals } from '../../store/refusals'
import { startSolving } from '../../store/solvedFields'
import { startTheme, useTheme } from '../../store/theme'
import { editProject, type Page, useHistory, useWorkbench } from '../../store/workbench'
import { CandidatePage } from '../design/CandidatePage'
import { settleFields, UNCOMMITTED } from '../fields/fieldWork'
import { TextField } from '../fields/TextField'
import { COMMANDS, type Command, commandFor } from './commands'
import { openDropped } from './droppedFiles'
import { ErrorBoundary } from './ErrorBoundary'
import { HelpDialog } from './HelpDialog'
import { RefusedDialog } from './RefusedDialog'
import { RequirementLine } from './RequirementLine'
import './strip.css'

// Only the page that opens first comes with the program; the others come when they are first shown.
const RequirementsPage = lazy(async () => ({
  default: (await import('../requirements/RequirementsPage')).RequirementsPage,
}))
const PartsPage = lazy(async () => ({ default: (await import('../parts/PartsPage')).PartsPage }))
const BenchPage = lazy(async () => ({ default: (await import('../measurements/BenchPage')).BenchPage }))
const SheetPage = lazy(async () => ({ default: (await import('../review/SheetPage')).SheetPage }))
const ComparePage = lazy(async () => ({ default: (await import('../compare/ComparePage')).ComparePage }))
const UpdateOffer = lazy(async () => ({ default: (await import('./UpdateOffer')).UpdateOffer }))
const SizingPage = lazy(async () => ({ default: (await import('../sizing/SizingPage')).SizingPage }))

const PAGES: readonly {
  readonly page: Page
  readonly label: string
  readonly view: () => React.ReactNode
}[] = [
  { page: 'requirements', label: 'Requirements', view: () => <RequirementsPage /> },
  { page: 'parts', label: 'Parts', view: () => <PartsPage /> },
  { page: 'candidate', label: 'Candidate', view: () => <CandidatePage /> },
  { page: 'compare', label: 'Compare', view: () => <ComparePage /> },
  { page: 'sizing', label: 'Sizing and order', view: () => <SizingPage /> },
  { page: 'bench', label: 'Bench', view: () => <BenchPage /> },
  { page: 'sheet', label: 'Review sheet', view: () => <SheetPage /> },
]

function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLInputElement ||
    target instanceof HTMLSelectElement ||
    target instanceof HTMLTextAreaElement
  )
}

async function runCommand(command: Command): Promise<readonly Issue[]> {
  await settleFields()
  return command.run()
}

/** Keys that also edit text are left to a field whose text is not taken over yet. */
function holdsTypedText(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.hasAttribute(UNCOMMITTED)
}

export function App() {
  const project = useWorkbench((state) => state.project)
  const page = useWorkbench((state) => state.page)
  const showPage = useWorkbench((state) => state.showPage)
  const canUndo = useHistory((state) => state.pastStates.length > 0)
  const canRedo = useHistory((state) => state.futureStates.length > 0)
  const [saveState, setSaveState] = useState<SaveState>(SAVE_STATES.fresh)
  const refusals = useRefusals()
  /** True while a file hangs over the window. */
  const [dropping, setDropping] = useState(false)
  const [helpShown, setHelpShown] = useState(false)
  const theme = useTheme()

  useEffect(() => {
    startTheme()
    const onRestored = () =>
      setSaveState((state) => (state === SAVE_STATES.fresh ? SAVE_STATES.saved : state))
    void recoverProject(onRestored).then(refuse)
    const stopSaving = startAutosave(setSaveState)
    const stopSolving = startSolving()
    return () => {
      stopSaving()
      stopSolving()
    }
  }, [])

  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key === '?' && !isTyping(event.target)) setHelpShown(true)
      const command = commandFor(event)
      if (command === undefined || (command.alsoForText && holdsTypedText(event.target))) return
      event.preventDefault()
      void runCommand(command).then(refuse)
    }
    const onDragOver = (event: DragEvent) => {
      event.preventDefault()
      setDropping(true)
    }
    const onDragLeave = (event: DragEvent) => {
      if (event.relatedTarget === null) setDropping(false)
    }
    const onDrop = (event: DragEvent) => {
      event.preventDefault()
      setDropping(false)
      const files = [...(event.dataTransfer?.files ?? [])]
      if (files.length > 0) void openDropped(files).then(refuse)
    }
    window.addEventListener('keydown', onKeyDown)
    window.addEventListener('dragover', onDragOver)
    window.addEventListener('dragleave', onDragLeave)
    window.addEventListener('drop', onDrop)
    return () => {
      window.removeEventListener('keydown', onKeyDown)
      window.removeEventListener('dragover', onDragOver)
      window.removeEventListener('dragleave', onDragLeave)
      window.removeEventListener('drop', onDrop)
    }
  }, [])

  const disabled: Readonly<Record<string, boolean>> = { undo: !canUndo, redo: !canRedo }
  const run = (command: Command) => void runCommand(command).then(refuse)
  const View = PAGES.find((each) => each.page === page)?.view ?? CandidatePage

  return (
    <>
      <header className="strip screen-only">
        <span className="product">Modeseam</span>
        <TextField
          label="Project name"
          title
          text={project.name}
          onCommit={(name) =>
            editProject((draft) => {
              draft.name = name
            })
          }
        />
        <nav aria-label="Pages">
          {PAGES.map((each) => (
            <button
              key={each.page}
              type="button"
              aria-current={each.page === page ? 'page' : undefined}
              onClick={() => showPage(each.page)}
            >
              {each.label}
            </button>
          ))}
        </nav>
        <div className="commands">
          {COMMANDS.map((command) => (
            <button
              key={command.id}
              type="button"
              disabled={disabled[command.id]}
              onClick={() => run(command)}
            >
              {command.id === 'theme' ? `Theme: ${theme}` : command.label}
            </button>
          ))}
          <button type="button" onClick={() => setHelpShown(true)}>
            Keys
          </button>
        </div>
        <span className="quiet save-state" role="status">
          {saveState}
        </span>
        <Suspense fallback={null}>
          <UpdateOffer />
        </Suspense>
        {page !== 'candidate' && <RequirementLine />}
      </header>
      <main>
        <ErrorBoundary key={page} resetKey={project}>
          <Suspense
            fallback={
              <p className="page" role="status">
                Loading
              </p>
            }
          >
            <View />
          </Suspense>
        </ErrorBoundary>
      </main>
      {dropping && <div className="drop-zone">Drop it: a project opens, readings go to the bench</div>}
      <HelpDialog shown={helpShown} onClose={() => setHelpShown(false)} />
      <RefusedDialog issues={refusals} onClose={forgetRefusals} />
    </>
  )
}
