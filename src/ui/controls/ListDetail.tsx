// Two panes that belong together, a list and what is chosen in it; one below the other where the window is narrow.

import type { ReactNode } from 'react'
import { Split } from './Panes'
import { PANES_FIT, useMedia } from './useMedia'

export function ListDetail({
  id,
  list,
  detail,
  listName,
  detailName,
  size = '25rem',
}: {
  /** Names the kept sizes. */
  readonly id: string
  readonly list: ReactNode
  readonly detail: ReactNode
  readonly listName: string
  readonly detailName: string
  /** Width of the list at first. */
  readonly size?: string
}) {
  const sideBySide = useMedia(PANES_FIT)
  if (!sideBySide) {
    return (
      <div className="pane-stack">
        {list}
        {detail}
      </div>
    )
  }
  return (
    <Split
      across
      id={id}
      panes={[
        { id: listName, view: list, size, least: '16rem', most: '50%', fixed: true },
        { id: detailName, view: detail, least: '26rem' },
      ]}
    />
  )
}
