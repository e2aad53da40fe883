// Adding a design, from any page: a dialog with the families to choose from.

import { closeAddDesign, useView } from '../../store/view'
import { useWorkbench } from '../../store/workbench'
import { Dialog } from '../../ui/controls/Dialog'
import { AddCandidate } from './AddCandidate'
import './start.css'

export function AddDesign() {
  const shown = useView((state) => state.addingDesign)
  const project = useWorkbench((state) => state.project)
  return (
    <Dialog title="Add a design" shown={shown} onClose={closeAddDesign}>
      <AddCandidate project={project} />
    </Dialog>
  )
}
