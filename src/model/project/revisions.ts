// Named states of the design: keeping one, and bringing one back. Readings and the list of revisions itself stay.

import type { Design, Project, Revision } from '../schema/project'
import { byId } from '../words/byId'
import { freeId } from '../words/freeName'
import { LIMITS } from '../words/limits'

/** The design of a project in its present state. */
export function designOf(project: Project): Design {
  const { format: _, version: __, measurements: ___, revisions: ____, ...design } = project
  return design
}

interface RevisionName {
  readonly name: string
  /** ISO day, as the caller's clock says. */
  readonly date: string
  readonly remark: string
}

/** Keeps the design as a revision, on a draft. Returns why it could not, or null. */
export function keepRevision(
  draft: Project,
  design: Design,
  { name, date, remark }: RevisionName,
): string | null {
  const revisions = draft.revisions ?? []
  if (revisions.length >= LIMITS.revisions) {
    return `the project has ${revisions.length} revisions; at most ${LIMITS.revisions} are kept`
  }
  if (revisions.some((each) => each.name === name)) return `a revision named "${name}" already exists`
  const revision: Revision = {
    id: freeId('revision', revisions),
    name,
    date,
    ...(remark === '' ? {} : { remark }),
    design: structuredClone(design),
  }
  draft.revisions = [...revisions, revision]
  return null
}

/** The project as the revision had it, with today's readings and revisions; null for an unknown revision. */
export function restoredProject(project: Project, revisionId: string): Project | null {
  const revision = byId(project.revisions, revisionId)
  if (revision === undefined) return null
  const { format, version, measurements, revisions } = project
  return {
    format,
    version,
    ...structuredClone(revision.design),
    measurements,
    ...(revisions === undefined ? {} : { revisions }),
  }
}
