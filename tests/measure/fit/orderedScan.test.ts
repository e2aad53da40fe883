import { describe, expect, test } from 'vitest'
import { LONGEST_FITTED_SCAN, orderScan } from '../../../src/measure/fit/orderedScan'

const at = [0, 1, 2, 3, 4, 5, 6, 7, 8]
const power = at.map((x) => Math.exp(-((x - 4) ** 2) / 4))

describe('a scan made fit for evaluation', () => {
  test('has one point where a position was measured three times: the mean of the three, in whatever order they came', () => {
    const repeated = orderScan('positionUm', [4, ...at, 4], [0.7, ...power, 0.4])
    expect([...repeated.at]).toEqual(at)
    expect(repeated.power[4]).toBeCloseTo((0.7 + 1 + 0.4) / 3, 12)
    expect(repeated.power[3]).toBe(power[3])
    expect(repeated.warnings).toContain('Readings at repeated positions were averaged (2).')
  })

  test('that is too long is a mean of neighbours, position and power alike, the last group included', () => {
    const count = 2 * LONGEST_FITTED_SCAN + 2 // groups of three: the last has one point or two
    const long = Array.from({ length: count }, (_, i) => i)
    const thin = orderScan(
      'positionUm',
      long,
      long.map((i) => 1 + 2 * i),
    )
    expect(thin.at.length).toBe(Math.ceil(count / 3))
    expect(thin.at[1]).toBeCloseTo(4, 9)
    const last = long.slice(3 * (thin.at.length - 1))
    expect(thin.at.at(-1)).toBeCloseTo(last.reduce((sum, x) => sum + x, 0) / last.length, 9)
    const off = thin.power.map((p, i) => Math.abs(p - 1 - 2 * (thin.at[i] ?? 0)))
    expect(Math.max(...off)).toBeLessThan(1e-6)
  })
})

describe('what is refused, and what is said', () => {
  const refused = (field: string, x: readonly number[], p: readonly number[]) => {
    try {
      orderScan(field, x, p)
    } catch (error) {
      return (error as Error).message
    }
    return null
  }
  const eight = at.slice(0, 8)

  test('powers that are too few, the same everywhere, or nowhere above zero; fewer than eight places', () => {
    expect(refused('angle', at, power.slice(1))).toMatch(/number of powers is 8.*9, one per angle/)
    expect(
      refused(
        'angle',
        at,
        at.map(() => 3),
      ),
    ).toMatch(/power is 3 everywhere/)
    expect(
      refused(
        'angle',
        at,
        at.map(() => -3),
      ),
    ).toMatch(/highest power is -3.*no signal/)
    expect(
      refused(
        'angle',
        at,
        power.map((p) => -p),
      ),
    ).toMatch(/no signal/)
    expect(refused('angle', at.slice(0, 7), power.slice(0, 7))).toMatch(
      /number of different angles is 7.*8 or more/,
    )
    expect(refused('angle', [0], [1])).toMatch(/number of different angles is 1/)
    expect(refused('angle', [], [])).toMatch(/number of different angles is 0/)
    // Rising and falling powers alike: neither the first nor the last is the one of all.
    for (const some of [power.slice(0, 8), power.slice(0, 8).toReversed()])
      expect(refused('angle', eight, some)).toBeNull()
  })

  test('nothing of a usual scan; of one cut at its top that it may be saturated', () => {
    expect(orderScan('angle', at, power).warnings).toEqual([])
    const cut = orderScan('angle', at, [0, 0.1, 1, 1, 1, 1, 1, 0.1, 0])
    expect(cut.warnings).toEqual([expect.stringContaining('the detector may be saturated')])
  })

  test('the readings in the order of the file are kept, and merged ones where they are too many', () => {
    const backwards = orderScan('angle', at.toReversed(), power.toReversed())
    expect([...backwards.at]).toEqual(at)
    expect([...backwards.taken.at]).toEqual(at.toReversed())
    expect([...backwards.taken.power]).toEqual(power.toReversed())
    const longest = Array.from({ length: LONGEST_FITTED_SCAN }, (_, i) => i)
    const just = orderScan('angle', longest, longest)
    expect([just.at.length, just.taken.at.length, just.warnings]).toEqual([4096, 4096, []])
    const repeated = orderScan('angle', [...longest, 0], [...longest, 1])
    expect([repeated.at.length, repeated.taken.at.length]).toEqual([4096, 4096])
    expect(repeated.power[0]).toBe(0.5)
    const more = orderScan('angle', [...longest, 4096], [...longest, 1])
    expect([more.at.length, more.taken.at.length]).toEqual([2049, 2049])
    expect(more.warnings).toEqual(['4097 points were averaged in groups of 2 for the fit.'])
  })
})
