// The starter catalogue: a click copies an entry into the project, says so, and shows the copy next to the list.

import { CATALOGUE } from '../../../model/catalogue/catalogue'
import { TYPICAL } from '../../../model/catalogue/verify'
import { KIND_LABELS, type ListedPart, PART_KINDS, refKey } from '../../../model/parts/partKinds'
import type { Project } from '../../../model/schema/project'
import { unbroken } from '../../../numerics/numberText'
import { dimensionsText, partDimensions } from '../../../report/partDimensions'
import {
  choosePart,
  copyFromCatalogue,
  filteredParts,
  partsView,
  usePartsView,
} from '../../../store/partsView'

export function CatalogueView({
  project,
  onSaid,
}: {
  readonly project: Project
  readonly onSaid: (said: string) => void
}) {
  const filters = usePartsView((state) => state)
  const entries = filteredParts(CATALOGUE, filters)
  const copy = (entry: ListedPart) => {
    const ref = copyFromCatalogue(entry)
    onSaid(
      ref === null
        ? 'Not copied: the project already holds the maximum number of parts of this kind'
        : `${entry.part.name} copied to ${KIND_LABELS[entry.kind].many} of this project, shown on the right`,
    )
  }
  /** The copy that the project has already, by id or by name. */
  const copyOf = ({ list, part }: ListedPart) =>
    project[list].find((own) => own.id === part.id || own.name === part.name)
  const show = (list: ListedPart['list'], id: string) => {
    choosePart(refKey({ list, id }))
    partsView.setState({ shelf: 'project' })
  }
  return (
    <div className="catalogue">
      <p className="quiet">Generic parts with typical values; verify with the supplier.</p>
      {entries.length === 0 && <p>No catalogue entries match the filters.</p>}
      {PART_KINDS.map((kind) => {
        const own = entries.filter((entry) => entry.kind === kind)
        if (own.length === 0) return null
        return (
          <section key={kind} aria-label={`Catalogue: ${KIND_LABELS[kind].many}`}>
            <h2 className="part-kind">
              {KIND_LABELS[kind].many} <span className="quiet">{own.length}</span>
            </h2>
            <ul>
              {own.map((entry) => {
                const { part } = entry
                const there = copyOf(entry)
                return (
                  <li key={part.id} className="catalogue-row">
                    <span className="part-row-name">{part.name}</span>
                    <span className="part-row-numbers">
                      {unbroken(dimensionsText(partDimensions(entry.list, part)))}
                    </span>
                    <span className="part-row-used">{part.remark?.replace(`${TYPICAL}; `, '')}</span>
                    <span className="catalogue-actions">
                      {there !== undefined && (
                        <button
                          type="button"
                          className="subtle"
                          aria-label={`Show ${part.name} in this project`}
                          onClick={() => show(entry.list, there.id)}
                        >
                          ✓ in project
                        </button>
                      )}
                      <button type="button" aria-label={`Copy ${part.name}`} onClick={() => copy(entry)}>
                        Copy
                      </button>
                    </span>
                  </li>
                )
              })}
            </ul>
          </section>
        )
      })}
    </div>
  )
}
