// Which part of the help is open. A tour that was taken or skipped is remembered in this browser.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'

const KEY = 'modeseam-tour'

export type HelpView = 'guide' | 'glossary' | 'shortcuts'

interface Help {
  readonly open: HelpView | null
  /** Page of the guide, by its file name. */
  readonly page: string
  /** Step of the guided tour; null while it is not taken. */
  readonly tourStep: number | null
  /** True until the tour was once taken or skipped. */
  readonly tourIsNew: boolean
}

function neverToured(): boolean {
  try {
    return localStorage.getItem(KEY) === null
  } catch {
    return true // blocked storage: it is then offered in every session
  }
}

const help = createStore<Help>()(() => ({
  open: null,
  page: 'first-ten-minutes',
  tourStep: null,
  tourIsNew: neverToured(),
}))

export function useHelp<T>(select: (state: Help) => T): T {
  return useStore(help, select)
}

export function openHelp(open: HelpView, page?: string): void {
  help.setState({ open, ...(page === undefined ? {} : { page }) })
}

export function closeHelp(): void {
  help.setState({ open: null })
}

export function startTour(): void {
  help.setState({ open: null, tourStep: 0 })
}

export function moveTour(step: number): void {
  help.setState({ tourStep: step })
}

/** Ends or skips it; it can be called again from the help menu. */
export function endTour(): void {
  help.setState({ tourStep: null, tourIsNew: false })
  try {
    localStorage.setItem(KEY, 'seen')
  } catch {
    // As above.
  }
}
