// A menu button after the ARIA authoring practices: arrows, Home, End and first letters move, Enter chooses, Escape
// and a click outside close. An entry that cannot be chosen stays reachable and says why.

import { type KeyboardEvent, type ReactNode, useId, useLayoutEffect, useRef, useState } from 'react'
import { flushSync } from 'react-dom'
import { placeBeside } from './placement'

interface MenuItem {
  readonly id: string
  readonly label: string
  /** Shown at the right, as people read it: `Ctrl+S`. */
  readonly keys?: string
  /** A second, quiet line; for a disabled entry the reason. */
  readonly note?: string
  readonly disabled?: boolean
  readonly checked?: boolean
  readonly onChoose: () => void
}

/** A line between groups, or the quiet name of the group that follows. */
interface MenuBreak {
  readonly id: string
  readonly break: true
  readonly label?: string
}

export type MenuEntry = MenuItem | MenuBreak

const isItem = (entry: MenuEntry): entry is MenuItem => !('break' in entry)

export function Menu({
  label,
  children,
  entries,
  align = 'start',
  className,
  disabled = false,
  isStop = true,
}: {
  /** The name of the button, where what is shown on it does not say it. */
  readonly label?: string
  readonly children: ReactNode
  /** Asked for while the menu is open. */
  readonly entries: () => readonly MenuEntry[]
  readonly align?: 'start' | 'end'
  readonly className?: string
  readonly disabled?: boolean
  /** False in a row of a list that is one tab stop, where another row is chosen. */
  readonly isStop?: boolean
}) {
  const id = useId()
  const button = useRef<HTMLButtonElement>(null)
  const list = useRef<HTMLDivElement>(null)
  const [shown, setShown] = useState(false)
  /** Open until somebody closes it, and the entry that has the focus. */
  const isOpen = useRef(false)
  const focusedAt = useRef(0)
  const items = () => [...(list.current?.querySelectorAll<HTMLElement>('[role^="menuitem"]') ?? [])]

  // What a page moves to another place, such as the column of a design that now ranks higher, loses its popover and the focus.
  useLayoutEffect(() => {
    const { current } = list
    if (!isOpen.current || current === null || button.current === null) return
    if (current.matches(':popover-open')) return
    current.showPopover()
    placeBeside(current, button.current, align)
    items()[focusedAt.current]?.focus()
  })

  const open = (at: 'first' | 'last') => {
    const { current } = list
    if (current === null || button.current === null) return
    flushSync(() => setShown(true))
    current.showPopover()
    placeBeside(current, button.current, align)
    items()
      .at(at === 'first' ? 0 : -1)
      ?.focus()
  }
  const close = () => {
    list.current?.hidePopover()
    button.current?.focus()
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const all = items()
    const at = all.indexOf(document.activeElement as HTMLElement)
    const step: Readonly<Record<string, number>> = {
      ArrowDown: (at + 1) % all.length,
      ArrowUp: (at + all.length - 1) % all.length,
      Home: 0,
      End: all.length - 1,
    }
    const next = step[event.key]
    if (next !== undefined) {
      event.preventDefault()
      all[next]?.focus()
    } else if (event.key === 'Escape' || event.key === 'Tab') {
      if (event.key === 'Escape') event.preventDefault()
      event.stopPropagation()
      close()
    } else if (event.key.length === 1 && !event.ctrlKey && !event.metaKey) {
      const letter = event.key.toLowerCase()
      const found = [...all.slice(at + 1), ...all.slice(0, at + 1)].find((item) =>
        item.textContent?.toLowerCase().startsWith(letter),
      )
      found?.focus()
    }
  }

  return (
    <>
      <button
        ref={button}
        type="button"
        className={className}
        disabled={disabled}
        tabIndex={isStop ? undefined : -1}
        aria-label={label}
        aria-haspopup="menu"
        aria-controls={id}
        onClick={() => open('first')}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return
          event.preventDefault()
          open(event.key === 'ArrowDown' ? 'first' : 'last')
        }}
      >
        {children}
      </button>
      <div
        ref={list}
        id={id}
        popover="auto"
        role="menu"
        tabIndex={-1}
        aria-label={label ?? (typeof children === 'string' ? children : undefined)}
        className="menu"
        onKeyDown={onKeyDown}
        onFocus={({ target }) => {
          focusedAt.current = items().indexOf(target)
        }}
        onBeforeToggle={(event) => {
          isOpen.current = event.newState === 'open'
        }}
        onToggle={(event) => setShown(event.newState === 'open')}
      >
        {(shown ? entries() : []).map((entry) =>
          isItem(entry) ? (
            <button
              key={entry.id}
              type="button"
              role={entry.checked === undefined ? 'menuitem' : 'menuitemradio'}
              tabIndex={-1}
              aria-disabled={entry.disabled === true ? true : undefined}
              {...(entry.checked === undefined ? {} : { 'aria-checked': entry.checked })}
              onClick={() => {
                if (entry.disabled === true) return
                close()
                entry.onChoose()
              }}
            >
              <span className="menu-item-words">
                {entry.checked === true && <span aria-hidden="true">✓ </span>}
                {entry.label}
                {entry.note !== undefined && <span className="menu-note">{entry.note}</span>}
              </span>
              {entry.keys !== undefined && <span className="menu-keys">{entry.keys}</span>}
            </button>
          ) : entry.label === undefined ? (
            <hr key={entry.id} />
          ) : (
            <div key={entry.id} className="menu-group" role="presentation">
              {entry.label}
            </div>
          ),
        )}
      </div>
    </>
  )
}
