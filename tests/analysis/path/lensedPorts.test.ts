// A fibre with a lens ground on it is still the fibre that it is made of.

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { familiesProject } from '../support/families'

test.each(['ground-tip', 'spot-tip'])('the core behind a %s is that of the cleaved fibre', (id) => {
  const project = familiesProject()
  const coreOf = (design: string) => evaluateCandidate(project, design).joints[0]?.near.core
  expect(coreOf(id)).toEqual(coreOf('cleaved-dry'))
  expect(coreOf(id)?.isAssumed).toBe(false)
})
