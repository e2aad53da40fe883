import { expect, test } from 'vitest'
import { demoProject } from '../../../src/model/index'
import { leadingLimit } from '../../../src/model/project/lossCriteria'
import { askLoss } from '../../support/askLoss'

test.each([
  [{ basis: 'RSS', limitDb: 1.5 }, 'RSS limit'],
  [{ basis: 'worst case', limitDb: 1.5 }, 'worst-case limit'],
  [{ basis: 'nominal', limitDb: 1.5 }, 'nominal limit'],
  [{ basis: 'percentile', percentile: 99.5, limitDb: 1.5 }, 'P99.5 limit'],
] as const)('the limit of a criterion %o is named after what it applies to', (criterion, name) => {
  const project = demoProject()
  askLoss(project, criterion)
  expect(leadingLimit(project.requirements)).toEqual({ limitDb: 1.5, name })
})
