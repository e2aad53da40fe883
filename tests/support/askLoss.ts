// The loss criterion of a test project, which has one.

import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import type { LossCriterion } from '../../src/model/schema/requirements'

export type AskedLoss = Partial<Omit<LossCriterion, 'limit' | 'id'>> & { readonly limitDb?: number }

/** Changes the first criterion and drops all others. */
export function askLoss(project: Project, { limitDb, ...asked }: AskedLoss): Project {
  const [first] = project.requirements.losses
  if (first === undefined) throw new Error('no loss criterion')
  const limit = limitDb === undefined ? first.limit : quantityOf(limitDb, 'dB')
  project.requirements.losses = [{ ...first, ...asked, limit }]
  return project
}

/** One channel and all channels, as a percentile of the assemblies. */
export function askPercentile(project: Project, percentile = 95): Project {
  askLoss(project, { basis: 'percentile', percentile, channels: 'one' })
  const [one] = project.requirements.losses
  if (one !== undefined && project.requirements.channels > 1) {
    project.requirements.losses.push({ ...one, id: 'all-channels', channels: 'all' })
  }
  return project
}
