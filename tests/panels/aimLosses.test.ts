import { expect, test } from 'vitest'
import { aboveLeastText, turnedRound } from '../../src/panels/array/aimLosses'

test('strategies are compared by the losses that are shown, also where no light arrives', () => {
  // Shown as 1.47, 1.47 and 1.46, then as > 200 each.
  expect(aboveLeastText(1.4749, 1.4651)).toBe('lowest')
  expect(aboveLeastText(1.4651, 1.4649)).toBe('+0.01 dB')
  expect(aboveLeastText(Number.POSITIVE_INFINITY, 250)).toBe('lowest')
  expect(aboveLeastText(Number.POSITIVE_INFINITY, 1.5)).toBe('+198.50 dB')
})

test('the ranking of strategies is reversed where another one shows the lower worst channel', () => {
  const aims = (totalDb: number) => [
    { aim: 'sum of all' as const, meanWorstDb: totalDb },
    { aim: 'worst channel' as const, meanWorstDb: 1.4651 },
  ]
  expect([1.4649, 1.4652, 1.4749].map((totalDb) => turnedRound(aims(totalDb)))).toEqual([true, false, false])
  expect(turnedRound(aims(1).slice(0, 1))).toBe(false)
})
