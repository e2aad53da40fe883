// Search, kind and wavelength: the same filters for both shelves.

import { KIND_LABELS, PART_KINDS } from '../../../model/parts/partKinds'
import { coreValue } from '../../../model/quantity/quantity'
import type { Project } from '../../../model/schema/project'
import { nmOf } from '../../../numerics/numberText'
import { partsView, usePartsView } from '../../../store/partsView'

const USUAL_NM = [850, 1064, 1310, 1550]

export function PartFilters({ project }: { readonly project: Project }) {
  const { search, kind, wavelengthUm } = usePartsView((state) => state)
  const ownUm = coreValue(project.requirements.wavelength, 'wavelength')
  const choices = [ownUm, ...USUAL_NM.map((nm) => nm / 1000)].filter((um, at, all) => all.indexOf(um) === at)
  return (
    <search className="parts-filters">
      <input
        type="search"
        aria-label="Search the parts"
        placeholder="Name, remark or number"
        value={search}
        onChange={(event) => partsView.setState({ search: event.target.value })}
      />
      <select
        aria-label="Kind"
        value={kind}
        onChange={(event) =>
          partsView.setState({ kind: PART_KINDS.find((each) => each === event.target.value) ?? '' })
        }
      >
        <option value="">All kinds</option>
        {PART_KINDS.map((each) => (
          <option key={each} value={each}>
            {KIND_LABELS[each].many}
          </option>
        ))}
      </select>
      <select
        aria-label="For wavelength"
        value={wavelengthUm ?? ''}
        onChange={(event) =>
          partsView.setState({ wavelengthUm: event.target.value === '' ? null : Number(event.target.value) })
        }
      >
        <option value="">Any wavelength</option>
        {choices.map((um) => (
          <option key={um} value={um}>
            {um === ownUm ? `${nmOf(um)} nm (project)` : `${nmOf(um)} nm`}
          </option>
        ))}
      </select>
    </search>
  )
}
