// A project that came by a link, until somebody decides: it never takes the place of other work by itself.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { demoProject, emptyProject } from '../../model/index'
import type { Project } from '../../model/schema/project'
import { refuse } from '../refusals'
import { workbench } from '../workbench'

interface Offer {
  readonly project: Project | null
  /** Whether the dialog with the link of the open project is shown. */
  readonly copying: boolean
}

const offer = createStore<Offer>()(() => ({ project: null, copying: false }))

export function useLinkOffer<T>(select: (state: Offer) => T): T {
  return useStore(offer, select)
}

export function showLink(copying: boolean): void {
  offer.setState({ copying })
}

const textOf = (project: Project) =>
  JSON.stringify(Object.entries(project).sort(([a], [b]) => a.localeCompare(b)))

/** Whether nothing is lost when the open project is replaced: it is one that the app itself starts with. */
export function isUntouched(project: Project, untouched: readonly Project[]): boolean {
  return untouched.some((each) => textOf(each) === textOf(project))
}

/** Reads the link and opens its project, or offers it where other work is open; or says why not. */
export async function offerLink(fragment: string): Promise<void> {
  const { projectOfFragment } = await import('./projectLink')
  const result = await projectOfFragment(fragment)
  if (!result.ok) {
    refuse(result.issues)
    return
  }
  const { project } = workbench.getState()
  if (isUntouched(project, [demoProject(), emptyProject(), result.value])) open(result.value)
  else offer.setState({ project: result.value })
}

function open(project: Project): void {
  workbench.getState().replaceProject(project)
}

/** Opens the offered project, or leaves the one that is open. */
export function settleOffer(accepted: boolean): void {
  const { project } = offer.getState()
  offer.setState({ project: null })
  if (accepted && project !== null) open(project)
}
