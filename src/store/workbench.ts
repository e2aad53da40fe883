// The project that is open, and its undo. What is on screen is in view.ts, which undo leaves alone.

import { freeze, produce } from 'immer'
import { type TemporalState, temporal } from 'zundo'
import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { DEMO_DESIGN_ID, demoProject } from '../model/index'
import type { Issue } from '../model/issue'
import type { Project } from '../model/schema/project'
import { readBackIssues } from './readBack'
import { refuse } from './refusals'
import { view } from './view'

interface Workbench {
  readonly project: Project
  /** Takes the edit, or refuses it where its project could not be read back: answers why. */
  readonly edit: (recipe: (draft: Project) => void) => readonly Issue[]
  readonly replaceProject: (project: Project) => void
}

type Undoable = Pick<Workbench, 'project'>

/** How far back undo goes. */
export const UNDO_STEPS = 200

export const workbench = createStore<Workbench>()(
  temporal(
    (set, get) => ({
      project: demoProject(),
      edit: (recipe) => {
        const before = get().project
        const after = produce(before, recipe)
        // A project that is out of order already must stay editable, or it could not be repaired.
        const issues = readBackIssues(after)
        if (issues.length > 0 && readBackIssues(before).length === 0) return issues
        set({ project: after })
        return []
      },
      replaceProject: (project) => {
        endGesture() // else the old project would be gone without an undo step
        // Now rather than by the first edit, which the user waits for.
        set({ project: freeze(project, true) })
        view.setState({ designId: '', elementId: '' })
      },
    }),
    {
      limit: UNDO_STEPS,
      partialize: (state): Undoable => ({ project: state.project }),
      equality: (past, current) => past.project === current.project,
    },
  ),
)

// The app starts with the demo, on the design that meets its requirements.
view.setState({ designId: DEMO_DESIGN_ID })

export function useWorkbench<T>(select: (state: Workbench) => T): T {
  return useStore(workbench, select)
}

export function useHistory<T>(select: (state: TemporalState<Undoable>) => T): T {
  return useStore(workbench.temporal, select)
}

let gestureOpen = false

/** From now on all edits are one undo step: the first that changes something is recorded, the rest join it. */
export function beginGesture(): void {
  gestureOpen = true
}

/** An edit within a gesture, or one of its own. Answers why it was refused; nothing where it was taken. */
export function tryEdit(recipe: (draft: Project) => void): readonly Issue[] {
  const before = workbench.getState().project
  const issues = workbench.getState().edit(recipe)
  if (gestureOpen && workbench.getState().project !== before) workbench.temporal.getState().pause()
  return issues
}

/** The same for those who have no place of their own for a refusal. */
export function editProject(recipe: (draft: Project) => void): void {
  refuse(tryEdit(recipe))
}

export function endGesture(): void {
  gestureOpen = false
  workbench.temporal.getState().resume()
}

export function undo(): void {
  endGesture()
  workbench.temporal.getState().undo()
}

export function redo(): void {
  endGesture()
  workbench.temporal.getState().redo()
}
