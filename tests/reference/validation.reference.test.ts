import { describe, expect, test } from 'vitest'
import { COMPARISONS, renderComparisons } from './comparisons'
import { CHECK_SECTIONS } from './registry'
import { renderChecks } from './renderChecks'
import { isSource } from './sources'

describe.each(CHECK_SECTIONS)('$title', ({ rows }) => {
  test.each(rows)('$id: $quantity', ({ expected, tolerance, ours }) => {
    const difference = Math.abs(ours() - expected)
    expect(difference).toBeLessThanOrEqual(tolerance)
  })
})

test('no check is listed twice, and each names a publication or wears a label', () => {
  const rows = CHECK_SECTIONS.flatMap((section) => section.rows)
  expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length)
  for (const row of rows) {
    expect(isSource(row.source), `${row.id}: ${row.source}`).toBe(true)
    expect(row.tolerance, row.id).toBeGreaterThan(0)
    // A group index among phase indices is used as a mere number only if the row says so.
    if (/\b1\.468\b/.test(`${row.id} ${row.input}`)) expect(row.quantity, row.id).toContain('group index')
  }
  for (const { source } of COMPARISONS) expect(isSource(source), source).toBe(true)
})

test('a printed number is given as its source prints it', () => {
  const printed = CHECK_SECTIONS.flatMap((section) => section.rows).filter(({ published }) => published)
  const value = (id: string) => printed.find((row) => row.id === id)?.expected
  expect(value('tb-keiser-lat')).toBe(0.18)
  expect(value('tb-senior')).toBe(0.71)
  expect(value('student-t-4')).toBe(2.87)
  expect(printed.length).toBeGreaterThan(8)
  // A printed value has few digits; one with twelve was computed.
  for (const { id, expected } of printed) expect(String(expected).length, id).toBeLessThanOrEqual(13)
})

test('docs/validation.md is the rendering of the lists', async () => {
  await expect(renderChecks(CHECK_SECTIONS) + renderComparisons(COMPARISONS)).toMatchFileSnapshot(
    '../../docs/validation.md',
  )
})
