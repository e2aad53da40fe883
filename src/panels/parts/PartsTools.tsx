// Above the parts: search, the starter catalogue, files. Catalogue and file formats load when first wanted.

import { lazy, Suspense, useState } from 'react'
import type { Issue } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { RefusedDialog } from '../../ui/controls/RefusedDialog'
import type { FileOutcome } from './partsFiles'

const CatalogueView = lazy(() => import('./CatalogueView').then((each) => ({ default: each.CatalogueView })))

export function PartsTools({
  project,
  search,
  onSearch,
}: {
  readonly project: Project
  readonly search: string
  readonly onSearch: (search: string) => void
}) {
  const [open, setOpen] = useState(false)
  const [said, setSaid] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const run = (work: (files: typeof import('./partsFiles')) => Promise<FileOutcome>) =>
    void import('./partsFiles').then(work).then((outcome) => {
      setSaid(outcome.said)
      setIssues(outcome.issues)
    })
  return (
    <>
      <div className="parts-tools">
        <input
          type="search"
          aria-label="Search the parts"
          placeholder="Search the parts"
          value={search}
          onChange={(event) => onSearch(event.target.value)}
        />
        <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
          Starter catalogue
        </button>
        <button type="button" onClick={() => run((files) => files.importParts())}>
          Import parts
        </button>
        <button type="button" onClick={() => run((files) => files.exportParts(project, 'json'))}>
          Export JSON
        </button>
        <button type="button" onClick={() => run((files) => files.exportParts(project, 'csv'))}>
          Export CSV
        </button>
        <span role="status" className="quiet">
          {said}
        </span>
      </div>
      {open && (
        <Suspense fallback={<p className="quiet">Loading the catalogue</p>}>
          <CatalogueView search={search} />
        </Suspense>
      )}
      <RefusedDialog issues={issues} onClose={() => setIssues([])} />
    </>
  )
}
