// Why a project was not opened or saved. The one that was open still is.

import { useEffect, useRef } from 'react'
import type { Issue } from '../../model/issue'

export function RefusedDialog({
  issues,
  onClose,
}: {
  readonly issues: readonly Issue[]
  readonly onClose: () => void
}) {
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    if (issues.length > 0) dialog.current?.showModal()
  }, [issues])
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="refused-title">
      <h2 id="refused-title">Action not completed</h2>
      <p>The open project is unchanged.</p>
      <ul>
        {issues.map((issue) => (
          <li key={`${issue.path.join('/')} ${issue.message}`}>
            {issue.message} {issue.fix}
          </li>
        ))}
      </ul>
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
    </dialog>
  )
}
