// The project that is open, and its undo. What is on screen is in view.ts, which undo leaves alone.

import { produce } from 'immer'
import { type TemporalState, temporal } from 'zundo'
import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { demoProject } from '../model/index'
import type { Project } from '../model/schema/project'
import { view } from './view'

export interface Workbench {
  readonly project: Project
  readonly edit: (recipe: (draft: Project) => void) => void
  readonly replaceProject: (project: Project) => void
}

type Undoable = Pick<Workbench, 'project'>

const UNDO_STEPS = 200

export const workbench = createStore<Workbench>()(
  temporal(
    (set) => ({
      project: demoProject(),
      edit: (recipe) => set((state) => ({ project: produce(state.project, recipe) })),
      replaceProject: (project) => {
        endGesture() // else the old project would be gone without an undo step
        set({ project })
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

/** An edit within a gesture, or one of its own. */
export function editProject(recipe: (draft: Project) => void): void {
  const before = workbench.getState().project
  workbench.getState().edit(recipe)
  if (gestureOpen && workbench.getState().project !== before) workbench.temporal.getState().pause()
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
