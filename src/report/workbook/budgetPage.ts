// The live budget of one candidate: inputs, lines, totals and what each tolerance adds, all as formulas on the input cells.

import { compileCandidate } from '../../analysis/path/compileCandidate'
import type { LineModel } from '../../analysis/path/vector/elementModels'
import type { Project } from '../../model/schema/project'
import type { SheetCandidate } from '../candidates'
import { INPUT_COLUMNS, inputTable, type SharedInput } from './inputTable'
import { efficiencyTerm } from './jointFormulas'
import { type JointLosses, jointRows } from './jointRows'
import { type LiveTotals, type LiveVerdict, limitRows } from './limitRows'
import { beyondFitAlone, type Scenario, scenarios, slotOfNumber, tolerancedSlots } from './liveInputs'
import {
  beyondCells,
  CARRIED,
  FORMULA_KINDS,
  jointLine,
  type LiveLine,
  liveJoints,
  relayCellNotes,
} from './liveLines'
import { address, below, type CellName, type PageWriter, pageWriter, type WorkbookPage } from './page'
import { type FormulaTerm, literal, most, sumTerm } from './term'
import { toleranceHeight, toleranceRows } from './toleranceRows'
import { type Waterfall, waterfall } from './waterfallCells'

export interface LiveBudget {
  readonly title: string
  readonly page: WorkbookPage
  readonly names: readonly CellName[]
  readonly totals: LiveTotals & { readonly efficiency: FormulaTerm }
  readonly verdicts: readonly LiveVerdict[]
  readonly waterfall: Waterfall
  /** Lines that only carry a value: as many follow no input. */
  readonly carried: number
}

const WIDTHS = [50, 13, 7, 13, 13, 44, 34, 10] as const
/** Columns of numbers have their heads to the right. */
const headStyle = (head: string, column: number) =>
  head === 'Note' || column === 0 ? 'head' : [1, 3, 4].includes(column) ? 'numberHead' : 'unitHead'
/** Names and further notes are for the screen. */
const LAST_PRINTED = 5

/** Below this the worst case is the sum of its lines. */
const BEYOND_LINES_DB = 1e-9

const CHART = { from: [1, 8], to: [24, 16] } as const

/** Writes joints below each other on a page that all designs share. */
export interface JointSheet {
  readonly writer: PageWriter
  /** The next free row, moved on by every joint. */
  row: number
  widths: readonly number[]
  readonly groups: (readonly [first: number, last: number])[]
}

function writeJoint(sheet: JointSheet, write: (writer: PageWriter) => JointLosses): JointLosses {
  const losses = write(below(sheet.writer, sheet.row))
  sheet.groups.push([sheet.row + 1, sheet.row + losses.height - 1])
  sheet.row += losses.height + 1
  sheet.widths = losses.widths.length > sheet.widths.length ? losses.widths : sheet.widths
  return losses
}

const literals = (value: number | undefined) => (value === undefined ? [] : [literal(value)])

/** The live budget of one design, number `number`; null where it cannot be computed. */
export function liveBudget(
  project: Project,
  { evaluation, verdicts }: Pick<SheetCandidate, 'evaluation' | 'verdicts'>,
  number: number,
  title: string,
  jointSheet: JointSheet,
  shared: SharedInput,
): LiveBudget | null {
  const result = compileCandidate(project, evaluation.candidateId)
  if (!result.ok) return null
  const compiled = result.value
  const fixed = scenarios(compiled, evaluation.worstCorner.settings)
  const [nominal, corner] = fixed
  if (nominal === undefined || corner === undefined) return null
  const writer = pageWriter(`Budget ${number}`)
  const prefix = `budget${number}`
  const gaps = liveJoints(compiled)
  const ownLines = new Set(gaps.map(({ element }) => element.id))
  const others = compiled.lines
    .filter(({ kind, elementId }) => !(FORMULA_KINDS.has(kind) && ownLines.has(elementId ?? '')))
    .map((line) => ({ line, slot: slotOfNumber(compiled, line.lossDb) }))
  const beyond = beyondCells(
    compiled,
    gaps,
    others.filter(({ slot }) => slot === null).map(({ line }) => line),
  )
  const follows = beyond.length === 0

  // Results first, inputs last: how many of these there are is known only when everything else is written.
  const relays = compiled.candidate.chain.filter(({ kind }) => kind === 'relay').length
  const totalRow = 3 + relays
  const limitRow = totalRow + (follows ? 6 : 5) + 1
  const lineRow = limitRow + project.requirements.losses.length + 2
  const toleranceRow = lineRow + compiled.lines.length + 3
  const inputRow = toleranceRow + toleranceHeight(compiled) + 2

  const inputs = inputTable(writer, inputRow, prefix, project, compiled, shared)
  const single = toleranceRows(writer, toleranceRow, compiled, corner, follows)
  const all: readonly Scenario[] = follows
    ? [
        ...fixed,
        { ...corner, title: 'Worst case, signs of the single tolerances', signCells: single.signCells },
      ]
    : fixed
  const joints = gaps.map((live) => ({
    live,
    losses: writeJoint(jointSheet, (rows) =>
      jointRows(rows, `${title}, joint ${live.number}`, live, compiled, inputs, all),
    ),
  }))
  const typed = others.map(({ line, slot }) => ({
    line,
    input: slot === null ? null : inputs.quantity(slot),
  }))
  const jointOf = (line: LineModel) =>
    FORMULA_KINDS.has(line.kind) ? joints.find(({ live }) => live.element.id === line.elementId) : undefined
  const lines = compiled.lines.map((line): LiveLine => {
    const joint = jointOf(line)
    if (joint !== undefined) return jointLine(line, joint.losses)
    const input = typed.find((each) => each.line === line)?.input ?? null
    return input === null
      ? { line, term: literal(line.lossDb(compiled.nominal)), note: CARRIED }
      : { line, term: input(nominal), note: '' }
  })

  writer.text(0, 0, title, 'title')
  const notes = [
    'Edit shaded cells within their stated limits: all results follow, except lines in italics, which are fixed values. Underlined inputs are shared with other designs: change them on the What if page.',
    ...relayCellNotes(compiled, (id) =>
      typed.flatMap(({ line, input }) => (input !== null && line.elementId === id ? [line.label] : [])),
    ),
  ]
  for (const [i, note] of notes.entries()) writer.text(1 + i, 0, note, 'note')
  for (const [i, head] of INPUT_COLUMNS.entries()) writer.text(inputRow - 1, i, head, headStyle(head, i))

  for (const [i, head] of ['Line', 'Loss', 'Unit', '', '', 'Note'].entries())
    writer.text(lineRow, i, head, headStyle(head, i))
  const firstLine = lineRow + 1
  const lastLine = lineRow + lines.length
  for (const [i, { line, term, note }] of lines.entries()) {
    const row = firstLine + i
    writer.text(row, 0, line.label)
    if (note === '') writer.formula(row, 1, term)
    else writer.number(row, 1, term.value, 'carried')
    writer.text(row, 2, 'dB', 'unit')
    writer.text(row, 5, note === '' ? (line.note ?? '') : note, 'note')
  }
  const names: CellName[] = []
  for (const [i, head] of ['Result', 'Value', 'Unit', '', '', 'Note', 'Name'].entries())
    writer.text(totalRow, i, head, headStyle(head, i))
  let row = totalRow + 1
  const total = (
    label: string,
    name: string,
    unit: string,
    term: FormulaTerm,
    note: string,
    format?: string,
  ): FormulaTerm => {
    writer.text(row, 0, label, 'total')
    const cell = writer.formula(row, 1, term, 'total', format)
    writer.text(row, 2, unit, 'unit')
    writer.text(row, 5, note, 'note')
    writer.text(row, 6, `${prefix}_${name}`, 'note')
    names.push({ name: `${prefix}_${name}`, at: cell.text })
    row += 1
    return cell
  }
  const sum = lines.reduce((db, { term }) => db + term.value, 0)
  const nominalCell = total(
    'Nominal',
    'nominal',
    'dB',
    { text: `SUM(${address(firstLine, 1)}:${address(lastLine, 1)})`, value: sum },
    'sum of the lines',
  )
  writer.text(lastLine + 1, 0, 'Nominal, sum of the lines', 'total')
  writer.formula(lastLine + 1, 1, nominalCell, 'total')
  writer.text(lastLine + 1, 2, 'dB', 'unit')
  const efficiency = total(
    'Transmission',
    'efficiency',
    '',
    efficiencyTerm(nominalCell),
    'ratio of powers, 0 to 1',
  )
  // What the joints of the worst case lose by exact sums beyond the lines, which a fit moves.
  const beyondLinesDb = evaluation.worstCorner.lossDb - compiled.lossDb(corner.values)
  const beyondAlone = beyondFitAlone(compiled, evaluation)
  const lossAt = all.map((scenario, i) => {
    const parts = [
      ...(scenario === corner && Math.abs(beyondLinesDb) > BEYOND_LINES_DB ? [literal(beyondLinesDb)] : []),
      ...(scenario !== corner && scenario.signs.size === 1
        ? Array.from(scenario.signs.keys()).flatMap((slot) => literals(beyondAlone.get(slot)))
        : []),
      ...joints.map(({ losses }) => losses.whole[i] ?? literal(0)),
      ...typed.map(({ line, input }) => input?.(scenario) ?? literal(line.lossDb(scenario.values))),
    ]
    return parts.length === 0 ? literal(0) : sumTerm(...parts)
  })
  const at = (i: number) => lossAt[i] ?? literal(0)
  const { rss, differing } = single.fill(
    nominalCell,
    tolerancedSlots(compiled).map((_, i) => [at(2 + 2 * i), at(3 + 2 * i)] as const),
  )
  const rssCell = total(
    'RSS',
    'root_sum_square',
    'dB',
    rss,
    'each tolerance alone at its worse limit, combined in quadrature',
  )
  const worst = total(
    'Worst case',
    'worst_corner',
    'dB',
    most(at(1), ...(follows ? [at(all.length - 1)] : []), rssCell),
    follows
      ? 'all tolerances at their limits: the highest of the exported worst case, the combination of the worse limit of each tolerance, and RSS. Only the app can search other combinations of signs.'
      : `signs as exported, never below RSS: tolerances of this design affect lines without a closed form in cells (${beyond.join(', ')}), so only the app can repeat the search.`,
  )
  if (follows)
    total(
      'Signs that differ from the export',
      'signs_changed',
      '',
      differing,
      'above 0: the worst case may occur with other signs; repeat the search in the app',
      '0',
    )
  const totals = { nominal: nominalCell, worst, rss: rssCell, efficiency }
  const limits = limitRows(writer, limitRow, prefix, project, verdicts, totals)
  const bars = waterfall(writer, firstLine, lines, nominalCell)
  return {
    title,
    page: {
      ...writer.page(WIDTHS, 1),
      print: { orientation: 'portrait', pages: 1, lastColumn: LAST_PRINTED },
      spans: notes.map((_, i) => [1 + i, 0, LAST_PRINTED] as const),
      charts: [{ title: 'Loss budget, dB', ...bars, ...CHART }],
    },
    names: [...inputs.names(), ...names, ...limits.names],
    totals,
    verdicts: limits.verdicts,
    waterfall: bars,
    carried: lines.filter(({ note }) => note !== '').length,
  }
}
