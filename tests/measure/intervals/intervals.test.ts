import { describe, expect, test } from 'vitest'
import { offsetScanMfd } from '../../../src/measure'
import { randomSource } from '../support/synthetic'
import { faultyScan } from './designs'
import { coverage } from './trials'

// The light part of run.ts: the whole takes minutes, its results are in docs/measurements.md.

describe('k = 2 intervals of seeded readings', () => {
  test('of loopback series hold the truth in at least 92 % of 200 with independent noise', () => {
    const { inside } = coverage('loopback', 'independent', 200)
    expect(inside / 200).toBeGreaterThan(0.92)
    expect(inside / 200).toBeLessThan(0.99)
  })

  test('of a loopback with a random-walk source hold it where 71 % did before, or the drift is said', () => {
    const { inside, missedAndWarned } = coverage('loopback', 'random-walk source', 200)
    expect((inside + missedAndWarned) / 200).toBeGreaterThan(0.85)
  })

  test('of offset scans under a random-walk source hold it in most of 12, more often than independent noise says', () => {
    const { inside, missedAndWarned } = coverage('offset scan', 'random-walk source', 12)
    expect(inside + missedAndWarned).toBeGreaterThanOrEqual(10)
  })
})

describe('a strong fault is said by its name', () => {
  const radius = 4
  const scan = (design: Parameters<typeof faultyScan>[1], seed: number) =>
    faultyScan(
      {
        shape: (x) => Math.exp(-2 * (x / radius) ** 2),
        half: 10,
        radius,
        centre: 0.2,
        points: 81,
        noise: 0.0005,
        floor: 0.005,
        beneath: 3,
      },
      design,
      randomSource(seed),
    )
  const warningsOf = (design: Parameters<typeof faultyScan>[1], seed: number) => {
    const { at, power } = scan(design, seed)
    return offsetScanMfd({ positionUm: at, power, probeMfdUm: 5 }).warnings.join(' ')
  }

  test('a sloped background, a weak side peak, and the backlash of a stage', () => {
    expect(warningsOf('sloped base line', 2)).toMatch(/the background is sloped/)
    expect(warningsOf('weak bump', 3)).toMatch(/side peak or a scatter skirt/)
    expect(warningsOf('backlash', 2)).toMatch(/directions of travel are .* apart \(backlash/)
    expect(warningsOf('independent', 2)).toBe('')
  })
})
