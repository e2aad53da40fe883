// Every published value that came with the reference data is either checked or named here with the reason.

import { expect, test } from 'vitest'
import values from './data/check-values.json'
import { CHECK_SECTIONS } from './registry'

/** Values of parts of the program that do not exist yet; the list must shrink when they do. */
const AWAITED = ['cte-1', 'yield-1', 'yield-2', 'yield-mean-dB', 'yield-mean-eta', 'yield-p95', 'gum-rect']

test('every entry of check-values.json has its row in docs/validation.md', () => {
  const rows = new Set(CHECK_SECTIONS.flatMap((section) => section.rows.map((row) => row.id)))
  const missing = values.map((entry) => entry.id).filter((id) => !rows.has(id))
  expect(missing).toEqual(AWAITED)
})
