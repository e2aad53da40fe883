// Runs whose inputs have changed since are made again by themselves, one at a time, once nothing has been edited for a while.
// Can be switched off; the choice is kept in this browser.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { ARRAY_DEFAULTS } from '../analysis/array/arrayDefaults'
import type { NeededRun } from '../analysis/results/verdict'
import { type OutdatedRun, outdatedRuns, runsGoing, startArray, startYield } from './runs'
import { view } from './view'
import { workbench } from './workbench'

const KEY = 'modeseam-rerun'
/** After this time without an edit the machine is regarded as idle. */
const IDLE_MS = 1500
/** How often a run that is still going is looked at again. */
const AGAIN_MS = 500

function keptChoice(): boolean {
  try {
    return localStorage.getItem(KEY) !== 'off'
  } catch {
    return true // blocked storage: the choice then lasts as long as the page
  }
}

/** True where outdated runs are made again when idle. */
const choice = createStore<{ readonly on: boolean }>()(() => ({ on: keptChoice() }))

export const useRerun = (): boolean => useStore(choice, ({ on }) => on)

export function setRerun(on: boolean): void {
  choice.setState({ on })
  try {
    localStorage.setItem(KEY, on ? 'on' : 'off')
  } catch {
    // As above: nothing else depends on it.
  }
}

/** Starts the run that a verdict needs. */
export function startNeeded(kind: NeededRun, candidateId: string): Promise<void> {
  const { project } = workbench.getState()
  return kind === 'yield'
    ? startYield(project, candidateId, {})
    : startArray(project, candidateId, ARRAY_DEFAULTS.samples)
}

/** The outdated run to make again first: of the design on screen, yields before arrays. What was tried with these inputs is not again. */
export function nextRerun(
  outdated: readonly OutdatedRun[],
  shownId: string,
  tried: ReadonlyMap<string, string>,
): OutdatedRun | null {
  const open = outdated.filter(({ key, inputs }) => tried.get(key) !== inputs)
  const [first] = open.toSorted(
    (a, b) => Number(b.candidateId === shownId) - Number(a.candidateId === shownId),
  )
  return first ?? null
}

/** Watches the project until the answer is called. */
export function startIdleRuns(): () => void {
  const tried = new Map<string, string>()
  let timer: ReturnType<typeof setTimeout> | undefined
  const wait = (ms: number) => {
    clearTimeout(timer)
    timer = setTimeout(look, ms)
  }
  const look = () => {
    if (!choice.getState().on || document.hidden) return
    const { project } = workbench.getState()
    const next = nextRerun(outdatedRuns(project), view.getState().designId, tried)
    if (next === null) return
    if (runsGoing()) return wait(AGAIN_MS)
    tried.set(next.key, next.inputs)
    const { kind, candidateId, samples } = next
    const done =
      kind === 'yield'
        ? startYield(project, candidateId, { samples })
        : startArray(project, candidateId, samples)
    void done.then(() => wait(AGAIN_MS))
  }
  const onEdit = () => wait(IDLE_MS)
  const stops = [workbench.subscribe(onEdit), choice.subscribe(onEdit)]
  document.addEventListener('visibilitychange', onEdit)
  return () => {
    clearTimeout(timer)
    for (const stop of stops) stop()
    document.removeEventListener('visibilitychange', onEdit)
  }
}
