// A whole project by a link: the one that is opened, and whether the link of the open one is shown.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { openInstead } from '../files/starting'
import { refuse } from '../refusals'

const link = createStore<{ readonly shown: boolean }>()(() => ({ shown: false }))

export function useLinkShown(): boolean {
  return useStore(link, (state) => state.shown)
}

export function showLink(shown: boolean): void {
  link.setState({ shown })
}

/** Reads the link and opens its project, after asking where other work would be lost; or says why not. */
export async function openLink(fragment: string): Promise<void> {
  const { projectOfFragment } = await import('./projectLink')
  const result = await projectOfFragment(fragment)
  if (!result.ok) {
    refuse(result.issues)
    return
  }
  const project = result.value
  await openInstead(`Open “${project.name}” from the link`, async () => project)
}
