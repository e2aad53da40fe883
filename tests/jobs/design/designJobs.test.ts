// Searches off the page answer what the core answers at once, as plain data that a worker can send, and report their progress.

import { expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { allowances } from '../../../src/analysis/sizing/allowances'
import { sizedDimensions } from '../../../src/analysis/sizing/dimensions'
import { sizeCurve } from '../../../src/analysis/sizing/sizeCurve'
import { sizedCandidate } from '../../../src/analysis/sizing/wholeRow'
import { bestSettings } from '../../../src/analysis/tolerance/bestSettings'
import { designJobs } from '../../../src/jobs/design/designJobs'
import { demoProject } from '../../../src/model/index'
import '../../support/fitsHere'

const project = demoProject()
const of = (designId: string) => ({ project, designId, fits: [] })

function compiled(designId: string) {
  const result = compileCandidate(project, designId)
  if (!result.ok) throw new Error('the demo compiles')
  return result.value
}

test('the optimum is that of bestSettings, and can be sent', async () => {
  const shares: number[] = []
  const found = await designJobs.optimum(of('lensed-fibre'), (share) => shares.push(share))
  expect(found).toMatchObject({ ...bestSettings(compiled('lensed-fibre')) })
  expect(found?.fits.map(({ name }) => name)).toEqual(['spot'])
  expect(structuredClone(found)).toEqual(found)
  expect(shares.every((share, i) => share >= (shares[i - 1] ?? 0) && share <= 1)).toBe(true)
})

test('an allocation weighs quantities by their path', async () => {
  const sized = sizedCandidate(project, 'cleaved-dry')
  if (!sized.ok) throw new Error('the demo compiles')
  const basis = { criterion: 'RSS', share: 0.95 } as const
  const limitDb = 9
  const shares: number[] = []
  const found = await designJobs.allocation(
    { ...of('cleaved-dry'), limitDb, basis, weights: { 'facets/0/mfdY': 4 } },
    (share) => shares.push(share),
  )
  expect(found).toEqual(
    allowances(sized.value, limitDb, basis, (path, now) =>
      path.join('/') === 'facets/0/mfdY' ? 4 : now > 0 ? 1 : 0,
    ),
  )
  const plain = allowances(sized.value, limitDb, basis)
  const sharedOf = (rows: typeof plain.rows | undefined) =>
    rows?.find(({ path }) => path.join('/') === 'facets/0/mfdY')?.shared ?? 0
  expect(sharedOf(found?.rows)).toBeGreaterThan(1.5 * sharedOf(plain.rows))
  expect(shares.length).toBeGreaterThan(10)
  expect(Math.max(...shares)).toBeLessThanOrEqual(1)
})

test('a dimension is found by its name; an unknown one and an unknown design have no answer', async () => {
  const [dimension] = sizedDimensions(compiled('cleaved-dry'))
  if (dimension === undefined) throw new Error('no dimension')
  const ask = (dimensionId: string, designId = 'cleaved-dry') =>
    designJobs.dimension({ ...of(designId), dimensionId, limitDb: 9 }, () => undefined)
  const found = await ask(dimension.id)
  expect(found).toEqual({
    dimensionId: dimension.id,
    curve: sizeCurve(compiled('cleaved-dry'), dimension, 9),
  })
  expect(await ask('nothing')).toBeNull()
  expect(await ask(dimension.id, 'nothing')).toBeNull()
})
