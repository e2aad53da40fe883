// Whether a project would be read back by the next session. The reader is too large for the first moment: it comes right
// after the page, and until then every edit is taken and the first save does the asking.

import type { Issue } from '../model/issue'
import type { Project } from '../model/schema/project'

let check: ((project: Project) => readonly Issue[]) | null = null

/** Why the project could not be read back; nothing where it could, or before the reader is there. */
export function readBackIssues(project: Project): readonly Issue[] {
  return check?.(project) ?? []
}

/** Brings the reader; what cannot be brought is requested again at the next call. */
export async function loadReadBack(): Promise<void> {
  if (check !== null) return
  const { projectCheck } = await import('../model/project/projectCheck')
  check ??= projectCheck()
}
