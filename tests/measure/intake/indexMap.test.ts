// Tables of refractive indices over a cross-section.

import { describe, expect, test } from 'vitest'
import { readIndexMap } from '../../../src/measure/index'
import { unpackNumbers } from '../../../src/numerics/compactNumbers'
import { InputError } from '../../../src/numerics/inputError'

const coordinates = [-4, -2, 0, 2, 4]
const indexAt = (x: number, y: number) => 1.45 + (x === 0 && y === 0 ? 0.01 : 0)
const rowsOf = (delimiter: string, scale = 1) =>
  coordinates.flatMap((y) => coordinates.map((x) => [x * scale, y * scale, indexAt(x, y)].join(delimiter)))

describe('an index map as a table', () => {
  test('columns x, y and index: steps above the median of the border', () => {
    const { map, doubts } = readIndexMap(['x (um),y (um),n', ...rowsOf(',')].join('\n'), 'm.csv')
    expect([map.nx, map.ny, map.dxUm, map.x0Um, map.y0Um]).toEqual([5, 5, 2, -4, -4])
    expect(map.background).toBe(1.45)
    const steps = unpackNumbers(map.steps)
    expect(steps[12]).toBeCloseTo(0.01, 8)
    expect(steps.filter((step) => step === 0)).toHaveLength(24)
    expect(doubts).toEqual([])
  })

  test('positions that scatter by less than a twentieth of the step are one grid line, by more they are not', () => {
    const jittered = (share: number) =>
      [
        'x (um),y (um),n',
        ...coordinates.flatMap((y, j) =>
          coordinates.map((x) =>
            [x + (Math.abs(x) === 4 ? 0 : (j % 2) * share * 2), y, indexAt(x, y)].join(','),
          ),
        ),
      ].join('\n')
    expect(readIndexMap(jittered(0.03), 'm.csv').map).toMatchObject({ nx: 5, ny: 5 })
    expect(() => readIndexMap(jittered(0.06), 'm.csv')).toThrow(InputError)
  })

  test('positions in nanometres by their headings, in either column order', () => {
    const text = ['n,y (nm),x (nm)', ...rowsOf(',', 1000).map((row) => row.split(',').reverse().join(','))]
    const { map, doubts } = readIndexMap(text.join('\n'), 'm.csv')
    expect([map.nx, map.dxUm, map.dyUm, map.x0Um]).toEqual([5, 2, 2, -4])
    expect(doubts).toEqual([])
  })

  test('without units the size of the numbers speaks, and the question is asked', () => {
    const text = ['x;y;index', ...rowsOf(';', 1000)].join('\n')
    const { map, doubts } = readIndexMap(text, 'm.csv')
    expect(doubts.map(({ id, assumed }) => [id, assumed])).toEqual([['unit:positions', 'nm']])
    expect(map.dxUm).toBe(2)
    expect(readIndexMap(text, 'm.csv', { 'unit:positions': 'um' }).map.dxUm).toBe(2000)
  })

  test('a grid with a row and a column of positions, decimal commas', () => {
    const comma = (value: number) => String(value).replace('.', ',')
    const grid = [
      ['y/x (um)', ...coordinates.map(comma)].join(';'),
      ...coordinates.map((y) => [comma(y), ...coordinates.map((x) => comma(indexAt(x, y)))].join(';')),
    ]
    const { map } = readIndexMap(grid.join('\n'), 'grid.csv')
    expect([map.nx, map.ny, map.dxUm]).toEqual([5, 5, 2])
    expect(unpackNumbers(map.steps)[12]).toBeCloseTo(0.01, 8)
  })

  test.each([
    [
      'an index out of range',
      [...rowsOf(',').slice(0, 24), '4,4,0.7'],
      /index of row 25 at \(4, 4\).*0\.7.*1 to 6/,
    ],
    ['a place twice', [...rowsOf(',').slice(0, 24), '2,4,1.45'], /row 25.*second value at \(2, 4\)/],
    ['a missing row', rowsOf(',').slice(0, 24), /number of rows is 24; must be 25 /],
    ['a row that is no numbers', [...rowsOf(',').slice(0, 24), '4,4,glass'], /line 26.*4,4,glass/],
    [
      'no step at all',
      coordinates.flatMap((y) => coordinates.map((x) => `${x},${y},1.45`)),
      /highest index of the map/,
    ],
  ])('%s is refused with the row, the value and what is allowed', (_, rows, words) => {
    const read = () => readIndexMap(['x (um),y (um),index', ...rows].join('\n'), 'm.csv')
    expect(read).toThrow(InputError)
    expect(read).toThrow(words)
  })

  test('without the columns the headings that were seen are named', () => {
    expect(() => readIndexMap(['a,b,c', ...rowsOf(',')].join('\n'), 'm.csv')).toThrow(
      /a, b, c.*x, y and index/,
    )
  })

  test('three columns without headings are x, y and index, and the notes say so', () => {
    const { map } = readIndexMap(rowsOf(',').join('\n'), 'm.csv')
    expect(map.nx).toBe(5)
    expect(map.notes.join()).toMatch(/no headings; taken as x, y and index/)
  })

  test('a core that reaches the border is said to be cut off', () => {
    const rows = coordinates.flatMap((y) =>
      coordinates.map((x) => `${x},${y},${1.45 + 0.01 * Math.exp(-((y / 3) ** 2))}`),
    )
    const { map } = readIndexMap(['x (um),y (um),index', ...rows].join('\n'), 'm.csv')
    expect(map.notes.join()).toMatch(/may cut off the core/)
  })
})
