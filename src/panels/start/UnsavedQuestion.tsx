// Before another project takes the place of one with changes that are in no file.

import { saveProject } from '../../store/files/projectFiles'
import { hasUnsavedWork, useStarting } from '../../store/files/starting'
import { useWorkbench } from '../../store/workbench'
import { Dialog } from '../../ui/controls/Dialog'

export function UnsavedQuestion() {
  const question = useStarting((state) => state.question)
  const name = useWorkbench((state) => state.project.name)
  const saveFirst = async () => {
    await saveProject()
    // A save that was cancelled or refused leaves the work unsaved, and the question open.
    if (!hasUnsavedWork()) question?.answer(true)
  }
  return (
    <Dialog
      title="Unsaved changes"
      shown={question !== null}
      onClose={() => question?.answer(false)}
      className="unsaved-question"
    >
      <p>
        {question?.intent}: “{name}” has changes that are not saved to a file. If you continue without saving,
        only Undo can restore them, in this session.
      </p>
      <div className="dialog-actions">
        <button type="button" onClick={() => question?.answer(false)}>
          Cancel
        </button>
        <button type="button" onClick={() => question?.answer(true)}>
          Continue without saving
        </button>
        <button type="button" className="primary" onClick={() => void saveFirst()}>
          Save and continue
        </button>
      </div>
    </Dialog>
  )
}
