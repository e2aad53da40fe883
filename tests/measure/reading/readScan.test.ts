import { describe, expect, test } from 'vitest'
import { readScan } from '../../../src/measure'
import { benchText } from '../support/truth'

const column = (text: string, role: string, answers = {}) =>
  readScan(text, answers).columns.find((c) => c.role === role)!

describe('the reference files, with no dialect set by hand', () => {
  test('far-field-1: comma, point, units in the heading, wavelength in a comment', () => {
    const scan = readScan(benchText('far-field-1.csv'))
    expect(scan).toMatchObject({
      kind: 'far-field',
      delimiter: ',',
      decimalMark: '.',
      rowsRead: 113,
      doubts: [],
      refusedLines: [],
    })
    expect(scan.metadata.wavelengthUm).toBeCloseTo(1.55, 12)
    expect(scan.columns.map((c) => [c.role, c.unit, c.coreUnit])).toEqual([
      ['angle', 'deg', 'rad'],
      ['power', 'uW', 'uW'],
    ])
    expect(scan.columns[0]!.values[0]).toBeCloseTo((-28 * Math.PI) / 180, 12)
  })

  test('far-field-2: semicolon, decimal comma, dBm becomes linear microwatts', () => {
    const scan = readScan(benchText('far-field-2.csv'))
    expect(scan).toMatchObject({
      kind: 'far-field',
      delimiter: ';',
      decimalMark: ',',
      rowsRead: 125,
      doubts: [],
    })
    expect(scan.columns[1]!.values[0]).toBeCloseTo(1000 * 10 ** (-57.4318 / 10), 12)
  })

  test('far-field-3: no unit anywhere, so rad is inferred and asked about', () => {
    const scan = readScan(benchText('far-field-3.csv'))
    expect(scan).toMatchObject({ kind: 'far-field', delimiter: '\t', rowsRead: 113 })
    const doubt = scan.doubts.find((d) => d.id === 'unit:0')!
    expect(doubt.assumed).toBe('rad')
    expect(doubt.alternatives).toContain('deg')
    expect(doubt.question).toMatch(/theta.*no unit.*-0.4887 to 0.4887/)
    expect(scan.columns[0]!.values[0]).toBe(-0.4886922)
  })

  test('an answered doubt is settled and changes the numbers', () => {
    const scan = readScan(benchText('far-field-3.csv'), { 'unit:0': 'deg', 'unit:1': 'dB' })
    expect(scan.columns[0]!.values[0]).toBeCloseTo((-0.4886922 * Math.PI) / 180, 12)
    expect(scan.columns[1]!.values[56]).toBeGreaterThan(1)
  })

  test('offset scans in both dialects: one position, two powers, a line of units', () => {
    for (const [name, delimiter, decimalMark] of [
      ['offset-scan-1.csv', ',', '.'],
      ['offset-scan-2.csv', ';', ','],
    ] as const) {
      const scan = readScan(benchText(name))
      expect(scan).toMatchObject({
        kind: 'offset',
        delimiter,
        decimalMark,
        rowsRead: 97,
        doubts: [],
        refusedLines: [],
      })
      expect(scan.columns.map((c) => c.coreUnit)).toEqual(['um', 'uW', 'uW'])
    }
  })
})

describe('dialects', () => {
  const rows: [number, number][] = Array.from({ length: 20 }, (_, i) => [i - 9.5, 100 + i / 8])
  const table = (delimiter: string, mark: string, head: string[] = [], end = '\n') =>
    [...head, ...rows.map((r) => r.map((v) => v.toFixed(4).replace('.', mark)).join(delimiter))].join(end)

  test('every delimiter with either decimal mark, with byte-order mark and CRLF, reads the same numbers', () => {
    for (const delimiter of ['\t', ';', ',', '|', ' ', '   ', ', ', ' ; ']) {
      for (const mark of ['.', ',']) {
        if (delimiter.includes(mark)) continue
        const head = `x [um]${delimiter.trim() === '' && delimiter !== '\t' ? '   ' : delimiter}P [nW]`
        for (const text of [
          table(delimiter, mark, [head]),
          `\ufeff${table(delimiter, mark, [head], '\r\n')}\r\n`,
        ]) {
          const scan = readScan(text)
          expect([delimiter, mark, scan.rowsRead, scan.kind]).toEqual([delimiter, mark, 20, 'offset'])
          expect(scan.columns[0]!.values[3]).toBe(-6.5)
          expect(scan.columns[1]!.values[8]).toBeCloseTo(0.101, 12) // 101 nW
        }
      }
    }
  })

  test('units in brackets, after a slash, an underscore or a blank, and on a line of their own', () => {
    for (const head of [
      'pos [mm],P (mW)',
      'pos / mm,P / mW',
      'pos_mm,P_mW',
      'pos mm,P mW',
      'pos,P\nmm,mW',
      'pos,P\n[mm],[mW]',
    ]) {
      const scan = readScan(table(',', '.', [head]))
      expect([head, scan.columns[0]!.values[0], scan.columns[1]!.values[0]]).toEqual([head, -9500, 100_000])
    }
  })

  test('angles in mrad and with the degree sign, lengths with either micro sign and in nm', () => {
    expect(column('angle [mrad];I\n-1;1\n2;3\n4;5', 'angle').values[1]).toBeCloseTo(0.002, 15)
    expect(column('angle [°];I\n-1;1\n2;3\n4;5', 'angle').values[1]).toBeCloseTo(Math.PI / 90, 15)
    for (const unit of ['µm', 'μm', 'microns']) {
      expect(column(`x (${unit});P (V)\n-1;1\n2;3\n4;5`, 'position').values[1]).toBe(2)
    }
    expect(column('x (nm);P (V)\n-100;1\n200;3\n400;5', 'position').values[1]).toBeCloseTo(0.2, 15)
  })

  test('a loss in dB over position becomes the power that is left', () => {
    expect(column('x_um;loss_dB\n-1;3\n0;0\n1;10', 'power').values[2]).toBeCloseTo(0.1, 12)
  })

  test('old line ends (CR alone), numbers with d exponents and thousands separators are read', () => {
    expect(readScan('x_um;P_uW\r1;2\r2;3\r3;4').rowsRead).toBe(3)
    const scan = readScan('x_um\tP_uW\n1.0d0\t1,234.5\n2.0d0\t2,000.5')
    expect([...scan.columns[1]!.values]).toEqual([1234.5, 2000.5])
  })

  test("comments are kept as notes, empty lines are skipped, line numbers are the editor's", () => {
    const scan = readScan('# probe MFD 10.4 um\n\nx_um,P_uW\n1,2\n\n2,3\noops,4\n3,4\n')
    expect(scan.metadata.probeMfdUm).toBe(10.4)
    expect(scan.metadata.notes).toEqual(['probe MFD 10.4 um'])
    expect(scan.refusedLines).toEqual([
      { line: 7, text: 'oops,4', reason: 'column 1 holds "oops", not a number' },
    ])
  })

  test('three columns x, y, power are a raster; lengths and losses are a loopback series', () => {
    expect(readScan('x_um,y_um,P_uW\n0,0,1\n1,0,2\n0,1,3\n1,1,2').kind).toBe('raster')
    const loop = readScan('length_mm;insertion loss [dB]\n5;3,1\n10;3,5\n20;4,2')
    expect(loop.kind).toBe('loopback')
    expect([...loop.columns[0]!.values]).toEqual([5000, 10_000, 20_000])
    expect([...loop.columns[1]!.values]).toEqual([3.1, 3.5, 4.2])
  })

  test('no heading at all: roles are guessed from the numbers and asked about', () => {
    const scan = readScan('-30 0.001\n-15 0.1\n0 1\n15 0.1\n30 0.001')
    expect(scan.kind).toBe('far-field')
    expect(scan.doubts.map((d) => d.id)).toEqual(
      expect.arrayContaining(['role:0', 'unit:0', 'role:1', 'unit:1']),
    )
    expect(
      readScan('-30 0.001\n-15 0.1\n0 1\n15 0.1\n30 0.001', { 'role:0': 'position', 'unit:0': 'um' }).kind,
    ).toBe('offset')
  })

  test('a comma that could be a thousands separator is a question', () => {
    expect(readScan('x;P\n1,250;2,500\n1,500;2,750').doubts.map((d) => d.id)).toContain('decimal-mark')
  })
})

describe('bad files are named and nothing is lost', () => {
  const codes = (text: string) => readScan(text).findings.map((f) => f.code)

  test('binary junk', () => {
    const junk = String.fromCharCode(...Array.from({ length: 5000 }, (_, i) => (i * 7919) % 256))
    expect(readScan(junk)).toMatchObject({
      kind: 'unknown',
      rowsRead: 0,
      findings: [{ code: 'binary', severity: 'error' }],
    })
  })

  test('prose, an empty file and one column of numbers', () => {
    expect(codes('Dear colleague,\nthe scan is attached.\n')).toEqual(['no-numbers'])
    expect(codes('')).toEqual(['no-numbers'])
    const one = readScan('1.5\n2.5\n3.5\n')
    expect(one.findings[0]!.code).toBe('one-column')
    expect(one.refusedLines).toHaveLength(3)
  })

  test('NaN, infinity, missing and surplus fields are refused line by line with their numbers and reasons', () => {
    const scan = readScan('x_um,P_uW\n0,1\nNaN,2\n1,inf\n2\n3,4,5\n4,\n5,6\n7,8')
    expect(scan.rowsRead).toBe(3)
    expect(scan.refusedLines.map((r) => [r.line, r.reason])).toEqual([
      [3, 'column 1 is NaN'],
      [4, 'column 2 is inf'],
      [5, 'has 1 fields where the table has 2'],
      [6, 'has 3 fields where the table has 2'],
      [7, 'has 1 fields where the table has 2'],
    ])
  })

  test('all zeros, one point, reversed axis, repeated positions and a flat top are findings', () => {
    expect(codes('x_um,P_uW\n0,0\n1,0\n2,0')).toContain('all-zero')
    expect(codes('x_um,P_uW\n0,5\n')).toContain('one-point')
    expect(codes('x_um,P_uW\n3,5\n2,6\n1,5')).toEqual(['reversed'])
    expect(codes('x_um,P_uW\n1,5\n1,6\n2,5')).toEqual(['duplicates'])
    expect(codes('x_um,P_uW\n1,5\n2,9\n3,9\n4,9\n5,9\n6,1')).toEqual(['flat-top'])
  })

  test('60 000 rows are read without loss', () => {
    const lines = ['x_um;P_uW']
    for (let i = 0; i < 60_000; i++) lines.push(`${i * 1e-4};${i % 977}`)
    expect(readScan(lines.join('\n')).rowsRead).toBe(60_000)
  })
})

describe('what people write around their numbers', () => {
  const rows = (delimiter: string, quote = '') =>
    Array.from({ length: 20 }, (_, i) =>
      [i - 9.5, 100 + i].map((value) => `${quote}${value}${quote}`).join(delimiter),
    )

  test('quoted fields with blanks about the delimiter are fields', () => {
    const scan = readScan(['pos [um] ; P [uW]', ...rows(' ; ', '"')].join('\n'))
    expect(scan).toMatchObject({ kind: 'offset', rowsRead: 20, doubts: [], refusedLines: [] })
  })

  test('a sentence of as many words as there are columns is no heading', () => {
    const text = Array.from({ length: 20 }, (_, i) => `${i - 9.5} ${100 + i} ${90 + i}`)
    const scan = readScan(['% transverse offset scan', ...text].join('\n'))
    expect(scan.columns.map((column) => column.label)).toEqual(['', '', ''])
    expect(scan.columns.map((column) => column.role)).toEqual(['position', 'power', 'power'])
    const named = readScan(['% pos Px Py', ...text].join('\n'))
    expect(named.columns.map((column) => column.label)).toEqual(['pos', 'Px', 'Py'])
  })

  test('a single-letter unit of power is recognised after the name of a power', () => {
    const scan = readScan(['stage position um,P along x W', ...rows(',')].join('\n'))
    expect(scan.columns[1]).toMatchObject({ label: 'P along x', unit: 'W', coreUnit: 'uW' })
    expect(scan.columns[1]!.values[0]).toBe(100e6)
    expect(readScan(['stage position m,V', ...rows(',')].join('\n')).columns[0]?.unit).toBeNull()
  })

  test('columns without a name: a scan of a few hundredths is no angle in rad but a stage in mm', () => {
    const text = Array.from({ length: 25 }, (_, i) => `${(i - 12) / 1000},${i}`).join('\n')
    expect(readScan(text)).toMatchObject({ kind: 'offset' })
    expect(readScan(text).doubts.find((doubt) => doubt.id === 'unit:0')?.assumed).toBe('mm')
  })
})

describe('loggers put times and counters beside their readings', () => {
  const log = (row: (i: number) => string, head: string) =>
    readScan([head, ...Array.from({ length: 30 }, (_, i) => row(i))].join('\n'))
  const power = (i: number) => (100 * Math.exp(-((i - 15) ** 2) / 30)).toFixed(4)

  test.each([
    [
      'date and time in one field',
      (i: number) => `2026-03-14 12:33:${10 + i},${i - 15},${power(i)}`,
      'when,pos [um],P [uW]',
      1,
    ],
    [
      'in two fields, with decimal commas',
      (i: number) => `14.03.2026;12:33:${10 + i},5;${i - 15};${power(i).replace('.', ',')}`,
      'Day;Hour;Pos [um];P [uW]',
      2,
    ],
    ['a time between blanks', (i: number) => `12:33:01 ${i - 15} ${power(i)}`, 't pos_um P_uW', 1],
  ])('%s: they are passed over, which is said', (_, row, head, columns) => {
    const scan = log(row, head)
    expect(scan).toMatchObject({ kind: 'offset', rowsRead: 30, doubts: [], refusedLines: [] })
    expect(scan.columns.map((column) => [column.label.toLowerCase(), column.role])).toEqual([
      ['pos', 'position'],
      ['p', 'power'],
    ])
    expect(scan.metadata.notes.filter((note) => /dates or times/.test(note))).toHaveLength(columns)
  })

  test('seconds, counters and temperatures are neither coordinate nor signal, without a question', () => {
    const scan = log((i) => `${i / 2},${i - 15},${power(i)},23.4`, 'time [s],x um,P uW,temperature [C]')
    expect(scan).toMatchObject({ kind: 'offset', doubts: [] })
    expect(scan.columns.map((column) => column.role)).toEqual(['other', 'position', 'power', 'other'])
  })

  test.each([
    ['a remark in every row', (i: number) => `${i - 15};${power(i)};ok`],
    ['a remark in most rows', (i: number) => `${i - 15};${power(i)}${i % 7 === 0 ? '' : ';ok'}`],
    ['a remark in few rows', (i: number) => `${i - 15};${power(i)}${i % 7 === 0 ? ';blip at 12 V' : ''}`],
    ['an empty remark in most rows', (i: number) => `${i - 15};${power(i)};${i % 7 === 0 ? 'ok' : ''}`],
  ])('%s: words are passed over, no row is lost', (_, row) => {
    const scan = log(row, 'Position (um);Power (uW);Remark')
    expect(scan).toMatchObject({ kind: 'offset', rowsRead: 30, doubts: [], refusedLines: [] })
    expect(scan.columns.map(({ label, role }) => [label, role])).toEqual([
      ['Position', 'position'],
      ['Power', 'power'],
    ])
    expect(scan.metadata.notes).toEqual(['Column 3 holds words and is ignored.'])
  })

  test('a status between the numbers is passed over, in blanks and with decimal commas too', () => {
    const inBlanks = log((i) => `${i - 15} locked ${power(i)}`, 'pos_um status P_uW')
    const withCommas = log((i) => `${i - 15},0;locked;${power(i).replace('.', ',')}`, 'pos um;status;P uW')
    for (const scan of [inBlanks, withCommas]) {
      expect(scan).toMatchObject({ kind: 'offset', rowsRead: 30, refusedLines: [] })
      expect(scan.columns).toHaveLength(2)
    }
  })

  test('"overload" in a column of numbers is no column of words, be it in most rows', () => {
    const scan = log((i) => `${i - 15},${i},${i % 3 === 0 ? power(i) : 'overload'}`, 'pos um,counter,P uW')
    expect(scan.rowsRead).toBe(10)
    expect(scan.refusedLines).toHaveLength(20)
  })

  test('a time in a column of numbers is refused like any other word', () => {
    const scan = readScan('pos um,P uW\n1,2\n2,3\n3,12:33\n4,5\n')
    expect(scan.rowsRead).toBe(3)
    expect(scan.refusedLines).toMatchObject([{ line: 4, reason: 'column 2 holds "12:33", not a number' }])
  })
})

describe('files that would hold up a page', () => {
  test('one line of nine million characters is refused as such, at once', () => {
    const scan = readScan('1,2,3,4,5,6,7,8,9,'.repeat(500_000))
    expect(scan.findings).toMatchObject([{ code: 'no-numbers', severity: 'error' }])
    expect(scan.refusedLines).toMatchObject([{ line: 1, reason: 'is 9000000 characters long' }])
    expect(scan.refusedLines[0]!.text.length).toBeLessThanOrEqual(120)
  })

  test('a signal that is the same in every row is named, and is no saturated peak', () => {
    const rows = Array.from({ length: 30 }, (_, i) => `${i},5`).join('\n')
    expect(readScan(`pos um,P uW\n${rows}`).findings).toMatchObject([{ code: 'all-same', severity: 'error' }])
  })
})
