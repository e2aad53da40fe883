// Every published value that came with the reference data is checked.

import { expect, test } from 'vitest'
import values from './data/check-values.json'
import { CHECK_SECTIONS } from './registry'

test('every entry of check-values.json has its row in docs/validation.md', () => {
  const rows = new Set(CHECK_SECTIONS.flatMap((section) => section.rows.map((row) => row.id)))
  const missing = values.map((entry) => entry.id).filter((id) => !rows.has(id))
  expect(missing).toEqual([])
})
