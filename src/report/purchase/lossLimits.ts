// The loss limits of the requirements as lines of a test instruction.

import { requirementLabel } from '../../model/project/statedRequirements'
import type { Project } from '../../model/schema/project'

export function lossLimitText({ requirements }: Project): readonly string[] {
  return requirements.losses.map(({ id }) => `Limit: ${requirementLabel(requirements, id)}.`)
}
