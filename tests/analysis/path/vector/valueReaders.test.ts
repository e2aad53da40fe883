// What of a design is a quantity of its own: every number once, and the measurement uncertainty of those that state one.

import { expect, test } from 'vitest'
import { compileCandidate } from '../../../../src/analysis/path/compileCandidate'
import { demoProject } from '../../../../src/model/index'
import { quantityOf } from '../../../../src/model/quantity/quantity'

test('a measurement uncertainty is a quantity about zero, and only where it is stated', () => {
  const variablesOf = (plusMinus: number) => {
    const project = demoProject()
    const [facet] = project.facets
    if (facet === undefined) throw new Error('no facet')
    facet.mfdX = {
      ...quantityOf(3.4, 'um'),
      ...(plusMinus > 0 && { uncertainty: { plusMinus } }),
    } as typeof facet.mfdX
    const result = compileCandidate(project, 'cleaved-dry')
    if (!result.ok) throw new Error('no path')
    return result.value.variables
  }
  const uncertain = (plusMinus: number) =>
    variablesOf(plusMinus).filter(({ label }) => label.endsWith(', measurement uncertainty'))
  expect(uncertain(0)).toEqual([])
  expect(uncertain(0.1)).toMatchObject([{ nominal: 0, path: ['facets', 0, 'mfdX', 'uncertainty'] }])
  expect(uncertain(0.1)[0]?.spread.halfWidth).toBeGreaterThan(0)
  const paths = variablesOf(0.1).map(({ path }) => path.join('/'))
  expect(new Set(paths).size).toBe(paths.length)
})
