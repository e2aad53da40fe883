// One tab stop for a list of controls: arrows, Home and End go from one to the next, Tab leaves the list.

import type { KeyboardEvent } from 'react'

/** For the list around them: moves the focus among the elements that the selector names, in their order. */
export function rove(event: KeyboardEvent<HTMLElement>, selector: string): void {
  if (event.altKey || event.ctrlKey || event.metaKey) return
  const all = [...event.currentTarget.querySelectorAll<HTMLElement>(selector)]
  const at = all.indexOf(document.activeElement as HTMLElement)
  if (at < 0) return
  const targets: Readonly<Record<string, number>> = {
    ArrowDown: Math.min(at + 1, all.length - 1),
    ArrowUp: Math.max(at - 1, 0),
    Home: 0,
    End: all.length - 1,
  }
  const target = targets[event.key]
  if (target === undefined) return
  event.preventDefault()
  all[target]?.focus()
}
