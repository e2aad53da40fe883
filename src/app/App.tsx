// The frame: project and pages, verdicts of the chosen design, the page itself, and what was refused.

import { lazy, Suspense, useEffect, useRef, useState } from 'react'
import type { Issue } from '../model/issue'
import { followAddress } from '../store/address/followAddress'
import { openLink, useLinkShown } from '../store/address/openLink'
import { type Command, commandFor } from '../store/commands'
import { openHelp, useHelp } from '../store/help'
import { forgetRefusals, refuse, useRefusals } from '../store/refusals'
import { keepSaving } from '../store/saving/keepSaving'
import { useView } from '../store/view'
import { useWorkbench } from '../store/workbench'
import { ErrorBoundary } from '../ui/controls/ErrorBoundary'
import { keepFocus } from '../ui/controls/keepFocus'
import { focusRegion } from '../ui/controls/regions'
import { settleFields, UNCOMMITTED } from '../ui/fields/fieldWork'
import { evaluating } from './evaluating'
import { Header } from './Header'
import { PAGE_LIST } from './pages'
import { SaveNotice } from './SaveLine'
import './frame.css'

// What the first picture does not need comes a moment later.
const VerdictStrip = lazy(async () => ({
  default: (await evaluating(() => import('../panels/verdicts/VerdictStrip'))).VerdictStrip,
}))
const StartDialogs = lazy(async () => ({
  default: (await evaluating(() => import('../panels/start/StartDialogs'))).StartDialogs,
}))
const HelpDialog = lazy(async () => ({ default: (await import('../panels/help/HelpDialog')).HelpDialog }))
const LinkDialog = lazy(async () => ({ default: (await import('./LinkDialog')).LinkDialog }))
const TermTips = lazy(async () => ({ default: (await import('../ui/terms/TermTips')).TermTips }))
const ReadingFile = lazy(async () => ({ default: (await import('./ReadingFile')).ReadingFile }))
const RefusedDialog = lazy(async () => ({
  default: (await import('../ui/controls/RefusedDialog')).RefusedDialog,
}))
const RecoveredDialog = lazy(async () => ({ default: (await import('./RecoveredDialog')).RecoveredDialog }))
const Tour = lazy(async () => ({ default: (await import('../panels/help/Tour')).Tour }))
const UpdateOffer = lazy(async () => ({ default: (await import('./UpdateOffer')).UpdateOffer }))

const showShortcuts = () => openHelp('shortcuts')
const showGlossary = () => openHelp('glossary')

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

async function openFiles(files: readonly File[]): Promise<readonly Issue[]> {
  const { openDropped } = await evaluating(() => import('../store/files/droppedFiles'))
  return openDropped(files)
}

/** Keys that also edit text are left to a field whose text is not committed yet. */
function holdsTypedText(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.hasAttribute(UNCOMMITTED)
}

/** What runs as long as the app does. */
function useBackgroundWork(): void {
  useEffect(() => {
    const address = followAddress(openLink)
    const saving = keepSaving({ settle: () => void settleFields(), restored: address.settle })
    keepFocus(saving.signal)
    // These come a moment after the first picture.
    let stops: readonly (() => void)[] = []
    void Promise.all([import('../store/solvedFields'), evaluating(() => import('../store/idleRuns'))]).then(
      ([{ startSolving }, { startIdleRuns }]) => {
        if (!saving.signal.aborted) stops = [startSolving(), startIdleRuns()]
      },
    )
    return () => {
      address.stop()
      saving.abort()
      for (const stop of stops) stop()
    }
  }, [])
}

/** Shortcuts, and files dropped anywhere; true while a file hangs over the window. */
function useWindow(onHelp: () => void): boolean {
  const [dropping, setDropping] = useState(false)
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key === '?' && !isTyping(event.target)) onHelp()
      if (event.key === 'F6') {
        event.preventDefault()
        focusRegion(event.shiftKey ? -1 : 1)
      }
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
      if (files.length > 0) void openFiles(files).then(refuse)
    }
    const stop = new AbortController()
    const { signal } = stop
    window.addEventListener('keydown', onKeyDown, { signal })
    window.addEventListener('dragover', onDragOver, { signal })
    window.addEventListener('dragleave', onDragLeave, { signal })
    window.addEventListener('drop', onDrop, { signal })
    return () => stop.abort()
  }, [onHelp])
  return dropping
}

/** Stays true once it was: a dialog that has been shown stays, so that it can hand the focus back. */
function useOnceTrue(now: boolean): boolean {
  const ever = useRef(false)
  ever.current ||= now
  return ever.current
}

export function App() {
  const main = useRef<HTMLElement>(null)
  const linkShown = useOnceTrue(useLinkShown())
  const page = useView((state) => state.page)
  const hasDesigns = useWorkbench((state) => state.project.candidates.length > 0)
  const refusals = useRefusals()
  const everRefused = useOnceTrue(refusals.length > 0)
  const helpShown = useOnceTrue(useHelp((state) => state.open !== null))
  const touring = useHelp((state) => state.tourStep !== null)
  useBackgroundWork()
  const dropping = useWindow(showShortcuts)
  const run = (command: Command) => void runCommand(command).then(refuse)
  const View = PAGE_LIST.find((each) => each.page === page)?.View
  return (
    <div className="app">
      <button type="button" className="skip-link" onClick={() => main.current?.focus()}>
        Skip to content
      </button>
      <ErrorBoundary part="The header">
        <Header run={run} />
      </ErrorBoundary>
      <Suspense fallback={null}>
        <UpdateOffer />
        <ReadingFile />
      </Suspense>
      <SaveNotice run={run} />
      <ErrorBoundary part="The requirements bar">
        <Suspense fallback={hasDesigns && <div className="app-verdicts" />}>
          <VerdictStrip />
        </Suspense>
      </ErrorBoundary>
      {/* A page of its own each time, so that none starts where the one before was scrolled to. */}
      <main key={page} className="app-main" ref={main} tabIndex={-1}>
        <ErrorBoundary>
          <Suspense
            fallback={
              <p className="page" role="status">
                Loading…
              </p>
            }
          >
            {View !== undefined && <View />}
          </Suspense>
        </ErrorBoundary>
      </main>
      {dropping && (
        <div className="drop-zone">
          Drop to open: projects open here, measurement files go to Measurements
        </div>
      )}
      <Suspense fallback={null}>
        <StartDialogs />
        <TermTips onGlossary={showGlossary} />
        {linkShown && <LinkDialog />}
        {helpShown && <HelpDialog />}
        {touring && <Tour />}
        <RecoveredDialog />
        {everRefused && <RefusedDialog issues={refusals} onClose={forgetRefusals} />}
      </Suspense>
    </div>
  )
}
