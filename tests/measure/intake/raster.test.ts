import { describe, expect, test } from 'vitest'
import { headingFactor, type RasterColumn, rasterOf } from '../../../src/measure/intake/raster'

const column = (values: readonly number[], unit: string | null = 'um'): RasterColumn => ({
  ...{ values: Float64Array.from(values), unit },
})
/** The product of both axes, the rows of x one after the other. */
const rows = (x: readonly number[], y: readonly number[]) => y.flatMap((v) => x.map((u) => [u, v] as const))
const gridOf = (points: readonly (readonly [number, number])[], notes: string[] = []) =>
  rasterOf(column(points.map(([x]) => x)), column(points.map(([, y]) => y)), points.length, notes)

const X = [-3, -1, 1, 3, 5]
const Y = [2, 2.5, 3, 3.5]

describe('rows that fill a regular grid', () => {
  test('in any order have their places in it, row-major from the lower left', () => {
    const points = rows(X, Y)
    // 7 and 20 have no common factor: every row once.
    const shuffled = points.map((_, k) => points[(7 * k) % 20]!)
    const grid = gridOf(shuffled)
    expect(grid).toMatchObject({ nx: 5, ny: 4, dxUm: 2, dyUm: 0.5, x0Um: -3, y0Um: 2 })
    expect([...grid.indices]).toEqual(points.map((_, k) => (7 * k) % 20))
  })

  test('have each axis in its own unit, or in micrometres, which the notes say', () => {
    const points = rows(X, Y)
    const notes: string[] = []
    const inUnits = (unitX: string | null, unitY: string | null) =>
      rasterOf(
        column(
          points.map(([x]) => x),
          unitX,
        ),
        column(
          points.map(([, y]) => y),
          unitY,
        ),
        20,
        notes,
      )
    const grid = inUnits('nm', 'mm')
    expect([grid.dxUm, grid.x0Um, grid.dyUm, grid.y0Um]).toEqual(
      [2e-3, -3e-3, 500, 2000].map((v) => expect.closeTo(v, 9)),
    )
    expect([...grid.indices]).toEqual(points.map((_, k) => k))
    expect(notes).toEqual([])
    inUnits(null, 'um')
    expect(notes).toEqual(['x has no unit; taken as µm.'])
    expect(() => inUnits('um', 'deg')).toThrow(/unit of y is "deg"; must be a unit of length/)
    expect(headingFactor('phase', null, 'angle', notes)).toBe(1)
    expect(notes.at(-1)).toBe('phase has no unit; taken as rad.')
    expect(headingFactor('phase', 'deg', 'angle', notes)).toBeCloseTo(Math.PI / 180, 12)
  })
})

describe('what is no grid is refused by name', () => {
  test('fewer than 4 or more than 2048 places along an axis', () => {
    expect(() => gridOf(rows([0, 1, 2], Y))).toThrow(/distinct positions along x is 3; must be 4 to 2048/)
    expect(() => gridOf(rows(X, [0, 1, 2]))).toThrow(/distinct positions along y is 3/)
    const many = (count: number) => Array.from({ length: count }, (_, i) => i / 3)
    expect(gridOf(rows(many(2048), Y)).nx).toBe(2048)
    expect(() => gridOf(rows(many(2049), Y))).toThrow(/along x is 2049/)
  })

  test('a line more than 2 % of a step off its place, on either side', () => {
    const off = (by: number) => gridOf(rows([-3, -1, 1 + 2 * by, 3, 5], Y))
    expect(off(0.019).nx).toBe(5)
    expect(off(-0.019).nx).toBe(5)
    expect(() => off(0.021)).toThrow(
      /x of grid line 3 is 1\.042; must be on a regular grid with a step of 2(\.000)? µm/,
    )
    expect(() => off(-0.021)).toThrow(/x of grid line 3 is 0\.958/)
  })

  test('places that scatter by 5 % of a step, which are lines of their own', () => {
    const scattered = (by: number) =>
      gridOf(rows(X, Y).map(([x, y], k) => [x === -3 || x === 5 ? x : x + (k % 2) * 2 * by, y] as const))
    expect(scattered(0.015).nx).toBe(5)
    expect(() => scattered(0.06)).toThrow()
  })

  test('the first line too, of which only a share of the finest possible step is known', () => {
    // 8 µm in 3 steps, 2048 times finer, a twentieth of it: 0.065 nm.
    const scattered = (by: number) =>
      gridOf(rows(X, Y).map(([x, y], k) => [x === -3 ? x + (k % 2) * by : x, y] as const))
    expect(scattered(5e-5).nx).toBe(5)
    expect(() => scattered(8e-5)).toThrow(/along a regular|grid|number of rows/)
  })

  test('too few rows, or a place twice', () => {
    expect(() => gridOf(rows(X, Y).slice(0, 19))).toThrow(
      /number of rows is 19; must be 20 \(5 positions along x times 4 along y\)/,
    )
    const twice = rows(X, Y).map((point, k) => (k === 13 ? ([1, 2.5] as const) : point))
    expect(() => gridOf(twice)).toThrow(
      /row 14 is a second value at \(1, 2\.5\); must be a separate position/,
    )
  })
})
