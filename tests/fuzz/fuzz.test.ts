// A short fixed run of what `npm run fuzz` does at length: only refusals by name, or finite results.

import { describe, expect, test } from 'vitest'
import { fixedText, percentText, withUncertainty } from '../../src/numerics/numberText'
import { fixedCell } from '../../src/report/document/cells'
import { KINDS, outcomeOf } from './kinds'
import { nonFinitePaths } from './nonFinite'
import { wordedNumbers } from './worded'

const SEED = 12
const COUNTS: Readonly<Record<string, number>> = { project: 3, file: 20, number: 200 }

describe.each(KINDS)('mutants: $label', (kind) => {
  test('are refused by name or answered in finite numbers', async () => {
    const counts = { refused: 0, finite: 0 }
    for (let number = 0; number < (COUNTS[kind.id] ?? 0); number++) {
      const outcome = await outcomeOf(kind, SEED, number)
      if (outcome.kind === 'fault') expect.fail(`mutant ${number}: ${outcome.faults.join('\n')}`)
      counts[outcome.kind]++
    }
    // A run that only refuses, or only accepts, looks at one half of the app.
    expect(Math.min(counts.refused, counts.finite)).toBeGreaterThan(0)
  })
})

// With seed 1: far fields whose peak was nothing over their floor, and whose one side held less than nothing.
test.each([477, 521])('the damaged file %i, once a fault, stays refused or finite', async (number) => {
  const kind = KINDS.find(({ id }) => id === 'file')
  expect(kind && (await outcomeOf(kind, 1, number))).not.toHaveProperty('faults')
})

test('the look for numbers that are not finite finds them wherever they are', () => {
  const result = {
    a: [1, { b: Number.NaN }],
    c: new Float64Array([1, Number.POSITIVE_INFINITY]),
    d: 'loss NaN dB',
  }
  expect(nonFinitePaths(result)).toHaveLength(3)
  expect(nonFinitePaths({ a: 1, b: 'a name like Infinityx', c: null })).toEqual([])
})

test('numbers that the formatters put into words are overheard, those that others look at are not', async () => {
  for (const work of [
    () => fixedText(Number.NaN, 2),
    () => percentText(Number.POSITIVE_INFINITY),
    () => withUncertainty(Number.NaN, null),
    () => fixedCell(Number.NEGATIVE_INFINITY, 1),
    async () => fixedText(await Promise.resolve(Number.NaN), 2),
  ]) {
    expect(await wordedNumbers(work)).toHaveLength(1)
  }
  expect(await wordedNumbers(() => [fixedText(1, 2), Number.isFinite(Number.NaN)])).toEqual([])
})
