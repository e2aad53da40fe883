// Opens the cross-section of a facet within its part; what it needs is loaded then.

import { lazy, Suspense, useState } from 'react'
import type { FacetEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'

const CrossSectionPanel = lazy(() =>
  import('./CrossSectionPanel').then((each) => ({ default: each.CrossSectionPanel })),
)

export function CrossSectionDisclosure({
  project,
  facet,
}: {
  readonly project: Project
  readonly facet: FacetEntry
}) {
  const [open, setOpen] = useState(false)
  return (
    <div className="wide">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? 'Close' : 'Open'} cross-section and mode of {facet.name}
      </button>
      {open && (
        <Suspense fallback={<p className="quiet">Loading</p>}>
          <CrossSectionPanel project={project} facet={facet} />
        </Suspense>
      )}
    </div>
  )
}
