import { expect, test } from 'vitest'
import { conservativeNote } from '../../../src/measure/fit/widening'

test('an interval wider than its noise, without a pattern to report, is called conservative with the width of the noise alone', () => {
  expect(conservativeNote(0.024, 0.02, [])).toMatch(
    /^The interval is conservative: .* Independent noise alone would give ± 0\.020 µm\.$/,
  )
})

test('below 2 %, or with a pattern that a warning names, there is no note', () => {
  expect(conservativeNote(0.02, 0.02, [])).toBeNull()
  expect(conservativeNote(0.02 * 1.019, 0.02, [])).toBeNull()
  expect(conservativeNote(0.02 * 1.021, 0.02, [])).not.toBeNull()
  expect(conservativeNote(0.024, 0.02, ['the background is sloped'])).toBeNull()
})
