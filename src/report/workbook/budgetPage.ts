// The live budget of one candidate: inputs, lines, totals and what each tolerance adds, all as formulas on the input cells.

import { type CompiledCandidate, compileCandidate } from '../../analysis/path/compileCandidate'
import type { LineModel } from '../../analysis/path/vector/models'
import type { Evaluation, LineKind } from '../../analysis/results/evaluation'
import type { Project } from '../../model/schema/project'
import { INPUT_COLUMNS, inputTable } from './inputTable'
import { efficiencyTerm } from './jointFormulas'
import { JOINT_PARTS, type JointLosses, jointPage, type LiveJoint } from './jointPage'
import { placeOfNumber, type Scenario, scenarios, tolerancedPlaces } from './liveInputs'
import { address, type CellName, type Page, pageWriter } from './page'
import { literal, minus, most, plus, rootOfSquares, type Term } from './term'

export interface LiveBudget {
  readonly pages: readonly Page[]
  readonly names: readonly CellName[]
}

const WIDTHS = [44, 16, 8, 14, 14, 50, 44] as const
const INPUT_ROW = 4

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

/** The live budget; null where the candidate cannot be computed. */
export function liveBudget(
  project: Project,
  evaluation: Evaluation,
  number: number,
  title: string,
): LiveBudget | null {
  const result = compileCandidate(project, evaluation.candidateId)
  if (!result.ok) return null
  const compiled = result.value
  const all = scenarios(compiled, evaluation.worstCorner.settings)
  const writer = pageWriter(`Budget ${number}`)
  const prefix = `budget${number}`
  const inputs = inputTable(writer, INPUT_ROW, prefix, project, compiled)
  const joints = liveJoints(compiled).map((live, i) => ({
    live,
    losses: jointPage(`Joint ${number}.${i + 1}`, `${title}, joint ${i + 1}`, live, compiled, inputs, all),
  }))
  const typed = (line: LineModel) => {
    const place = placeOfNumber(compiled, line.lossDb)
    return place === null ? null : inputs.quantity(place)
  }
  const jointOf = (line: LineModel) =>
    FORMULA_KINDS.has(line.kind) ? joints.find(({ live }) => live.element.id === line.elementId) : undefined
  const others = compiled.lines
    .filter((line) => jointOf(line) === undefined)
    .map((line) => ({ line, input: typed(line) }))
  const otherTerm = (scenario: Scenario, at: (typeof others)[number]): Term =>
    at.input?.(scenario) ?? literal(at.line.lossDb(scenario.values))
  const nominal = all[0]
  if (nominal === undefined) return null
  const lines = compiled.lines.map((line): LiveLine => {
    const joint = jointOf(line)
    if (joint !== undefined) return jointLine(line, joint.losses)
    const input = others.find((each) => each.line === line)?.input ?? null
    return input === null
      ? { line, term: literal(line.lossDb(compiled.nominal)), note: CARRIED }
      : { line, term: input(nominal), note: '' }
  })

  writer.text(0, 0, title, 'title')
  writer.text(
    1,
    0,
    'Shaded cells may be changed; everything below follows. The worst case keeps the signs found by the search: after a large change other signs may be worse.',
    'note',
  )
  for (const [i, head] of INPUT_COLUMNS.entries()) writer.text(INPUT_ROW - 1, i, head, 'head')

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
  total('What arrives', 'efficiency', '', efficiencyTerm(nominalCell), 'ratio of powers, 0 to 1')
  const lossAt = all.map((scenario, i) => {
    const parts = [
      ...joints.map(({ losses }) => losses.whole[i] ?? literal(0)),
      ...others.map((each) => otherTerm(scenario, each)),
    ]
    return parts.length === 0 ? literal(0) : plus(...parts)
  })
  total('Worst case', 'worst_corner', 'dB', lossAt[1] ?? literal(0), 'all tolerances at their limits')

  const places = tolerancedPlaces(compiled)
  const firstAdded = row + 3
  const added = places.map((place, i) => {
    const ends = [lossAt[2 + 2 * i] ?? literal(0), lossAt[3 + 2 * i] ?? literal(0)] as const
    return { label: compiled.variables[place]?.label ?? '', ends, at: firstAdded + i }
  })
  const addedDb = (ends: readonly [Term, Term]) =>
    most(literal(0), minus(ends[0], nominalCell), minus(ends[1], nominalCell))
  total(
    'RSS',
    'root_sum_square',
    'dB',
    added.length === 0
      ? nominalCell
      : plus(
          nominalCell,
          rootOfSquares(
            `${address(firstAdded, 1)}:${address(firstAdded + added.length - 1, 1)}`,
            added.map(({ ends }) => addedDb(ends).value),
          ),
        ),
    'each tolerance alone at its worse end, added as squares',
  )
  row += 1
  for (const [i, head] of [
    'What each tolerance adds, alone',
    'Added',
    'Unit',
    'At lower end',
    'At upper end',
  ].entries()) {
    writer.text(row, i, head, 'head')
  }
  for (const { label, ends, at } of added) {
    writer.text(at, 0, label)
    writer.formula(at, 1, addedDb(ends))
    writer.text(at, 2, 'dB', 'unit')
    writer.formula(at, 3, ends[0])
    writer.formula(at, 4, ends[1])
  }
  return {
    pages: [writer.page(WIDTHS, 0), ...joints.map(({ losses }) => losses.page)],
    names: [...inputs.names(), ...names],
  }
}
