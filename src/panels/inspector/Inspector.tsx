// All numbers of what is selected, and what is done with it.

import type { Evaluation } from '../../analysis/results/evaluation'
import { jointNames } from '../../model/designs/jointNames'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useSelection } from '../../store/selection'
import { BestSettingsTable } from './BestSettingsTable'
import { ChainFields } from './ChainFields'
import { CostFields } from './CostFields'
import { GapFields } from './GapFields'
import { PointingNote } from './PointingNote'
import { RelayFields } from './RelayFields'
import { UserLines } from './UserLines'
import './candidate.css'

export function Inspector({
  project,
  design,
  evaluation,
}: {
  readonly project: Project
  readonly design: Candidate
  /** Null where the design cannot be evaluated. */
  readonly evaluation: Evaluation | null
}) {
  const selection = useSelection(design)
  const names = jointNames(design.chain)
  const element = selection.kind === 'element' ? selection.element : null
  return (
    <>
      {element?.kind === 'gap' && (
        <GapFields
          project={project}
          gap={element}
          last={element === design.chain.at(-2)}
          candidateId={design.id}
          name={names.get(element.id)}
        />
      )}
      {element?.kind === 'relay' && (
        <RelayFields relay={element} candidateId={design.id} name={names.get(element.id)} />
      )}
      {evaluation?.joints.map((view) => (
        <PointingNote key={view.elementId} view={view} name={names.get(view.elementId)} />
      ))}
      {evaluation !== null && <BestSettingsTable project={project} candidateId={design.id} />}
      <ChainFields project={project} candidate={design} notes={evaluation?.validity ?? []} />
      <UserLines candidate={design} />
      <CostFields candidate={design} />
    </>
  )
}
