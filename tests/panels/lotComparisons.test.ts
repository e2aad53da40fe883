// A comparison of a lot outlives the page it was begun on, and no longer holds once the design, the seed or the lot is another.

import { produce } from 'immer'
import { expect, test, vi } from 'vitest'
import { lotSummary } from '../../src/measure/lots/lotSummary'
import { demoProject } from '../../src/model/index'
import type { Project } from '../../src/model/schema/project'
import { compareLot, isOutdated, lotComparisonOf } from '../../src/panels/measurements/lots/lotComparisons'
import { forgetStartedRuns } from '../../src/store/startedRuns'

const asked = vi.hoisted(() => ({ projects: [] as Project[] }))
vi.mock('../../src/jobs/measureClient', () => ({
  runMeasureJob: async (_: 'explainLot', { project }: { readonly project: Project }) => {
    asked.projects.push(project)
    return { ok: true, value: { agrees: true } }
  },
}))
vi.mock('../../src/store/solvedFields', () => ({
  withSolvedFields: (project: Project) => ({ ...project, facets: project.facets.slice(1) }),
  solvedKeys: () => '',
}))

const ID = 'cleaved-dry'
const column = (values: readonly number[]) => ({
  names: [...new Set(values)].map(String),
  indices: Float64Array.from(values),
})
const lotOf = (lossDb: readonly number[]) =>
  lotSummary({
    lossDb: Float64Array.from(lossDb),
    returnLossDb: null,
    day: null,
    batch: null,
    station: null,
    assembly: column([0, 0, 1, 1]),
    channel: column([0, 1, 0, 1]),
    standardDb: 0.1,
  })

test('a comparison is kept by its measurement until the project is closed, and holds for what it was made from', async () => {
  const project = demoProject()
  const lot = lotOf([9, 9.5, 10, 10.5])
  await compareLot('lot-7', project, ID, lot)
  const { finished, message } = lotComparisonOf('lot-7')
  expect(message).toBe('')
  if (finished === null) throw new Error('no comparison')
  expect(finished.candidateId).toBe(ID)
  expect(finished.found.agrees).toBe(true)
  // Computed with the modes that are solved, and without any readings.
  expect(asked.projects.map(({ facets }) => facets)).toEqual([project.facets.slice(1)])
  expect(asked.projects[0]?.measurements).toEqual([])
  const outdated = (recipe: (draft: Project) => void) => isOutdated(finished, produce(project, recipe), lot)
  expect(outdated(() => undefined)).toBe(false)
  expect(
    outdated((draft) => {
      draft.name = 'Renamed'
    }),
  ).toBe(false)
  expect(
    outdated((draft) => {
      draft.seed += 1
    }),
  ).toBe(true)
  expect(
    outdated((draft) => {
      draft.requirements.wavelength.value += 10
    }),
  ).toBe(true)
  expect(isOutdated(finished, project, lotOf([9, 9.5, 10, 10.6]))).toBe(true)
  expect(lotComparisonOf('lot-8').finished).toBeNull()
  forgetStartedRuns()
  expect(lotComparisonOf('lot-7').finished).toBeNull()
})
