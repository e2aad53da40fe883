import { describe, expect, test } from 'vitest'
import { COMPARISONS, renderComparisons } from './comparisons'
import { CHECK_SECTIONS } from './registry'
import { renderChecks } from './renderChecks'

describe.each(CHECK_SECTIONS)('$title', ({ rows }) => {
  test.each(rows)('$id: $quantity', ({ expected, tolerance, ours }) => {
    const difference = Math.abs(ours() - expected)
    expect(difference).toBeLessThanOrEqual(tolerance)
  })
})

test('no check stands in the lists twice, and each says where its number comes from', () => {
  const rows = CHECK_SECTIONS.flatMap((section) => section.rows)
  expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length)
  for (const row of rows) {
    expect(row.source, row.id).not.toBe('same')
    expect(row.source.length, row.id).toBeGreaterThan(10)
    expect(row.tolerance, row.id).toBeGreaterThan(0)
  }
})

test('docs/validation.md is the rendering of the lists', async () => {
  await expect(renderChecks(CHECK_SECTIONS) + renderComparisons(COMPARISONS)).toMatchFileSnapshot(
    '../../docs/validation.md',
  )
})
