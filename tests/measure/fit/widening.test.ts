import { expect, test } from 'vitest'
import { conservativeNote, wideningOf } from '../../../src/measure/fit/widening'

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

test('an interval twice as wide as that of independent readings is worth a quarter of them', () => {
  const widened = wideningOf(0.02, 0.01, 40, ['the source drifted', 'the stage slipped'])
  expect(widened).toMatchObject({
    factor: 2,
    readings: 40,
    effectiveReadings: 10,
  })
  expect(widened?.sentence).toBe(
    'The residuals show a pattern: the source drifted; or the stage slipped. The interval is widened by a factor of 2.0: 40 readings are equivalent to 10 independent ones.',
  )
  // Never less than one reading, never narrower than the noise, and no factor where there is no noise to compare with.
  expect(wideningOf(10, 1, 40, ['a'])?.sentence).toContain('40 readings are equivalent to 1 independent ones')
  expect(wideningOf(0.5, 1, 40, ['a'])).toMatchObject({
    factor: 1,
    effectiveReadings: 40,
  })
  expect(wideningOf(0.5, 0, 40, ['a'])).toMatchObject({
    factor: 1,
    effectiveReadings: 40,
  })
})

test('the factor is told from 2 % on, and nothing is told without a cause', () => {
  expect(wideningOf(1.019, 1, 40, ['a'])?.sentence).toBe(
    'The residuals show a pattern: a. The interval allows for it.',
  )
  expect(wideningOf(1.021, 1, 40, ['a'])?.sentence).toContain('widened by a factor of 1.0:')
  expect(wideningOf(2, 1, 40, [])).toBeNull()
})
