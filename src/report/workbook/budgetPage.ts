// The live budget of one candidate: inputs, lines, totals and what each tolerance adds, all as formulas on the input cells.

import { type CompiledCandidate, compileCandidate } from '../../analysis/path/compileCandidate'
import type { LineModel } from '../../analysis/path/vector/models'
import type { LineKind } from '../../analysis/results/evaluation'
import { jointWords } from '../../model/designs/jointNames'
import type { Project } from '../../model/schema/project'
import type { SheetCandidate } from '../candidates'
import { INPUT_COLUMNS, inputTable } from './inputTable'
import { efficiencyTerm } from './jointFormulas'
import { followsAligning, JOINT_PARTS, type JointLosses, jointPage, type LiveJoint } from './jointPage'
import { limitRows } from './limitRows'
import { atEnd, placeOfNumber, type Scenario, scenarios, tolerancedPlaces } from './liveInputs'
import { address, type CellName, type Page, pageWriter } from './page'
import { literal, minus, most, plus, type Term } from './term'
import { tolerancePage } from './tolerancePage'

export interface LiveBudget {
  readonly pages: readonly Page[]
  readonly names: readonly CellName[]
}

const WIDTHS = [44, 16, 8, 14, 14, 50, 44, 12] as const

/** The gaps that are computed, and so have a closed form. */
function liveJoints({ candidate, joins, nominal }: CompiledCandidate): readonly LiveJoint[] {
  const gaps = joins.flatMap((join): readonly Omit<LiveJoint, 'number'>[] => {
    const view = join.view?.(nominal)
    const element = candidate.chain.find(({ id }) => id === view?.elementId)
    if (view === undefined || element?.kind !== 'gap' || element.typedLoss !== undefined) return []
    const face = (side: 'near' | 'far') =>
      join.lines.find(({ id }) => id === `${element.id}/fresnel ${side}`)?.lossDb ?? (() => 0)
    return [{ join, element, view, nearFaceLossDb: face('near'), farFaceLossDb: face('far') }]
  })
  return gaps.map((gap, i) => ({ ...gap, number: i + 1 }))
}

/** A line as formula; `note` says where it only carries a value. */
interface LiveLine {
  readonly line: LineModel
  readonly term: Term
  readonly note: string
}

const CARRIED = 'carried as a value: it has no closed form here and does not follow the inputs'

/** Lines of a joint that its closed form gives; what fields add to it is not among them. */
const FORMULA_KINDS: ReadonlySet<LineKind> = new Set([...JOINT_PARTS, 'combined', 'fresnel'])

function jointLine(line: LineModel, losses: JointLosses): LiveLine {
  const mismatch = losses.part('mode mismatch')
  const alone = (part: (typeof JOINT_PARTS)[number]) => minus(losses.part(part), mismatch)
  const note = (term: Term) => ({ line, term, note: '' })
  switch (line.kind) {
    case 'mode mismatch':
      return note(mismatch)
    case 'gap':
    case 'lateral offset':
    case 'tilt':
    case 'roll':
      return note(alone(line.kind))
    case 'combined':
      return note(
        minus(
          losses.joint,
          plus(mismatch, ...JOINT_PARTS.filter((part) => part !== 'mode mismatch').map(alone)),
        ),
      )
    default:
      return note(line.id.endsWith('near') ? losses.nearFace : losses.farFace)
  }
}

/** Causes that a note names one by one. */
const MOST_NAMED = 3

/**
 * What keeps the corners of a design out of the reach of cells: a pose that only a search finds, or a line without a closed form that
 * a tolerance moves. Empty where every corner can be computed here.
 */
function beyondCells(
  compiled: CompiledCandidate,
  joints: readonly LiveJoint[],
  carried: readonly LineModel[],
): readonly string[] {
  const { chain } = compiled.candidate
  const searched = joints
    .filter((joint) => !followsAligning(joint))
    .map(({ element }) => `the aligned pose of ${jointWords(chain, element.id)}`)
  const places = tolerancedPlaces(compiled)
  const moved = carried.filter((line) => {
    const nominal = line.lossDb(compiled.nominal)
    return places.some((place) =>
      ([-1, 1] as const).some(
        (sign) => line.lossDb(atEnd(compiled, compiled.nominal, place, sign)) !== nominal,
      ),
    )
  })
  const named = [...searched, ...moved.map(({ label }) => label)]
  const rest = named.length - MOST_NAMED
  return rest < 2 ? named : [...named.slice(0, MOST_NAMED), `${rest} more`]
}

/** For each relay, which cells of it are live. */
function relayNotes(
  { candidate: { chain } }: CompiledCandidate,
  inputLabels: (id: string) => readonly string[],
) {
  return chain
    .filter(({ kind }) => kind === 'relay')
    .map(({ id }) => {
      const live = inputLabels(id)
      const cells = live.length === 0 ? 'no cell is live' : `live cells: ${live.join(', ')}`
      return `Relay, ${jointWords(chain, id)}: ${cells}. Lenses, distances, alignment and focus have no closed form in cells; their lines are carried and change only in the program.`
    })
}

/** The live budget; null where the candidate cannot be computed. */
export function liveBudget(
  project: Project,
  { evaluation, verdicts }: Pick<SheetCandidate, 'evaluation' | 'verdicts'>,
  number: number,
  title: string,
): LiveBudget | null {
  const result = compileCandidate(project, evaluation.candidateId)
  if (!result.ok) return null
  const compiled = result.value
  const fixed = scenarios(compiled, evaluation.worstCorner.settings)
  const [nominal, corner] = fixed
  if (nominal === undefined || corner === undefined) return null
  const writer = pageWriter(`Budget ${number}`)
  const prefix = `budget${number}`
  const relays = compiled.candidate.chain.filter(({ kind }) => kind === 'relay').length
  const inputRow = 4 + relays
  const inputs = inputTable(writer, inputRow, prefix, project, compiled)
  const gaps = liveJoints(compiled)
  const ownLines = new Set(gaps.map(({ element }) => element.id))
  const others = compiled.lines
    .filter(({ kind, elementId }) => !(FORMULA_KINDS.has(kind) && ownLines.has(elementId ?? '')))
    .map((line) => ({ line, place: placeOfNumber(compiled, line.lossDb) }))
  const beyond = beyondCells(
    compiled,
    gaps,
    others.filter(({ place }) => place === null).map(({ line }) => line),
  )
  const follows = beyond.length === 0
  const single = tolerancePage(`Tolerances ${number}`, `${title}, tolerances`, compiled, corner, follows)
  const all: readonly Scenario[] = follows
    ? [
        ...fixed,
        { ...corner, title: 'Worst case, signs of the single tolerances', signCells: single.signCells },
      ]
    : fixed
  const joints = gaps.map((live, i) => ({
    live,
    losses: jointPage(`Joint ${number}.${i + 1}`, `${title}, joint ${i + 1}`, live, compiled, inputs, all),
  }))
  const typed = others.map(({ line, place }) => ({
    line,
    input: place === null ? null : inputs.quantity(place),
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
  writer.text(
    1,
    0,
    'Shaded cells may be changed, within the limits that each states; everything below follows, but lines in italics, which are carried.',
    'note',
  )
  const liveOf = (id: string) =>
    typed.flatMap(({ line, input }) => (input !== null && line.elementId === id ? [line.label] : []))
  for (const [i, note] of relayNotes(compiled, liveOf).entries()) writer.text(2 + i, 0, note, 'note')
  for (const [i, head] of INPUT_COLUMNS.entries()) writer.text(inputRow - 1, i, head, 'head')

  let row = inputs.end() + 1
  for (const [i, head] of ['Line', 'Loss', 'Unit', '', '', 'Note'].entries())
    writer.text(row, i, head, 'head')
  row += 1
  const firstLine = row
  for (const { line, term, note } of lines) {
    writer.text(row, 0, line.label)
    if (note === '') writer.formula(row, 1, term)
    else writer.number(row, 1, term.value, 'carried')
    writer.text(row, 2, 'dB', 'unit')
    writer.text(row, 5, note === '' ? (line.note ?? '') : note, 'note')
    row += 1
  }
  const names: CellName[] = []
  const total = (label: string, name: string, unit: string, term: Term, note: string): Term => {
    writer.text(row, 0, label, 'total')
    const cell = writer.formula(row, 1, term, 'total')
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
    { text: `SUM(${address(firstLine, 1)}:${address(row - 1, 1)})`, value: sum },
    'sum of the lines',
  )
  total('Transmitted share', 'efficiency', '', efficiencyTerm(nominalCell), 'ratio of powers, 0 to 1')
  const lossAt = all.map((scenario, i) => {
    const parts = [
      ...joints.map(({ losses }) => losses.whole[i] ?? literal(0)),
      ...typed.map(({ line, input }) => input?.(scenario) ?? literal(line.lossDb(scenario.values))),
    ]
    return parts.length === 0 ? literal(0) : plus(...parts)
  })
  const at = (i: number) => lossAt[i] ?? literal(0)
  const { rss, differing, page } = single.fill(
    nominalCell,
    tolerancedPlaces(compiled).map((_, i) => [at(2 + 2 * i), at(3 + 2 * i)] as const),
  )
  const rssCell = total(
    'RSS',
    'root_sum_square',
    'dB',
    rss,
    `each tolerance alone at its worse end, added as squares; page ${page.name}`,
  )
  const worst = total(
    'Worst case',
    'worst_corner',
    'dB',
    most(at(1), ...(follows ? [at(all.length - 1)] : []), rssCell),
    follows
      ? `all tolerances at their limits: the largest of the corner that the program found, the corner of the worse single ends (page ${page.name}), and RSS. Another combination of signs only the program can search.`
      : `only the program can search the corners of this design again, as tolerances move what has no closed form in cells (${beyond.join(', ')}). Here the signs stay as it found them; never below RSS.`,
  )
  if (follows)
    total(
      'Signs that differ from the program',
      'signs_changed',
      '',
      differing,
      'above 0: the worst case has moved to other signs; have the program search it again',
    )
  const limits = limitRows(writer, row + 1, prefix, project, verdicts, {
    nominal: nominalCell,
    worst,
    rss: rssCell,
  })
  return {
    pages: [writer.page(WIDTHS, 0), page, ...joints.map(({ losses }) => losses.page)],
    names: [...inputs.names(), ...names, ...limits.names],
  }
}
