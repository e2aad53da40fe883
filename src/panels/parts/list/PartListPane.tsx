// The left pane: which shelf, filters, what is done with the picked parts, and the list.

import { lazy, Suspense, useState } from 'react'
import type { ListedPart } from '../../../model/parts/partKinds'
import type { Project } from '../../../model/schema/project'
import { NO_FILTERS, partsView, usePartsView } from '../../../store/partsView'
import { PartFilters } from './PartFilters'
import { PartRows } from './PartRows'
import { PartsMenus } from './PartsMenus'
import { PickedBar } from './PickedBar'

const CatalogueView = lazy(() => import('./CatalogueView').then((each) => ({ default: each.CatalogueView })))

export function PartListPane({
  project,
  shown,
  chosen,
}: {
  readonly project: Project
  readonly shown: readonly ListedPart[]
  readonly chosen: ListedPart | undefined
}) {
  const shelf = usePartsView((state) => state.shelf)
  const [said, setSaid] = useState('')
  const show = (next: typeof shelf) => partsView.setState({ shelf: next })
  return (
    <section className="pane" aria-label="Part list">
      <header className="parts-head">
        <div className="parts-head-row">
          <div className="segmented">
            {(['project', 'catalogue'] as const).map((each) => (
              <button key={each} type="button" aria-pressed={shelf === each} onClick={() => show(each)}>
                {each === 'project' ? 'In this project' : 'Catalogue'}
              </button>
            ))}
          </div>
          <PartsMenus project={project} onSaid={setSaid} />
        </div>
        <PartFilters project={project} />
        {shelf === 'project' && <PickedBar project={project} shown={shown} onSaid={setSaid} />}
        <p className="parts-said" role="status">
          {said}
        </p>
      </header>
      <div className="pane-body">
        {shelf === 'catalogue' ? (
          <Suspense fallback={<p className="quiet">Loading the catalogue…</p>}>
            <CatalogueView project={project} onSaid={setSaid} />
          </Suspense>
        ) : shown.length > 0 ? (
          <>
            <PartRows project={project} parts={shown} chosen={chosen} />
            {(project.fibres.length === 0 || project.facets.length === 0) && (
              <div className="parts-empty">
                <p>
                  A path starts at a fibre and ends at a facet. Add them, or copy them from the catalogue.
                </p>
                <button type="button" onClick={() => show('catalogue')}>
                  Search the catalogue
                </button>
              </div>
            )}
          </>
        ) : (
          <div className="parts-empty">
            <p>No parts match the filters.</p>
            <button type="button" onClick={() => partsView.setState(NO_FILTERS)}>
              Clear filters
            </button>
            <button type="button" onClick={() => show('catalogue')}>
              Search the catalogue
            </button>
          </div>
        )}
      </div>
    </section>
  )
}
