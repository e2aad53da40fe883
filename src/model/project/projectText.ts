// What a project file holds.

import type { Project } from '../schema/project'

/** The text of a project file. */
export function projectText(project: Project): string {
  return `${JSON.stringify(project, null, 2)}\n`
}
