// The guide states the limits that the app enforces.

import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { LIMITS, READING_LIMITS } from '../../../src/model/words/limits'

const page = readFileSync('docs/guide/projects-and-links.md', 'utf8')
const inWords = (number: number) => number.toLocaleString('en-US')
const megabytes = (bytes: number) => `${bytes / 1e6} MB`

test.each([
  `A project file | ${megabytes(LIMITS.file.textBytes)}, ${megabytes(LIMITS.file.plainBytes)} without readings and sampled fields, ${inWords(LIMITS.file.nodes)} values, ${LIMITS.file.depth} levels`,
  `Parts of each kind | ${LIMITS.parts}`,
  `Designs | ${LIMITS.candidates}, each with at most ${LIMITS.chainElements} elements and ${LIMITS.userLines} additional losses`,
  `Measurements; revisions | ${LIMITS.measurements}; ${LIMITS.revisions}`,
  `All readings of a project | ${megabytes(LIMITS.packedReadings)}`,
  `A measurement file | ${megabytes(READING_LIMITS.fileBytes)}`,
  `A camera image | ${READING_LIMITS.imagePixels / 1e6} million pixels`,
  `A name | ${LIMITS.nameCharacters} characters`,
  `An entry in a number field | ${LIMITS.numberCharacters} characters`,
])('the guide says: %s', (row) => {
  expect(page).toContain(row)
})
