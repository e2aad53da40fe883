// A project whose numbers are exact, for tests of nominal results: nothing is fitted over the region of tolerances that are not there.

import type { Project } from '../../src/model/schema/project'

/** A copy without any tolerance, those of parts included. */
export const withoutTolerances = (project: Project): Project =>
  JSON.parse(JSON.stringify(project, (key, value) => (key === 'tolerance' ? undefined : value)))
