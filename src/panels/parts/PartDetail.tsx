// The right pane: the chosen part with all its numbers.

import type { ListedPart } from '../../model/parts/partKinds'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { partsView } from '../../store/partsView'
import { Cautions } from '../../ui/cautions/Cautions'
import { Pane } from '../../ui/controls/Panes'
import { ConverterEditor } from './ConverterEditor'
import { FacetEditor } from './FacetEditor'
import { FibreEditor } from './FibreEditor'
import { LensEditor } from './LensEditor'
import { MediumEditor } from './MediumEditor'

function Editor({
  project,
  chosen: { list, id },
}: {
  readonly project: Project
  readonly chosen: ListedPart
}) {
  const fibre = list === 'fibres' && byId(project.fibres, id)
  if (fibre) return <FibreEditor project={project} fibre={fibre} />
  const facet = list === 'facets' && byId(project.facets, id)
  if (facet) return <FacetEditor project={project} facet={facet} />
  const medium = list === 'media' && byId(project.media, id)
  if (medium) return <MediumEditor project={project} medium={medium} />
  const converter = list === 'converters' && byId(project.converters, id)
  if (converter) return <ConverterEditor project={project} converter={converter} />
  const lens = list === 'lenses' && byId(project.lenses, id)
  return lens ? <LensEditor project={project} lens={lens} /> : null
}

export function PartDetail({
  project,
  chosen,
}: {
  readonly project: Project
  readonly chosen: ListedPart | undefined
}) {
  return (
    <Pane name="Part" headless>
      {chosen === undefined ? (
        <div className="parts-empty">
          <p>No parts yet. Copy a fibre and a facet from the catalogue, or add your own.</p>
          <button
            type="button"
            className="primary"
            onClick={() => partsView.setState({ shelf: 'catalogue' })}
          >
            Open the catalogue
          </button>
        </div>
      ) : (
        <>
          <Editor project={project} chosen={chosen} />
          <Cautions />
        </>
      )}
    </Pane>
  )
}
