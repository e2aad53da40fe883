// Light, dark or as the system says; kept in this browser, not in the project.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'

const THEMES = ['system', 'light', 'dark'] as const
type Theme = (typeof THEMES)[number]

const KEY = 'modeseam-theme'

function keptTheme(): Theme {
  try {
    const kept = localStorage.getItem(KEY)
    return THEMES.find((theme) => theme === kept) ?? 'system'
  } catch {
    return 'system' // blocked storage: the choice then lasts as long as the page
  }
}

const themes = createStore<{ readonly theme: Theme }>()(() => ({ theme: keptTheme() }))

let system: MediaQueryList | undefined
const systemDark = () => {
  system ??= window.matchMedia('(prefers-color-scheme: dark)')
  return system
}

/** The style sheet holds the scheme of each theme: the build turns light-dark() into values that only it can switch. */
function apply(theme: Theme): void {
  document.documentElement.dataset.theme = theme
}

/** Switches to the next of system, light and dark. */
export function nextTheme(): void {
  const at = THEMES.indexOf(themes.getState().theme)
  const theme = THEMES[(at + 1) % THEMES.length] ?? 'system'
  themes.setState({ theme })
  apply(theme)
  try {
    localStorage.setItem(KEY, theme)
  } catch {
    // As above: nothing else depends on it.
  }
}

export function useTheme(): Theme {
  return useStore(themes, (state) => state.theme)
}

/** Whether the page is dark at this moment. */
export function isDark(): boolean {
  const { theme } = themes.getState()
  return theme === 'system' ? systemDark().matches : theme === 'dark'
}

/** Calls back whenever `isDark` may have changed; returns the function that stops it. */
export function watchDark(tell: () => void): () => void {
  const media = systemDark()
  media.addEventListener('change', tell)
  const stop = themes.subscribe(tell)
  return () => {
    media.removeEventListener('change', tell)
    stop()
  }
}

export function startTheme(): void {
  apply(themes.getState().theme)
}
