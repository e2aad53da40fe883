// A modal dialog on the platform's own element: focus goes in, stays, and returns; Escape closes.

import { type ReactNode, useEffect, useId, useRef } from 'react'

const FIELDS = 'input:not([type=checkbox], [type=radio]), select, textarea'

export function Dialog({
  title,
  shown,
  onClose,
  children,
  className,
}: {
  readonly title: string
  /** Opens and closes it; `onClose` is also called when the person closes it. */
  readonly shown: boolean
  readonly onClose: () => void
  readonly children: ReactNode
  readonly className?: string
}) {
  const id = useId()
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    const { current } = dialog
    if (shown && current?.open === false) {
      current.showModal()
      // The first thing to fill in rather than the button that gives up.
      current.querySelector<HTMLElement>(FIELDS)?.focus()
    } else if (!shown && current?.open === true) current.close()
  }, [shown])
  return (
    <dialog
      ref={dialog}
      // The event `close` comes a frame after it has closed: by then another reason to show it may have come.
      onCancel={(event) => {
        if (event.target !== event.currentTarget) return // of a file picker inside
        event.preventDefault()
        onClose()
      }}
      // What the browser closes without asking.
      onClose={(event) => {
        if (shown && !event.currentTarget.open) onClose()
      }}
      aria-labelledby={id}
      className={className}
    >
      <div className="dialog-head">
        <h2 id={id}>{title}</h2>
        <button type="button" className="subtle" onClick={onClose}>
          Close
        </button>
      </div>
      {shown && children}
    </dialog>
  )
}
