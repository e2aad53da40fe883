// What the kind of a step is called: a joint without adhesive in its gap is fixed, not cured.

import type { AssemblyStep } from '../../model/schema/build/assembly'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { StepWord } from '../../model/words/assembly'
import { jointOfStep } from './strippedDesign'

/** The key of the step's label and caution. */
export function stepWord(
  { media }: Pick<Project, 'media'>,
  candidate: Candidate,
  step: AssemblyStep,
): StepWord {
  if (step.kind !== 'cure') return step.kind
  const joint = jointOfStep(candidate, step)
  const medium = media.find(({ id }) => id === joint?.mediumId)
  return medium === undefined || medium.state === 'adhesive' ? 'cure' : 'fix'
}
