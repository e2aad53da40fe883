import { describe, expect, test } from 'vitest'
import { valleyFrom } from '../../src/numerics/valley'

describe('the valley next to a starting point', () => {
  const parabola = (at: number) => (x: number) => (x - at) ** 2
  test.each([-40, -3, -0.1, 0.1, 7, 300])('holds a minimum at %d', (at) => {
    const [from, to] = valleyFrom(parabola(at), 0, 1, -1000, 1000)
    expect(from).toBeLessThanOrEqual(at)
    expect(to).toBeGreaterThanOrEqual(at)
    expect(to - from).toBeLessThan(4 * Math.abs(at) + 3)
  })

  test('ends at the border that the function falls towards', () => {
    expect(valleyFrom((x) => x, 0, 1, -10, 10)[0]).toBe(-10)
    expect(valleyFrom((x) => -x, 0, 1, -10, 10)[1]).toBe(10)
    expect(valleyFrom((x) => x, 0, 1, 0, 10)[0]).toBe(0)
  })

  test('is the one downhill of the start, not a deeper one behind a ridge', () => {
    const two = (x: number) => Math.min((x - 5) ** 2, (x + 20) ** 2 - 50)
    const [from, to] = valleyFrom(two, 0, 1, -100, 100)
    expect(from).toBeGreaterThanOrEqual(0)
    expect(to).toBeGreaterThanOrEqual(5)
  })

  test('of a level function is one step to either side', () => {
    expect(valleyFrom(() => 1, 5, 2, 0, 100)).toEqual([3, 7])
  })
})
