// The dialogs about starting, which any page may open: a new project, a further design, unsaved changes.

import { lazy, Suspense } from 'react'
import { stopDescribing, useStarting } from '../../store/files/starting'
import { closeAddDesign, useView } from '../../store/view'
import { Dialog } from '../../ui/controls/Dialog'
import { UnsavedQuestion } from './UnsavedQuestion'
import './start.css'

const NewProject = lazy(async () => ({ default: (await import('./NewProject')).NewProject }))
const FamilyGallery = lazy(async () => ({ default: (await import('./FamilyGallery')).FamilyGallery }))

const loading = <p role="status">Loading…</p>

export function StartDialogs() {
  const describing = useStarting((state) => state.describing)
  const adding = useView((state) => state.addingDesign)
  return (
    <>
      <Dialog title="New project" shown={describing} onClose={stopDescribing} className="new-project-dialog">
        <Suspense fallback={loading}>
          <NewProject />
        </Suspense>
      </Dialog>
      <Dialog title="Add a design" shown={adding} onClose={closeAddDesign} className="gallery-dialog">
        <Suspense fallback={loading}>
          <FamilyGallery />
        </Suspense>
      </Dialog>
      <UnsavedQuestion />
    </>
  )
}
