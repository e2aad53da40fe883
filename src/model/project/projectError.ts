// Everything that is wrong with a project, at once.

import type { Issue } from '../issue'

/** Thrown by `parseProject`; `issues` holds every fault with its path. */
export class ProjectError extends Error {
  readonly issues: readonly Issue[]
  constructor(issues: readonly Issue[]) {
    super(issues.map((issue) => issue.message).join('\n'))
    this.name = 'ProjectError'
    this.issues = issues
  }
}
