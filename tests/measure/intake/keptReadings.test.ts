// What is kept of files that are too large, against means written out by hand.

import { describe, expect, test } from 'vitest'
import type { BenchImage } from '../../../src/measure/images/image'
import { KEPT_LIMITS, keptImage, keptRows, packedColumn } from '../../../src/measure/intake/keptReadings'
import { keptFileName, keptNotes } from '../../../src/measure/intake/keptText'
import type { ScanColumn } from '../../../src/measure/reading/scan'
import { unpackNumbers } from '../../../src/numerics/compactNumbers'

const column = (role: ScanColumn['role'], values: Float64Array, coreUnit: ScanColumn['coreUnit'] = 'um') =>
  ({ label: role, role, coreUnit, values }) as unknown as ScanColumn

describe('rows of a scan', () => {
  test('are kept as they are up to the limit', () => {
    const columns = [column('position', new Float64Array(KEPT_LIMITS.rows))]
    expect(keptRows(columns, 0, false)).toEqual({ columns, remark: null })
    expect(keptRows([], 0, false)).toEqual({ columns: [], remark: null })
  })

  test('beyond it become means of neighbours along the coordinate, the last ones of fewer', () => {
    // 200 003 rows, in threes: 66 668 means, the last one of two. Every other row comes from the far end.
    const count = 200_003
    const position = Float64Array.from({ length: count }, (_, i) =>
      i % 2 === 0 ? i : count - i - (count % 2),
    )
    const power = position.map((at) => 5 - 2 * at)
    const { columns, remark } = keptRows([column('power', power), column('position', position)], 1, false)
    const [kept, along] = columns.map(({ values }) => values)
    expect(along?.length).toBe(66_668)
    expect(remark).toBe('200003 rows kept as 66668 means of up to 3 neighbours.')
    const sorted = position.toSorted()
    const meanOf = (from: number, to: number) =>
      sorted.slice(from, to).reduce((sum, value) => sum + value, 0) / (to - from)
    for (const k of [0, 1, 40_000]) expect(along?.[k]).toBeCloseTo(meanOf(3 * k, 3 * k + 3), 9)
    expect(along?.[66_667]).toBeCloseTo(meanOf(200_001, 200_003), 9)
    for (const k of [0, 40_000, 66_667]) expect(kept?.[k]).toBeCloseTo(5 - 2 * (along?.[k] ?? 0), 6)
  })

  test('of a raster are refused beyond it', () => {
    const columns = [column('position', new Float64Array(KEPT_LIMITS.rows + 1))]
    expect(() => keptRows(columns, 0, true)).toThrow(/the raster is .*100001 points.*at most 100000 points/)
  })
})

describe('an image', () => {
  const imageOf = (width: number, height: number, of: (x: number, y: number) => number, fullScale = 65_535) =>
    ({
      ...{ width, height, fullScale },
      pixels: Float64Array.from({ length: width * height }, (_, k) => of(k % width, Math.floor(k / width))),
    }) as unknown as BenchImage
  /** Major D4σ width of 4 s. */
  const beam = (cx: number, cy: number, sx: number, sy: number) => (x: number, y: number) =>
    Math.round(1000 * Math.exp(-((x - cx) ** 2) / (2 * sx * sx) - (y - cy) ** 2 / (2 * sy * sy)))

  /** Columns of one count more than the others, from which a place in the image is known. */
  const marked = (of: (x: number, y: number) => number) => (x: number, y: number) =>
    of(x, y) + (x % 7 === 3 ? 1 : 0)

  test('that is small enough is kept, whole counts exactly and fractions as numbers of 32 bits', () => {
    const whole = imageOf(6, 5, (x, y) => x + 10 * y)
    expect(keptImage(whole)).toMatchObject({
      width: 6,
      height: 5,
      binning: 1,
      remark: null,
      pixels: whole.pixels,
    })
    const third = keptImage(imageOf(6, 5, (x, y) => (x + y) / 3))
    expect(third.pixels[1]).toBe(Math.fround(1 / 3))
    expect(() => keptImage(imageOf(6, 5, (x) => (x === 3 ? -2e12 : 1)))).toThrow(
      /pixel of the image is -2000000000000/,
    )
    expect(keptImage(imageOf(6, 5, (x) => (x === 3 ? 1e12 : 1))).binning).toBe(1)
    expect(() => keptImage(imageOf(6, 5, (x) => (x === 3 ? Number.NaN : 1)))).toThrow(/pixel of the image/)
  })

  test('of a longer side than a project keeps is kept as the part around its beam', () => {
    const of = marked(beam(19_000, 3, 20, 1.3))
    const kept = keptImage(imageOf(20_010, 6, of))
    // 2.5 major widths of 80 pixels on either side of the centroid, all rows.
    expect(kept).toMatchObject({ height: 6, binning: 1 })
    expect(Math.abs(kept.width - 400)).toBeLessThanOrEqual(3)
    expect(kept.remark).toBe(`${kept.width} × 6 of 20010 × 6 pixels kept, around the beam.`)
    const from = 19_000 - Math.floor(kept.width / 2)
    const matches = [from - 2, from - 1, from, from + 1, from + 2].filter((first) =>
      [0, 57, 200, kept.width - 1].every((x) => kept.pixels[2 * kept.width + x] === of(first + x, 2)),
    )
    expect(matches).toHaveLength(1)
  })

  test('near the end of its long side is kept as far as it goes', () => {
    const kept = keptImage(imageOf(20_010, 6, beam(19_950, 3, 20, 1.3)))
    expect(Math.abs(kept.width - 260)).toBeLessThanOrEqual(3)
    const start = keptImage(imageOf(20_010, 6, beam(60, 3, 20, 1.3)))
    expect(Math.abs(start.width - 260)).toBeLessThanOrEqual(3)
  })
})

describe('a packed column', () => {
  test('keeps its readings up to the greatest of its unit, on either side', () => {
    const packed = packedColumn(column('position', Float64Array.of(1, -1e9, 1e9)))
    expect([...unpackNumbers(packed.values)]).toEqual([1, -1e9, 1e9])
    expect(packed).toMatchObject({ label: 'position', role: 'position', coreUnit: 'um' })
    expect([...unpackNumbers(packedColumn(column('other', Float64Array.of(1e300), 'none')).values)]).toEqual([
      1e300,
    ])
  })

  test('refuses a greater one by its row', () => {
    const refused =
      (...values: number[]) =>
      () =>
        packedColumn(column('position', Float64Array.from(values)))
    expect(refused(1, -1.1e9)).toThrow(
      /position of row 2, in um, is -1100000000; must be −1000000000 to 1000000000/,
    )
    expect(refused(1.1e9)).toThrow(/row 1/)
    expect(refused(0, 0, Number.NaN)).toThrow(/row 3/)
  })
})

describe('names and comments', () => {
  test('of files keep their beginning and end', () => {
    expect(keptFileName('')).toBe('unnamed')
    const name = Array.from({ length: 301 }, (_, i) => String.fromCharCode(97 + (i % 26))).join('')
    expect(keptFileName(name.slice(0, 300))).toBe(name.slice(0, 300))
    const cut = keptFileName(name)
    expect(cut).toHaveLength(300)
    expect(cut).toBe(`${name.slice(0, 239)}…${name.slice(241)}`)
  })

  test('are kept up to 200, the last of which counts the others, and each up to 2000 characters', () => {
    const notes = Array.from({ length: 203 }, (_, i) => `note ${i}`)
    expect(keptNotes(notes.slice(0, 200))).toEqual(notes.slice(0, 200))
    expect(keptNotes(notes)).toEqual([
      ...notes.slice(0, 199),
      '4 more comment lines of the file are not kept.',
    ])
    expect(keptNotes(['a'.repeat(2000), 'b'.repeat(2001)])).toEqual([
      'a'.repeat(2000),
      `${'b'.repeat(1999)}…`,
    ])
  })
})
