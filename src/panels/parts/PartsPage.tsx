// Every part of the project with its numbers.

import { useState } from 'react'
import {
  newFacet,
  newFibre,
  newLens,
  newLensedTip,
  newMedium,
  newTaperChip,
} from '../../model/parts/newParts'
import { matchesSearch } from '../../model/parts/partSearch'
import type { PartList } from '../../model/project/references'
import type { Project } from '../../model/schema/project'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { editProject, useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { ConverterEditor } from './ConverterEditor'
import { FacetEditor } from './FacetEditor'
import { FibreEditor } from './FibreEditor'
import { LensEditor } from './LensEditor'
import { MediumEditor } from './MediumEditor'
import { PartsTools } from './PartsTools'
import './parts.css'

const NEW_PARTS: readonly {
  readonly label: string
  readonly list: PartList
  readonly add: (draft: Project) => void
}[] = [
  { label: 'Add fibre', list: 'fibres', add: ({ fibres }) => fibres.push(newFibre(freeId('fibre', fibres))) },
  { label: 'Add facet', list: 'facets', add: ({ facets }) => facets.push(newFacet(freeId('facet', facets))) },
  {
    label: 'Add gap medium',
    list: 'media',
    add: ({ media }) => media.push(newMedium(freeId('medium', media))),
  },
  {
    label: 'Add lensed tip',
    list: 'converters',
    add: ({ converters }) => converters.push(newLensedTip(freeId('tip', converters))),
  },
  {
    label: 'Add taper chip',
    list: 'converters',
    add: ({ converters }) => converters.push(newTaperChip(freeId('taper-chip', converters))),
  },
  { label: 'Add lens', list: 'lenses', add: ({ lenses }) => lenses.push(newLens(freeId('lens', lenses))) },
]

export function PartsPage() {
  const project = useWorkbench((state) => state.project)
  const [search, setSearch] = useState('')
  const found = (part: object) => search.trim() === '' || matchesSearch(part, search)
  return (
    <div className="page">
      <h1>Parts</h1>
      <PartsTools project={project} search={search} onSearch={setSearch} />
      <div className="add-part">
        {NEW_PARTS.map(({ label, list, add }) => (
          <button
            key={label}
            type="button"
            disabled={project[list].length >= LIMITS.parts}
            onClick={() =>
              editProject((draft) => {
                add(draft)
                const own = draft[list].at(-1)
                if (own !== undefined) own.name = freeName(own.name, draft[list].slice(0, -1))
              })
            }
          >
            {label}
          </button>
        ))}
      </div>
      {project.fibres.filter(found).map((fibre) => (
        <FibreEditor key={fibre.id} project={project} fibre={fibre} />
      ))}
      {project.facets.filter(found).map((facet) => (
        <FacetEditor key={facet.id} project={project} facet={facet} />
      ))}
      {project.media.filter(found).map((medium) => (
        <MediumEditor key={medium.id} project={project} medium={medium} />
      ))}
      {project.converters.filter(found).map((converter) => (
        <ConverterEditor key={converter.id} project={project} converter={converter} />
      ))}
      {project.lenses.filter(found).map((lens) => (
        <LensEditor key={lens.id} project={project} lens={lens} />
      ))}
      <Cautions />
    </div>
  )
}
