// Tables as text: what separates their fields, what is a row, what lies on lines or on a grid, and what is said of it.

import { describe, expect, test } from 'vitest'
import { readScan } from '../../../src/measure'
import { findDialect, splitLine } from '../../../src/measure/reading/dialect'
import { unfoldedGrid } from '../../../src/measure/reading/gridTable'
import { lineScans } from '../../../src/measure/reading/lineScans'
import { readingsList } from '../../../src/measure/reading/readingsList'
import { readLot } from '../../../src/measure/reading/readLot'
import type { Doubt } from '../../../src/measure/reading/scan'
import { readTable } from '../../../src/measure/reading/tableText'
import { unpackNumbers } from '../../../src/numerics/compactNumbers'

const columnsOf = (text: string, given = {}) => readTable(text, given).columns.map((each) => [...each])

describe('the fields of a line', () => {
  test.each([
    ['a, b ,', ',', ['a', 'b']],
    [',,', ',', ['']],
    ['', ',', ['']],
    [' a   b ', ' ', ['a', 'b']],
    ['"a b"   "c"', ' ', ['a b', 'c']],
    ['"1" ; "2;3"', ';', ['1', '2;3']],
    ['"1"\t"2\t3"', '\t', ['1', '2\t3']],
    ['"a","b",', ',', ['a', 'b']],
    ['x, "a, b"', ',', ['x', 'a, b']],
  ])('%j by %j', (line, delimiter, fields) => {
    expect(splitLine(line, delimiter)).toEqual(fields)
  })
})

describe('the dialect of a table', () => {
  test('is the pair of marks that reads the most rows, or the one that is given', () => {
    expect(findDialect(['1;2', '3;4', '5,6'])).toMatchObject({ delimiter: ';', rows: 2 })
    expect(findDialect(['1,5;2,5', '3,5;4,5'])).toMatchObject({ delimiter: ';', decimalMark: ',', fields: 2 })
    expect(findDialect(['1,5;2,5', '3,5;4,5'], { delimiter: ',' })).toMatchObject({ delimiter: ',', rows: 0 })
    expect(findDialect(['1,5 2,5'], { decimalMark: '.' })).toMatchObject({ delimiter: ',', decimalMark: '.' })
    expect(findDialect(['1;2', '3;4'], { decimalMark: ',' })).toMatchObject({
      delimiter: ';',
      decimalMark: ',',
    })
    expect(findDialect(['1', 'a', ''])).toMatchObject({ delimiter: ',', fields: 1, rows: 0 })
  })

  test('passes times and words by, also where they are missing at the end', () => {
    expect(findDialect(['12:33:01,1,2,ok', '12:33:02,3,4', '12:33:03,5,6,low'])).toMatchObject({
      ...{ fields: 4, needed: 3, times: [0], words: [3], rows: 3 },
    })
    // A word where another row has a number is no column of words.
    expect(findDialect(['1,2,3', '1,overload x,3', '1,2,3'])).toMatchObject({ fields: 3, words: [], rows: 2 })
    expect(findDialect(['1,2,3', 'a,2,3', 'b,2,3', 'c,2,3'])).toMatchObject({ fields: 3, words: [], rows: 1 })
    expect(findDialect(['1,2', '1,2', 'a,2,3', 'b,2,3', 'c,2,3'])).toMatchObject({
      fields: 3,
      words: [0],
      rows: 3,
    })
  })
})

describe('a table', () => {
  test('keeps its headings, its units and its notes apart', () => {
    const table = readTable('run 7\n# by hand\nx,P\num,mW\n1,2\n3,4\n')
    expect(table).toMatchObject({
      headings: ['x', 'P'],
      units: ['um', 'mW'],
      notes: ['by hand', 'run 7'],
      rowsRead: 2,
    })
    expect(readTable('x,P\n1,2\n3,4').units).toEqual([])
    // A commented line that names the columns is the heading, the last of several.
    expect(readTable('# time,note\n# pos,power\n# x um,P mW\n1,2\n3,4\n').headings).toEqual(['x um', 'P mW'])
    // Over columns set apart by blanks a sentence is no heading, unless words are set apart by more than one.
    expect(readTable('offset scan\n1 2\n3 4\n').headings).toEqual([])
    expect(readTable('offset power\n1 2\n3 4\n').headings).toEqual(['offset', 'power'])
    expect(readTable('stage offset  detector power\n1 2\n3 4\n').headings).toEqual([
      'stage offset',
      'detector power',
    ])
    expect(readTable('one thing   another\n1 2\n3 4\n').headings).toEqual([])
    // A heading over units may be of any words.
    expect(readTable('a b\num mW\n1 2\n3 4\n')).toMatchObject({ headings: ['a', 'b'], units: ['um', 'mW'] })
  })

  test('says which columns it passes by', () => {
    const table = readTable('x,when,P,state\n1,12:33,2,ok\n3,12:34,4,ok\n')
    expect(table.notes).toEqual([
      'Column 2 holds dates or times and is ignored.',
      'Column 4 holds words and is ignored.',
    ])
    expect(table.headings).toEqual(['x', 'P'])
    expect(table.columns.map((each) => [...each])).toEqual([
      [1, 3],
      [2, 4],
    ])
  })

  test('refuses lines by number and reason, and a preamble only where there are no rows', () => {
    const { refusedLines, notes } = readTable('made by hand\n1,2\nnan,3\n4,5\nend of file\n')
    expect(refusedLines.map(({ line, reason }) => `${line} ${reason}`)).toEqual([
      '3 column 1 is nan',
      '5 has 1 fields where the table has 2',
    ])
    expect(notes).toEqual(['made by hand'])
    expect(readTable('nan,3\n1,2\n4,5\n').refusedLines.map(({ line }) => line)).toEqual([1])
    expect(readTable('words\n\nmore words\n').refusedLines).toEqual([
      { line: 1, text: 'words', reason: 'not a numeric row' },
      { line: 3, text: 'more words', reason: 'not a numeric row' },
    ])
    const long = `${'9'.repeat(100_001)}`
    expect(readTable(`1,2\n${long}\n3,4\n`).refusedLines).toMatchObject([
      { line: 2, text: '9'.repeat(120), reason: 'is 100001 characters long' },
    ])
    expect(readTable(`${long}\n1,2\n3,4\n`).refusedLines.map(({ line }) => line)).toEqual([1])
  })

  test('grows with its rows and tells how far it is', () => {
    const rows = Array.from({ length: 100_010 }, (_, i) => `${i},${i % 7}`)
    const shares: number[] = []
    const text = rows.join('\n')
    const table = readTable(text, {}, (share) => shares.push(share))
    expect(table.rowsRead).toBe(100_010)
    expect([
      table.columns[0]?.[1023],
      table.columns[0]?.[1024],
      table.columns[0]?.[2048],
      table.columns[0]?.at(-1),
    ]).toEqual([1023, 1024, 2048, 100_009])
    // Characters of the first 50 000 and 100 000 lines: digits of the numbers, a comma, a digit and an end each.
    const characters = (lines: number) => rows.slice(0, lines).join('\n').length + 1
    expect(shares).toEqual(
      [50_000, 100_000].map((lines) => expect.closeTo(characters(lines) / text.length, 9)),
    )
  })

  test('is recognised by its middle where two hundred lines of another shape begin', () => {
    const preamble = Array.from({ length: 300 }, (_, i) => `${i} 1 2`)
    const rows = Array.from({ length: 900 }, (_, i) => `${i};${i + 1}`)
    expect(readTable([...preamble, ...rows].join('\n')).dialect).toMatchObject({ delimiter: ';', rows: 200 })
  })
})

describe('rows on lines along the axes', () => {
  const scan = (points: readonly (readonly [number, number])[]) =>
    lineScans(
      Float64Array.from(points, ([x]) => x),
      Float64Array.from(points, ([, y]) => y),
    )
  const at = (count: number, of: (k: number) => readonly [number, number]) =>
    Array.from({ length: count }, (_, k) => of(k))

  test('crossing anywhere, each with its own rows, the crossing on both', () => {
    // Far from zero, so that no line lies at 0 by itself.
    const along = at(11, (k) => [100 + 10 * k, 540])
    const across = at(11, (k) => [130, 500 + 8 * k])
    expect(scan([...along, ...across])).toEqual([
      { axis: 'x', rows: [...along.map((_, k) => k), 11 + 5] },
      { axis: 'y', rows: [3, ...across.map((_, k) => 11 + k)] },
    ])
    expect(scan([...across, ...along])?.map(({ rows }) => rows.length)).toEqual([12, 12])
    expect(scan(along)).toEqual([{ axis: 'x', rows: along.map((_, k) => k) }])
    expect(scan(across)).toEqual([{ axis: 'y', rows: across.map((_, k) => k) }])
  })

  test('wander by up to 1 % of the travel about their middle', () => {
    const wide = (by: number) => scan(at(21, (k) => [10 * k, 700 + (k % 2) * by]))
    // Travel 200: two rows of 1.9 are within 2 of each other; those of 2.1 are not.
    expect(wide(1.9)).toEqual([{ axis: 'x', rows: Array.from({ length: 21 }, (_, k) => k) }])
    expect(wide(2.1)).toBeNull()
  })

  test('of five places at least, and none where nothing moves', () => {
    expect(scan(at(5, (k) => [k, 7]))).toHaveLength(1)
    expect(scan(at(4, (k) => [k, 7]))).toBeNull()
    expect(scan(at(9, (k) => [k % 4, 7]))).toBeNull()
    expect(scan(at(9, () => [3, 7]))).toBeNull()
    expect(scan([...at(9, (k) => [k, 7] as const), [4, 9]])).toBeNull()
  })
})

describe('a grid of powers', () => {
  const unfold = (lines: readonly string[], answers = {}) => {
    const text = lines.join('\n')
    const doubts: Doubt[] = []
    const table = readTable(text)
    return { grid: unfoldedGrid(text, table, answers, doubts), table, doubts }
  }
  const row = (y: number, count = 5) =>
    [y, ...Array.from({ length: count }, (_, i) => 100 + 10 * y + i * i)].join(',')

  test('needs five columns and five rows', () => {
    const rows = [0, 1, 2, 3, 4].map((y) => row(y))
    const { grid, table } = unfold(['y\\x,1,2,3,4,5', ...rows])
    expect(grid.rowsRead).toBe(25)
    expect(grid.columns.map((each) => [...each].slice(4, 7))).toEqual([
      [5, 1, 2],
      [0, 1, 1],
      [116, 110, 111],
    ])
    expect(grid.notes).toEqual(['Grid of 5 × 5 points: x along the first row, y down the first column.'])
    expect(grid.refusedLines).toEqual([])
    expect(table.rowsRead).toBe(5)
    const four = unfold(['y\\x,1,2,3,4,5', ...rows.slice(0, 4)])
    expect(four.grid).toBe(four.table)
    const narrow = unfold(['y\\x,1,2,3,4', ...[0, 1, 2, 3, 4].map((y) => row(y, 4))])
    expect(narrow.grid).toBe(narrow.table)
  })

  test('has positions that only rise or only fall, evenly spaced where no word stands in the corner', () => {
    const ys = [0, 1, 2, 3, 4, 5]
    const bare = (first: string, rows = ys) => unfold([first, ...rows.map((y) => row(y))])
    expect(bare('9,1,2,3,4,5').grid.rowsRead).toBe(30)
    expect(bare('9,5,4,3,2,1').grid.rowsRead).toBe(30)
    // The last step or one between 2.5 % off the mean of all.
    const uneven = bare('9,1,2,3,4.1,5')
    expect(uneven.grid).toBe(uneven.table)
    const last = bare('9,1,2,3,4,5.2')
    expect(last.grid).toBe(last.table)
    expect(bare('9,1,2,3,4.01,5').grid.rowsRead).toBe(30)
    const flat = bare('9,3,3,3,3,3')
    expect(flat.grid).toBe(flat.table)
    const back = bare('y\\x,1,2,3,4,5', [0, 1, 2, 2, 3, 4])
    expect(back.grid).toBe(back.table)
  })
})

describe('what is said of a scan', () => {
  const said = (text: string) => readScan(text).findings.map(({ code, message }) => `${code}: ${message}`)

  test('counts steps up, down and none', () => {
    expect(said('x_um,P_uW\n1,5\n3,6\n2,7\n4,6\n4,5\n')).toEqual([
      'unordered: "x" increases 2 times and decreases 1 times; it is sorted for the evaluation.',
      'duplicates: "x" repeats a value 1 times in a row; repeated points are averaged.',
    ])
    expect(said('x_um,P_uW\n3,5\n2,6\n2,7\n1,5\n')).toEqual([
      'reversed: "x" runs from high to low; it is sorted for the evaluation.',
      'duplicates: "x" repeats a value 1 times in a row; repeated points are averaged.',
    ])
    expect(said('x_um,P_uW\n1,5\n2,6\n')).toEqual([])
  })

  test('names a signal without light, without change, or cut off', () => {
    expect(said('x_um,P_uW\n1,0\n2,0\n')).toEqual(['all-zero: "P" is zero in every row.'])
    expect(said('x_um,P_uW\n1,-3\n2,-3\n')).toEqual([
      expect.stringMatching(/^all-same: "P" is the same in every row/),
    ])
    expect(said('x_um,P_uW\n1,3\n')).toEqual(['one-point: There is only one row: a scan needs several.'])
    expect(said('um,P_uW\n1,3\n2,9\n3,9\n4,9\n5,9\n6,1\n')).toEqual([
      'flat-top: "P" is at its highest value 4 times in a row: is the detector saturated?',
    ])
  })

  test('is unknown without a coordinate or a signal, by what there is', () => {
    const kind = (text: string) => readScan(text).kind
    expect(kind('angle deg,P uW\n1,2\n2,3\n')).toBe('far-field')
    expect(kind('angle deg,loss dB\n1,2\n2,3\n')).toBe('far-field')
    expect(kind('angle deg,time\n1,2\n2,3\n')).toBe('unknown')
    expect(kind('length mm,time\n1,2\n2,3\n')).toBe('unknown')
    expect(kind('length mm,P mW\n1,2\n2,3\n')).toBe('loopback')
    expect(kind('time,P mW\n1,2\n2,3\n')).toBe('unknown')
    expect(kind('x um,y um,P mW\n1,1,2\n2,1,3\n3,1,4\n')).toBe('offset')
    expect(kind('x um,y um,z um,P mW\n1,1,1,2\n2,2,2,3\n3,3,3,4\n4,4,4,3\n5,5,5,3\n6,6,6,2\n')).toBe('raster')
  })

  test('bounds what overflows, and asks whether a comma parts thousands', () => {
    const { columns } = readScan('x mm,P W\n1,1e99\n2,-1e99\n3,1e80\n')
    expect([...(columns[1]?.values ?? [])]).toEqual([1e100, -1e100, expect.closeTo(1e86, -75)])
    const asked = (text: string) => readScan(text).doubts.some(({ id }) => id === 'decimal-mark')
    expect(asked('x um;P uW\n1,250;2,500\n1,500;2,750')).toBe(true)
    expect(asked('x um;P uW\n1,25;2,500\n1,500;2,750')).toBe(false)
    expect(asked('x um;P uW\n1;2\n3;4')).toBe(false)
    expect([
      ...(readScan('x um;P uW\n1,250;2,500\n2,500;2,750', { 'decimal-mark': '.' }).columns[0]?.values ?? []),
    ]).toEqual([])
    expect(readScan('1;2\n3;4', { delimiter: ';' }).rowsRead).toBe(2)
    expect(readScan('1;2\n3;4', { delimiter: ',' }).rowsRead).toBe(0)
  })

  test('of seventeen columns without a heading is that they have none; of one column that there is one', () => {
    const rows = (count: number) =>
      [3, 1, 4, 1, 5]
        .map((first) => Array.from({ length: count }, (_, i) => first * (i + 1) * (i + 2)).join(','))
        .join('\n')
    expect(said(rows(17))).toEqual([
      expect.stringMatching(/^no-roles: There are 17 columns of numbers in 5 rows and no heading/),
    ])
    expect(said(rows(16)).join()).not.toMatch(/columns of numbers/)
    expect(said('1.5\n2.5\nthree\n')).toEqual([expect.stringMatching(/^one-column: .*\(2 or more rows\)/)])
    expect(said('1.5\nthree\n')).toEqual(['no-numbers: No line holds two numbers side by side.'])
  })
})

describe('a list of readings', () => {
  test('has the decimal mark that reads more of them, or the one that is given', () => {
    expect(readingsList('1,5\n2,5\n3\n')).toMatchObject({
      decimalMark: ',',
      values: Float64Array.of(1.5, 2.5, 3),
    })
    expect(readingsList('1.5\n2.5\n3\n')).toMatchObject({
      decimalMark: '.',
      values: Float64Array.of(1.5, 2.5, 3),
    })
    expect(readingsList('1\n2\n').decimalMark).toBe('.')
    expect(readingsList('1,5\n2,5\n3\n', '.')).toMatchObject({ decimalMark: '.', values: Float64Array.of(3) })
    expect(readingsList('1.5\n2\n', ',')).toMatchObject({ decimalMark: ',', values: Float64Array.of(2) })
  })

  test('has comments and words above it as notes, and refuses other lines', () => {
    const list = readingsList('# by hand\nloss in dB\n\nrun 7\n1.5\nend\n2.5\n')
    expect(list.notes).toEqual(['by hand', 'loss in dB'])
    expect(list.refusedLines).toEqual([
      { line: 4, text: 'run 7', reason: 'holds "run 7", not a number' },
      { line: 6, text: 'end', reason: 'holds "end", not a number' },
    ])
    expect([...list.values]).toEqual([1.5, 2.5])
  })
})

describe('a lot', () => {
  const lot = (text: string, answers = {}) => {
    const found = readLot(text, answers)
    if (found === null) throw new Error('no lot')
    const { kept, stress } = found
    const words = (role: string) => {
      const label = kept.labels.find((each) => each.role === role)
      return label && Array.from(unpackNumbers(label.values), (index) => label.names[index])
    }
    return {
      ...found,
      losses: [...unpackNumbers(kept.lossDb)],
      words,
      exposure: stress && [...unpackNumbers(stress.exposure)],
      returns: kept.returnLossDb && [...unpackNumbers(kept.returnLossDb)],
      says: found.findings.map(({ severity, message }) => `${severity}: ${message}`),
      refused: found.refusedLines.map(({ line, reason }) => `${line} ${reason}`),
    }
  }

  test('has each loss with its own words, whichever column comes first', () => {
    const found = lot(
      'return loss,date,loss,serial,channel,batch\n50,2026-03-14,1,A,1,W\n40,2026-03-15,2,A,2,W\n,2026-03-15,2,B,1,W\n',
    )
    expect(found.losses).toEqual([1, 2])
    expect(found.returns).toEqual([50, 40])
    expect([
      found.words('assembly'),
      found.words('channel'),
      found.words('batch'),
      found.words('station'),
    ]).toEqual([['A', 'A'], ['1', '2'], ['W', 'W'], undefined])
    expect(found.refused).toEqual(['4 return loss is empty'])
    expect([...unpackNumbers(found.kept.day!)]).toEqual([20_526, 20_527])
    expect(found).toMatchObject({
      rowsRead: 2,
      counts: { losses: 2, assemblies: 1, channels: 2 },
      says: [],
      stress: null,
    })
  })

  test('of several losses a row has a channel for each, without those that were not measured', () => {
    const found = lot('serial,ch1,ch2\nA,1,2\nB,,3\nC,x,y\nD,1,2,3\n')
    expect(found.losses).toEqual([1, 2, 3])
    expect(found.words('channel')).toEqual(['ch1', 'ch2', 'ch2'])
    expect(found.refused).toEqual(['4 loss holds "x", not a number', '5 has 4 fields where the table has 3'])
    expect(found.says).toEqual(['remark: 2 loss columns: each is read as one channel of the assembly.'])
  })

  test('of a stress test has its exposure in hours or cycles, from 0 on, and needs no names', () => {
    const found = lot('exposure days,loss\n0,1\n2,1.5\n-1,2\nlate,3\n,4\n')
    expect(found).toMatchObject({
      losses: [1, 1.5],
      exposure: [0, 48],
      stress: { exposureUnit: 'h' },
      says: [],
    })
    expect(found.refused).toEqual([
      '4 exposure is -1, below 0',
      '5 exposure holds "late", not a number',
      '6 exposure is empty',
    ])
    expect(lot('loss,cycles\n1,500\n2,700\n')).toMatchObject({
      exposure: [500, 700],
      stress: { exposureUnit: 'cycles' },
    })
    expect(lot('cycles,loss\n1e9,1\n1,2\n').says).toEqual([])
    expect(lot('cycles,loss\n1.1e9,1\n1,2\n').says).toEqual([
      'error: An exposure is 1100000000 cycles; must be 0 to 1000000000.',
    ])
    // Assemblies and channels that come back at a later exposure are no duplicates.
    expect(lot('cycles,loss,serial,channel\n1,1,A,1\n2,2,A,1\n').says).toEqual([])
  })

  test('says what repeats, what is too large, and what is missing', () => {
    expect(lot('serial,loss,channel\nA,1,1\nA,2,1\nA,3,2\n').says).toEqual([
      'remark: Losses that repeat a channel of the same assembly: 1; all are kept.',
    ])
    expect(lot('serial,loss\nA,1\nA,2\n').says).toEqual([])
    expect(lot('serial,loss\nA,10000\nB,-10000\n').says).toEqual([])
    expect(lot('serial,loss\nA,10001\nB,1\n').says).toEqual([
      'error: A loss is 10001 dB; must be −10000 to 10000.',
    ])
    expect(lot('serial,loss\nA,1\n').says).toEqual(['error: There are fewer than two losses.'])
    expect(lot('a,b\n1,2\n', { kind: 'lot' }).says).toEqual([
      'error: No column names the assembly.',
      'error: No column is a loss.',
    ])
    expect(lot('a;b\n1;2\n', { kind: 'lot' }).delimiter).toBe(';')
    expect(readLot('a\n1\n', { kind: 'lot' })).toBeNull()
    expect(readLot('serial,loss\nA,1\n', { kind: 'table' })).toBeNull()
    expect(readLot('serial,loss\nA,1\n', { delimiter: ';' })).toBeNull()
    expect(readLot('serial;loss\nA;1\n', { delimiter: ';' })?.delimiter).toBe(';')
  })

  test('is written as transmission where more than three in five losses are negative', () => {
    const of = (negative: number, count: number) =>
      lot(
        ['serial,loss', ...Array.from({ length: count }, (_, i) => `A${i},${i < negative ? -2 : 3}`)].join(
          '\n',
        ),
      )
    expect(of(3, 5)).toMatchObject({ doubts: [], losses: [-2, -2, -2, 3, 3] })
    expect(of(4, 5)).toMatchObject({
      losses: [2, 2, 2, 2, -3],
      doubts: [{ id: 'sign', assumed: 'transmission in dB', alternatives: ['losses, some negative'] }],
    })
    expect(lot('serial,loss\nA,0\nB,-1\nC,0\nD,0\n').doubts).toEqual([])
  })

  test('has the decimal mark with which more losses are numbers, or the one that is given', () => {
    expect(lot('serial;loss\nA;1,5\nB;2,5\nC;3.5\n').losses).toEqual([1.5, 2.5])
    expect(lot('serial;loss\nA;1,5\nB;2.5\nC;3.5\n').losses).toEqual([2.5, 3.5])
    expect(lot('serial;loss\nA;1,5\nB;2\n').losses).toEqual([1.5, 2])
    expect(lot('serial;loss\nA;1,5\nB;2.5\nC;3.5\n', { 'decimal-mark': ',' }).losses).toEqual([1.5])
    expect(lot('serial;loss\nA;1,5\nB;2,5\nC;3.5\n', { 'decimal-mark': '.' }).losses).toEqual([3.5])
    expect(lot('serial;loss\nA;1\nB;2\n').decimalMark).toBe('.')
  })
})

test('columns of a table are those of its rows', () => {
  expect(columnsOf('1 2\n3 4\n')).toEqual([
    [1, 3],
    [2, 4],
  ])
})
