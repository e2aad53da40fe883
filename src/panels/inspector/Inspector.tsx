// All numbers of what is selected, its parts on top, and what is done with it. Nothing else is open.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { type Selection, useSelection } from '../../store/selection'
import { selectElement, WHOLE_DESIGN } from '../../store/view'
import { DesignSection } from './DesignSection'
import { GapSection } from './GapSection'
import { GuideSection } from './GuideSection'
import { OptimumView } from './OptimumView'
import { PartPickers } from './PartPickers'
import { RelaySection } from './RelaySection'
import { SpliceSection } from './SpliceSection'
import { UserLineSection } from './UserLineSection'
import { headOf } from './words'
import './inspector.css'

interface Shown {
  readonly project: Project
  readonly design: Candidate
  /** Null where the design cannot be evaluated. */
  readonly evaluation: Evaluation | null
}

function ElementSection({
  project,
  design,
  evaluation,
  selection: { element },
}: Shown & { readonly selection: Extract<Selection, { kind: 'element' }> }) {
  switch (element.kind) {
    case 'gap':
      return (
        <GapSection
          project={project}
          design={design}
          gap={element}
          view={evaluation?.joints.find(({ elementId }) => elementId === element.id)}
        />
      )
    case 'relay':
      return <RelaySection project={project} design={design} relay={element} />
    case 'splice':
      return (
        <SpliceSection
          splice={element}
          designId={design.id}
          notes={evaluation?.validity.filter(({ elementId }) => elementId === element.id) ?? []}
        />
      )
    default:
      return (
        <GuideSection
          project={project}
          element={element}
          designId={design.id}
          guide={evaluation?.guides.find(({ elementId }) => elementId === element.id)}
        />
      )
  }
}

export function Inspector({ project, design, evaluation }: Shown) {
  const selection = useSelection(design)
  const { kind, title } = headOf(project, design, selection)
  const element = selection.kind === 'element' ? selection.element : null
  const aligns = element?.kind === 'gap' || element?.kind === 'relay'
  return (
    <div className="inspector" key={`${design.id} ${selection.id}`}>
      <header className="inspector-head">
        <div>
          <p>{kind}</p>
          <h2>{title}</h2>
        </div>
      </header>
      {element !== null && (
        <div className="inspector-rows">
          <PartPickers project={project} designId={design.id} element={element} />
        </div>
      )}
      {selection.kind === 'element' && (
        <ElementSection project={project} design={design} evaluation={evaluation} selection={selection} />
      )}
      {selection.kind === 'user line' && <UserLineSection line={selection.line} designId={design.id} />}
      {selection.kind === 'design' && <DesignSection project={project} design={design} />}
      {aligns && evaluation !== null && <OptimumView project={project} designId={design.id} />}
      {selection.kind !== 'design' && (
        <button type="button" className="subtle" onClick={() => selectElement(WHOLE_DESIGN)}>
          Name, cost and additional losses…
        </button>
      )}
    </div>
  )
}
