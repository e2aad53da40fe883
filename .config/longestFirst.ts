// The order of test files: those that take longest begin, so that no worker is left with one of them while the other has nothing.

import type { TestSpecification } from 'vitest/node'

/** End-to-end files of 10 s and more, unit and reference files of 4 s of CPU and more, longest first; the others may come in any order. */
const LONG = [
  'tests/e2e/everyScreen.test.ts',
  'tests/e2e/answersJob.test.ts',
  'tests/e2e/persistence.test.ts',
  'tests/e2e/measurements.test.ts',
  'tests/e2e/review.test.ts',
  'tests/e2e/crossSection.test.ts',
  'tests/e2e/firstTime.test.ts',
  'tests/e2e/yield.test.ts',
  'tests/e2e/families.test.ts',
  'tests/e2e/offline.test.ts',
  'tests/e2e/wholeJob.test.ts',
  'tests/e2e/jobsKeyboard.test.ts',
  'tests/e2e/designScreen.test.ts',
  'tests/e2e/editing.test.ts',
  'tests/e2e/modeFields.test.ts',
  'tests/e2e/tolerances.test.ts',
  'tests/e2e/productionKeyboard.test.ts',
  'tests/e2e/workers.test.ts',
  'tests/e2e/address.test.ts',
  'tests/e2e/command.test.ts',
  'tests/report/workbook.reference.test.ts',
  'tests/analysis/proposals/proposeProject.test.ts',
  'tests/growth.reference.test.ts',
  'tests/report/hostile.test.ts',
  'tests/analysis/crossSection/modeSweep.test.ts',
  'tests/report/sheet.test.ts',
  'tests/figures/labels.test.ts',
  'tests/model/project/roundTrip.properties.test.ts',
  'tests/measure/measurementPath.test.ts',
  'tests/reference/validation.reference.test.ts',
  'tests/analysis/field/fullFields.reference.test.ts',
  'tests/analysis/field/widenedTolerances.reference.test.ts',
  'tests/analysis/field/directSizing.reference.test.ts',
  'tests/measure/intervals/intervals.reference.test.ts',
]

/** Reads the modules of src anew, so that what its worker has compiled and computed until then is lost. */
const LAST = 'tests/analysis/index.test.ts'

const rank = ({ moduleId }: TestSpecification) => {
  if (moduleId.endsWith(LAST)) return LONG.length + 1
  const found = LONG.findIndex((path) => moduleId.endsWith(path))
  return found === -1 ? LONG.length : found
}

/** Reference tests before unit tests: a worker that goes from one project to another reads everything anew. */
const byProject = (a: TestSpecification, b: TestSpecification) =>
  a.project.name < b.project.name ? -1 : a.project.name > b.project.name ? 1 : 0

/** Handed to the test runner, which makes one of it. */
export class LongestFirst {
  sort(files: readonly TestSpecification[]): TestSpecification[] {
    return [...files].sort(
      (a, b) => byProject(a, b) || rank(a) - rank(b) || (a.moduleId < b.moduleId ? -1 : 1),
    )
  }

  /** No run of this project is shared out among machines. */
  shard(files: TestSpecification[]): TestSpecification[] {
    return files
  }
}
