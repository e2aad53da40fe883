// The optical path of a design from fibre to waveguide.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { Pane } from '../../ui/controls/Panes'
import { ModeAlongChain } from './ModeAlongChain'

export function PathPane({
  project,
  design,
  evaluation,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly evaluation: Evaluation
}) {
  return (
    <Pane name="Path">
      <ModeAlongChain project={project} candidate={design} evaluation={evaluation} />
    </Pane>
  )
}
