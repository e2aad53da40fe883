// Another project in place of the open one: what is asked first, and the dialog in which a new one is described.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import type { FamilyOutcome } from '../../analysis/proposals/proposeProject'
import type { Project } from '../../model/schema/project'
import { forgetStartedRuns } from '../startedRuns'
import { showPage, view } from '../view'
import { workbench } from '../workbench'

interface Question {
  /** What the person is about to do: `New project`, `Open demo.json`. */
  readonly intent: string
  readonly answer: (goOn: boolean) => void
}

interface Starting {
  /** Whether the dialog for a new project is open. */
  readonly describing: boolean
  /** What waits for an answer about changes that are in no file; null while nothing does. */
  readonly question: Question | null
  /** Families that do not apply to the brief of the open project, with the reasons: of a project that was built on this visit. */
  readonly leftOut: readonly FamilyOutcome[]
}

const starting = createStore<Starting>()(() => ({
  describing: false,
  question: null,
  leftOut: [],
}))

export function useStarting<T>(select: (state: Starting) => T): T {
  return useStore(starting, select)
}

/** The project as it was last opened, begun or saved to a file. */
let kept: Project = workbench.getState().project

/** From now on the open project is treated as saved. */
export function markKept(): void {
  kept = workbench.getState().project
}

export const hasUnsavedWork = (): boolean => workbench.getState().project !== kept

/** True where the open project may be replaced: nothing would be lost, or the person says so. */
export function mayReplace(intent: string): Promise<boolean> {
  if (!hasUnsavedWork()) return Promise.resolve(true)
  starting.getState().question?.answer(false)
  return new Promise((resolve) => {
    const answer = (goOn: boolean) => {
      starting.setState({ question: null })
      resolve(goOn)
    }
    starting.setState({ question: { intent, answer } })
  })
}

/** Puts a project in place of the open one, without asking, and shows its proposed design. One undo step. */
export function beginWith(project: Project, designId = project.review?.chosenId ?? ''): void {
  forgetStartedRuns()
  workbench.getState().replaceProject(project)
  view.setState({ designId })
  starting.setState({ leftOut: [] })
  markKept()
}

let justBuilt = false

/** Puts a project that was just built in place of the open one, and shows its designs side by side. */
export function compareBuilt(project: Project, outcomes: readonly FamilyOutcome[]): void {
  beginWith(project)
  starting.setState({ leftOut: outcomes.filter(({ candidateId }) => candidateId === null) })
  justBuilt = true
  stopDescribing()
  showPage('compare')
}

/** Whether the designs on screen were just built; true once. */
export function takeJustBuilt(): boolean {
  const was = justBuilt
  justBuilt = false
  return was
}

/** Asks where work would be lost, then opens what `load` brings. False where the person keeps what is open. */
export async function openInstead(
  intent: string,
  load: () => Promise<Project>,
  designId?: string,
): Promise<boolean> {
  const goesOn = await mayReplace(intent)
  if (goesOn) beginWith(await load(), designId)
  return goesOn
}

/** Opens the dialog that describes a new project. */
export async function describeNew(): Promise<void> {
  if (await mayReplace('New project')) starting.setState({ describing: true })
}

export function stopDescribing(): void {
  starting.setState({ describing: false })
}
