// Tabs after the ARIA authoring practices: one tab stop, arrows, Home and End move and show at once.

import { type KeyboardEvent, type ReactNode, useId, useRef } from 'react'
import './tabs.css'

interface Tab {
  readonly id: string
  readonly label: string
  readonly view: () => ReactNode
}

export function Tabs({
  label,
  tabs,
  chosen,
  onChoose,
  onChosenAgain,
  tools,
  flowing = false,
}: {
  readonly label: string
  readonly tabs: readonly Tab[]
  readonly chosen: string
  readonly onChoose: (id: string) => void
  /** Enter or a double click on the tab that is chosen. */
  readonly onChosenAgain?: () => void
  /** Shown at the other end of the row. */
  readonly tools?: ReactNode
  /** True where the pane around them scrolls, and not the panel. */
  readonly flowing?: boolean
}) {
  const id = useId()
  const list = useRef<HTMLDivElement>(null)
  const at = Math.max(
    0,
    tabs.findIndex((tab) => tab.id === chosen),
  )
  const shown = tabs[at]
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') onChosenAgain?.()
    const targets: Readonly<Record<string, number>> = {
      ArrowRight: (at + 1) % tabs.length,
      ArrowLeft: (at + tabs.length - 1) % tabs.length,
      Home: 0,
      End: tabs.length - 1,
    }
    const target = targets[event.key]
    const next = target === undefined ? undefined : tabs[target]
    if (target === undefined || next === undefined) return
    event.preventDefault()
    onChoose(next.id)
    const button = list.current?.children[target]
    if (button instanceof HTMLElement) button.focus()
  }
  return (
    <div className={flowing ? 'tabs flowing' : 'tabs'}>
      <div className="tab-row screen-only">
        <div role="tablist" aria-label={label} ref={list} className="tab-list">
          {tabs.map((tab, index) => (
            <button
              key={tab.id}
              type="button"
              role="tab"
              id={`${id}-${tab.id}`}
              aria-selected={index === at}
              aria-controls={`${id}-panel`}
              tabIndex={index === at ? 0 : -1}
              onClick={() => onChoose(tab.id)}
              onDoubleClick={onChosenAgain}
              onKeyDown={onKeyDown}
            >
              {tab.label}
            </button>
          ))}
        </div>
        {tools}
      </div>
      {shown !== undefined && (
        <div role="tabpanel" id={`${id}-panel`} aria-labelledby={`${id}-${shown.id}`} className="tab-panel">
          {shown.view()}
        </div>
      )}
    </div>
  )
}
