// Why a project was not opened or saved. The one that was open still is.

import { type Issue, issueText } from '../../model/issue'
import { Dialog } from './Dialog'
import { FaultList } from './FaultList'

export function RefusedDialog({
  issues,
  onClose,
}: {
  readonly issues: readonly Issue[]
  readonly onClose: () => void
}) {
  return (
    <Dialog title="Action not completed" shown={issues.length > 0} onClose={onClose}>
      <p>The open project is unchanged.</p>
      <FaultList faults={issues.map(issueText)} />
    </Dialog>
  )
}
