// A part of the inspector that is folded until it is needed.

import type { ReactNode } from 'react'
import { Fold } from '../../ui/controls/Fold'

export function InspectorSection({
  title,
  note,
  open = false,
  children,
}: {
  readonly title: string
  /** What is inside in a few words, shown while it is folded. */
  readonly note?: string | undefined
  readonly open?: boolean
  readonly children: ReactNode
}) {
  return (
    <Fold
      className="inspector-section"
      open={open}
      summary={
        <>
          {title}
          {note !== undefined && note !== '' && <span className="inspector-note">{note}</span>}
        </>
      }
    >
      {() => <div className="inspector-fields">{children}</div>}
    </Fold>
  )
}
