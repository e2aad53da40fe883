// The right pane: the chosen part with all its numbers.

import type { ListedPart } from '../../model/parts/partKinds'
import type { Project } from '../../model/schema/project'
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
  const fibre = list === 'fibres' && project.fibres.find((each) => each.id === id)
  if (fibre) return <FibreEditor project={project} fibre={fibre} />
  const facet = list === 'facets' && project.facets.find((each) => each.id === id)
  if (facet) return <FacetEditor project={project} facet={facet} />
  const medium = list === 'media' && project.media.find((each) => each.id === id)
  if (medium) return <MediumEditor project={project} medium={medium} />
  const converter = list === 'converters' && project.converters.find((each) => each.id === id)
  if (converter) return <ConverterEditor project={project} converter={converter} />
  const lens = list === 'lenses' && project.lenses.find((each) => each.id === id)
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
