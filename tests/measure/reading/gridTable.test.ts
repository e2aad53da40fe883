import { describe, expect, test } from 'vitest'
import { rasterScanMfd, readScan } from '../../../src/measure'

const across = Array.from({ length: 25 }, (_, i) => i / 2 - 6)
const down = Array.from({ length: 21 }, (_, i) => i / 2 - 5)
/** Probe 4 um over 3.4 x 2.8 um, centred on (0.3, −0.2): overlap of two Gaussians. */
const power = (x: number, y: number) =>
  100 * Math.exp((-2 * (x - 0.3) ** 2) / (4 + 1.7 ** 2) - (2 * (y + 0.2) ** 2) / (4 + 1.4 ** 2)) + 0.2

/** The raster as a grid; `corner` null leaves the first row one cell short. */
function grid(delimiter: string, mark: string, corner: string | null, rows = down): string {
  const cells = (values: readonly (string | number)[]) =>
    values.map((value) => String(value).replace('.', mark)).join(delimiter)
  const head = corner === null ? cells(across) : `${corner}${delimiter}${cells(across)}`
  return [head, ...rows.map((y) => cells([y, ...across.map((x) => power(x, y).toFixed(5))]))].join('\n')
}

const columns = (text: string, answers = {}) => readScan(text, answers).columns.map((column) => column.values)

describe('a raster written as a grid', () => {
  test.each([
    ['an empty corner', grid(',', '.', '')],
    ['axes and unit in the corner, semicolons and decimal commas', grid(';', ',', 'y\\x [um]')],
    ['a number in the corner', grid('\t', '.', '0')],
    ['no corner at all, between blanks', grid('  ', '.', null)],
    ['rows from high to low', grid(',', '.', '', down.toReversed())],
    ['a comment above', `# raster, probe MFD 4 um\n${grid('\t', '.', 'um')}`],
  ])('with %s gives the axes of the mode', (_, text) => {
    const scan = readScan(text)
    expect(scan).toMatchObject({ kind: 'raster', rowsRead: 525, refusedLines: [] })
    const [xUm, yUm, signal] = scan.columns.map((column) => column.values)
    const result = rasterScanMfd({ xUm: xUm!, yUm: yUm!, power: signal!, probeMfdUm: 4 })
    expect(result.mfdXUm).toBeCloseTo(3.4, 4)
    expect(result.mfdYUm).toBeCloseTo(2.8, 4)
    expect(result.centreXUm).toBeCloseTo(0.3, 4)
    expect(result.centreYUm).toBeCloseTo(-0.2, 4)
  })

  test('is read as the same points as the raster written point by point', () => {
    const points = down.flatMap((y) => across.map((x) => `${x},${y},${power(x, y).toFixed(5)}`))
    const listed = columns(`x um,y um,P\n${points.join('\n')}`)
    expect(columns(grid(',', '.', 'y\\x um'))).toEqual(listed)
  })

  test('asks which axis runs along the first row unless the corner names both, and takes the answer', () => {
    expect(readScan(grid(',', '.', 'y\\x [um]')).doubts.map((doubt) => doubt.id)).toEqual(['unit:2'])
    const text = grid(',', '.', 'um')
    expect(readScan(text).doubts.find((doubt) => doubt.id === 'grid')).toMatchObject({
      assumed: 'x',
      alternatives: ['y', 'signals'],
    })
    const turned = readScan(text, { grid: 'y' })
    expect(turned.columns.map((column) => column.label)).toEqual(['y', 'x', 'power'])
    expect(turned.doubts.find((doubt) => doubt.id === 'grid')?.assumed).toBe('y')
  })

  test('numbers that repeat are no positions, so the table is no grid', () => {
    const rows = down.map((y) => [y, ...across.map((x) => power(x, y).toFixed(5))].join(','))
    const repeated = ['', ...across.map(() => 850)].join(',')
    const { kind, findings } = readScan([repeated, ...rows].join('\n'))
    expect([kind, findings[0]?.code]).toEqual(['unknown', 'no-roles'])
  })

  test('a unit in the corner is that of both axes', () => {
    expect(columns(grid(',', '.', 'y\\x (mm)'))[0]![0]).toBe(-6000)
  })
})

describe('what is no grid', () => {
  test('a table of several signals stays one, also where each has a heading', () => {
    const rows = across.map((x) => [x, ...[0, 1, 2, 3, 4].map((y) => power(x, y).toFixed(4))].join(','))
    const scan = readScan(`pos_um,P1_uW,P2_uW,P3_uW,P4_uW,P5_uW\n${rows.join('\n')}`)
    expect(scan).toMatchObject({ kind: 'offset', rowsRead: 25 })
    expect(scan.columns).toHaveLength(6)
    expect(readScan(grid(',', '.', 'um'), { grid: 'signals' }).kind).not.toBe('raster')
  })

  test('powers alone, without positions, are refused with what is missing', () => {
    const rows = down.map((y) => across.map((x) => power(x, y).toFixed(4)).join(','))
    expect(readScan(rows.join('\n')).findings).toMatchObject([
      {
        code: 'no-roles',
        severity: 'error',
        message: expect.stringMatching(/25 columns.*first row and down/),
      },
    ])
  })
})
