// A part that is folded until the user opens it. What is inside is made with the first opening, so that what is not visible does not
// slow a drag; after that it stays, with what was typed into it.

import { type ReactNode, useState } from 'react'

export function Fold({
  summary,
  className,
  open = false,
  children,
}: {
  readonly summary: ReactNode
  readonly className?: string
  /** Whether it starts open. */
  readonly open?: boolean
  readonly children: () => ReactNode
}) {
  const [opened, setOpened] = useState(open)
  return (
    <details
      className={className}
      open={open}
      onToggle={(event) => {
        if (event.currentTarget.open) setOpened(true)
      }}
    >
      <summary>{summary}</summary>
      {opened && children()}
    </details>
  )
}
