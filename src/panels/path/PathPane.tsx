// The optical path of a design from fibre to waveguide, with its changes in place.

import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { useSelection } from '../../store/selection'
import { Pane } from '../../ui/controls/Panes'
import { PathActions } from '../../ui/path/PathActions'
import { PathStrip } from './PathStrip'

export function PathPane({ project, design, evaluation }: EvaluatedDesign) {
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
