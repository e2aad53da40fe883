// A facet of one width: how far MFD y moves with MFD x, by their stated tolerances.

import { expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { demoProject } from '../../../src/model/index'
import { followerOf, followingRatio } from '../../../src/model/parts/oneWidth'
import { quantityOf } from '../../../src/model/quantity/quantity'

const um = (value: number, plusMinus?: number) => quantityOf(value, 'um', 'data sheet', plusMinus)

test.each([
  // 10 % of x and 5 % of y: y moves by half the share.
  [um(4, 0.4), um(3, 0.15), 0.5],
  [um(4, 0.2), um(3, 0.6), 4],
  [um(4, 0.4), um(3), 1],
  [um(4), um(3, 0.15), 1],
])(
  'MFD y follows by the ratio of the relative tolerances, in step where one is not stated',
  (mfdX, mfdY, ratio) => {
    expect(followingRatio({ mfdX, mfdY })).toBeCloseTo(ratio, 12)
    const project = demoProject()
    const [facet] = project.facets
    if (facet === undefined) throw new Error('no facet')
    Object.assign(facet, { mfdX, mfdY, oneWidth: true })
    const follower = followerOf(project, ['facets', 0, 'mfdX'])
    expect(follower?.path).toEqual(['facets', 0, 'mfdY'])
    // One um of x is a quarter of it; y moves by that share times the ratio.
    expect(follower?.perCore).toBeCloseTo((ratio * 3) / 4, 12)
    expect(followerOf(project, ['facets', 0, 'mfdY'])).toBeNull()
    facet.oneWidth = false
    expect(followerOf(project, ['facets', 0, 'mfdX'])).toBeNull()
  },
)

test('the end of its tolerance is that of both diameters at once', () => {
  const project = demoProject()
  for (const facet of project.facets)
    Object.assign(facet, { mfdX: um(4, 0.4), mfdY: um(3, 0.15), oneWidth: true })
  const compiled = compileCandidate(project, 'cleaved-dry')
  if (!compiled.ok) throw new Error('not computable')
  const { variables, nominal, joins } = compiled.value
  const place = variables.findIndex(({ path }) => path[0] === 'facets' && path.at(-1) === 'mfdX')
  for (const sign of [-1, 1]) {
    const values = Float64Array.from(nominal)
    values[place] = 4 + sign * 0.4
    const far = joins[0]?.view?.(values).far
    expect(far?.mfdXUm).toBeCloseTo(4 + sign * 0.4, 9)
    expect(far?.mfdYUm).toBeCloseTo(3 + sign * 0.15, 9)
  }
})
