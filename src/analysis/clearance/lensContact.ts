// Where the last lens of a relay, or its holder, touches the chip.

import type { Path } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import type { Contact } from '../results/contact'
import { contactOf, UPRIGHT_POSE } from './contact'
import { clearanceSetup } from './jointClearance'

/** By the path of the relay, the lens centred and upright; null where neither chip edge nor barrel is stated. */
export function lensContact(project: Project, path: Path): Contact | null {
  const candidate = project.candidates[Number(path[1])]
  const setup = candidate === undefined ? null : clearanceSetup(project, candidate, Number(path[3]))
  return setup === null ? null : contactOf(setup.solids, setup.obstacles, UPRIGHT_POSE)
}
