// The optical path of a design from fibre to waveguide, with its changes in place.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useSelection } from '../../store/selection'
import { Pane } from '../../ui/controls/Panes'
import { PathActions } from '../../ui/path/PathActions'
import { PathStrip } from './PathStrip'

export function PathPane({
  project,
  design,
  evaluation,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly evaluation: Evaluation
}) {
  const selection = useSelection(design)
  const tools =
    selection.kind === 'element' ? (
      <PathActions project={project} design={design} at={selection.at} />
    ) : undefined
  return (
    <Pane name="Path" tools={tools}>
      <PathStrip project={project} design={design} evaluation={evaluation} />
    </Pane>
  )
}
