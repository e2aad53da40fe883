// Parts as a table that a spreadsheet opens: one row for every field of every part.
//   list, part, field, value, unit, plus minus, distribution, provenance, note, coverage, share, side, uncertainty,
//   uncertainty coverage
// Fields of fields are joined by dots (mode.mfdX, films.0.thickness). A number has a unit; everything else leaves the unit empty.

import Papa from 'papaparse'
import { failure, type Issue, type Result } from '../issue'
import { PART_LISTS, type PartList, type PartLists } from '../project/references'
import type { Quantity } from '../quantity/quantity'
import type { Project } from '../schema/project'
import { escapeFormula, unescapeFormula } from './formulaEscape'
import { checkParts, tooLong } from './partsFile'

const HEAD = [
  'list',
  'part',
  'field',
  'value',
  'unit',
  'plus minus',
  'distribution',
  'provenance',
  'note',
  'coverage',
  'share',
  'side',
  'uncertainty',
  'uncertainty coverage',
] as const
type Column = (typeof HEAD)[number]
type Row = Readonly<Record<Column, string>>
type Tree = { [field: string]: unknown }

const EMPTY = Object.fromEntries(HEAD.map((column) => [column, ''])) as Row

/** Columns of a quantity that hold a number of at least 0, or nothing. */
const HALVES = ['plus minus', 'coverage', 'uncertainty', 'uncertainty coverage'] as const

/** No field of a part is nested deeper; what is deeper is not ours. */
const DEEPEST = 7

function isQuantity(value: object): value is Quantity {
  return 'value' in value && 'unit' in value && 'provenance' in value
}

/** The id has a column of its own; fields and index profiles do not belong in a table of numbers, also not those of an end of a chip. */
const isLeftOut = (prefix: string, field: string): boolean =>
  field === 'modeShape' || (prefix === '' && field === 'id')

const numberCell = (value: number | undefined): string => (value === undefined ? '' : String(value))

function rowsOf(list: PartList, part: string, prefix: string, tree: object): readonly Row[] {
  return Object.entries(tree).flatMap(([field, value]): readonly Row[] => {
    const row = { ...EMPTY, list, part, field: prefix + field }
    if (value === undefined || isLeftOut(prefix, field)) return []
    if (typeof value !== 'object' || value === null)
      return [{ ...row, value: typeof value === 'string' ? escapeFormula(value) : String(value) }]
    if (!isQuantity(value)) return rowsOf(list, part, `${row.field}.`, value)
    const { tolerance, uncertainty } = value
    return [
      {
        ...row,
        value: String(value.value),
        unit: value.unit,
        'plus minus': numberCell(tolerance?.plusMinus),
        distribution: tolerance?.distribution ?? '',
        coverage: numberCell(tolerance?.coverage),
        share: tolerance?.share ?? '',
        side: tolerance?.side ?? '',
        uncertainty: numberCell(uncertainty?.plusMinus),
        'uncertainty coverage': numberCell(uncertainty?.coverage),
        provenance: value.provenance,
        note: escapeFormula(value.note ?? ''),
      },
    ]
  })
}

/** All parts of the project as CSV text (RFC 4180). */
export function partsCsv(project: Project): string {
  const rows = PART_LISTS.flatMap((list) => project[list].flatMap((part) => rowsOf(list, part.id, '', part)))
  return `${Papa.unparse({ fields: [...HEAD], data: rows.map((row) => HEAD.map((column) => row[column])) })}\r\n`
}

function leafOf(row: Row): unknown {
  if (row.unit === '')
    return row.value === 'true' ? true : row.value === 'false' ? false : unescapeFormula(row.value)
  const given = (column: Column, field: string = column, value: unknown = row[column]) =>
    row[column] === '' ? {} : { [field]: value }
  const number = (column: (typeof HALVES)[number], field: string = column) =>
    given(column, field, Number(row[column]))
  return {
    value: Number(row.value),
    unit: row.unit,
    provenance: row.provenance || 'estimate',
    ...given('plus minus', 'tolerance', {
      plusMinus: Number(row['plus minus']),
      distribution: row.distribution || 'uniform',
      ...number('coverage'),
      ...given('share'),
      ...given('side'),
    }),
    ...given('uncertainty', 'uncertainty', {
      plusMinus: Number(row.uncertainty),
      coverage: Number(row['uncertainty coverage'] || 2),
    }),
    ...(row.note === '' ? {} : { note: unescapeFormula(row.note) }),
  }
}

/** Puts a leaf at a dotted place; false where the place is taken by something else or too deep. */
function plant(tree: Tree, field: string, leaf: unknown): boolean {
  const steps = field.split('.')
  const last = steps.pop()
  if (last === undefined || steps.length > DEEPEST) return false
  let here = tree
  for (const step of steps) {
    if (!Object.hasOwn(here, step)) here[step] = {}
    const next = here[step]
    if (typeof next !== 'object' || next === null) return false
    here = next as Tree
  }
  here[last] = leaf
  return true
}

/** Fields numbered 0, 1, 2 … are the entries of a list. */
function withLists(tree: unknown): unknown {
  if (typeof tree !== 'object' || tree === null) return tree
  const entries = Object.entries(tree)
  const listed = entries.length > 0 && entries.every(([field]) => /^\d+$/.test(field))
  if (!listed) return Object.fromEntries(entries.map(([field, value]) => [field, withLists(value)]))
  return entries.sort(([a], [b]) => Number(a) - Number(b)).map(([, value]) => withLists(value))
}

/** Checks one row; the message names the line as a spreadsheet counts it. */
function rowFault(row: Row, line: number): Issue | null {
  const fault = (message: string): Issue => ({
    path: ['line', line],
    code: 'format',
    message: `line ${line}: ${message}`,
  })
  if (!PART_LISTS.some((list) => list === row.list)) {
    return fault(`list is "${row.list}"; must be one of ${PART_LISTS.join(', ')}`)
  }
  if (row.part === '' || row.field === '') return fault('part or field is empty')
  const named =
    /^(?!__proto__|constructor|prototype)[A-Za-z][A-Za-z0-9]*(\.(\d{1,2}|(?!__proto__|constructor|prototype)[A-Za-z][A-Za-z0-9]*))*$/
  if (!named.test(row.field)) return fault(`field is "${row.field.slice(0, 60)}", which is not a field name`)
  if (row.unit === '') return null
  if (row.value.trim() === '' || !Number.isFinite(Number(row.value)))
    return fault(`value is "${row.value}", which is not a number`)
  const wrong = HALVES.find((column) => row[column] !== '' && !(Number(row[column]) >= 0))
  return wrong === undefined ? null : fault(`${wrong} is "${row[wrong]}"; must be 0 or more`)
}

/** The checked parts of a table, or every fault with its line or path. Delimiter and line ends are found out. */
export function readPartsCsv(text: string): Result<PartLists> {
  const long = tooLong(text)
  if (long !== null) return failure(long)
  const { data, meta } = Papa.parse<Row>(text.replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: 'greedy',
  })
  const missing = HEAD.slice(0, 4).filter((column) => !meta.fields?.includes(column))
  if (missing.length > 0) {
    return failure({
      path: [],
      code: 'format',
      message: `the table has no column ${missing.join(', ')}; the header must be ${HEAD.join(', ')}`,
    })
  }
  const rows = data.map((row): Row => ({ ...EMPTY, ...row }))
  const faults: Issue[] = []
  const parts = new Map<string, { list: string; tree: Tree }>()
  for (const [i, row] of rows.entries()) {
    const fault = rowFault(row, i + 2)
    if (fault !== null) {
      faults.push(fault)
      continue
    }
    const key = `${row.list}/${row.part}`
    const part = parts.get(key) ?? { list: row.list, tree: { id: row.part } }
    parts.set(key, part)
    if (!plant(part.tree, row.field, leafOf(row))) {
      faults.push({
        path: ['line', i + 2],
        code: 'format',
        message: `line ${i + 2}: field "${row.field}" contradicts an earlier line`,
      })
    }
  }
  if (faults.length > 0) return failure(...faults)
  const found = [...parts.values()]
  return checkParts(
    Object.fromEntries(
      PART_LISTS.map((list) => [
        list,
        found.filter((part) => part.list === list).map((part) => withLists(part.tree)),
      ]),
    ),
  )
}
