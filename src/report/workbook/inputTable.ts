// The input cells of a live budget, with their names: what a reviewer may change.

import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import { quantityAt } from '../../model/quantity/quantityAt'
import { spreadEnds } from '../../model/quantity/spread'
import { unitLabel } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'
import { factorOf, type Read, type Scenario } from './liveInputs'
import type { CellName, PageWriter } from './page'
import { literal, minus, plus, type Term, times } from './term'

/** What a formula reads of an input, in the core's unit, at a scenario. */
export type InputTerm = (scenario: Scenario) => Term

export interface InputTable {
  /** A quantity of the chain, by its place. */
  readonly quantity: (place: number) => InputTerm
  /** A number that the program computes and a reviewer may overtype; it keeps its ratio to nominal at every scenario. */
  readonly computed: (label: string, unit: string, read: Read) => InputTerm
  /** The row after the last. */
  readonly end: () => number
  readonly names: () => readonly CellName[]
}

export const INPUT_COLUMNS = ['Input', 'Value', 'Unit', 'Lower end −', 'Upper end +', 'From', 'Name'] as const

const LONGEST_NAME = 60

/** A name that no program takes for a cell: lower case, led by the budget's own prefix. */
function nameOf(prefix: string, label: string, taken: ReadonlySet<string>): string {
  const stem = `${prefix}_${label.toLowerCase().replace(/[^a-z0-9]+/g, '_')}`.slice(0, LONGEST_NAME)
  for (let i = 1; ; i++) {
    const name = i === 1 ? stem : `${stem}_${i}`
    if (!taken.has(name)) return name
  }
}

const scaled = (term: Term, factor: number) => (factor === 1 ? term : times(term, literal(factor)))

/** Adds inputs to a page from `firstRow` on as they are asked for, each once. */
export function inputTable(
  writer: PageWriter,
  firstRow: number,
  prefix: string,
  project: Project,
  compiled: CompiledCandidate,
): InputTable {
  let row = firstRow
  const known = new Map<string, InputTerm>()
  const names: CellName[] = []
  const once = (key: string, make: () => InputTerm): InputTerm => {
    const found = known.get(key) ?? make()
    known.set(key, found)
    return found
  }
  const start = (
    label: string,
    value: number,
    unit: string,
    from: string,
    style: 'input' | 'computed' = 'input',
  ): Term => {
    const taken = new Set(names.map(({ name }) => name))
    const name = nameOf(prefix, label, taken)
    writer.text(row, 0, label)
    const cell = writer.number(row, 1, value, style)
    writer.text(row, 2, unit, 'unit')
    writer.text(row, 5, from, 'unit')
    writer.text(row, 6, name, 'note')
    names.push({ name, at: cell.text })
    return cell
  }
  const ofQuantity = (place: number): InputTerm => {
    const variable = compiled.variables[place]
    if (variable === undefined) throw new Error(`no quantity at ${place}`)
    const quantity = quantityAt(project, variable.path)
    const factor = factorOf(variable)
    const value = quantity?.value ?? variable.nominal / factor
    const cell = start(variable.label, value, unitLabel(variable.unit), quantity?.provenance ?? '')
    const [low, high] = spreadEnds(variable.spread)
    const toleranced = variable.spread.halfWidth > 0
    const below = toleranced ? writer.number(row, 3, 0 - low / factor) : null
    const above = toleranced ? writer.number(row, 4, high / factor) : null
    row += 1
    return ({ signs }) => {
      const sign = signs.get(place)
      const moved =
        sign === -1 && below !== null
          ? minus(cell, below)
          : sign === 1 && above !== null
            ? plus(cell, above)
            : cell
      return scaled(moved, factor)
    }
  }
  return {
    quantity: (place) => once(`quantity ${place}`, () => ofQuantity(place)),
    computed: (label, unit, read) =>
      once(`computed ${label}`, () => {
        const nominal = read(compiled.nominal)
        const from = 'computed by the program; overtype to try another'
        const cell = start(label, nominal, unit, from, 'computed')
        row += 1
        return ({ values }) => {
          const value = read(values)
          if (value === nominal) return cell
          return nominal === 0 ? plus(cell, literal(value)) : times(cell, literal(value / nominal))
        }
      }),
    end: () => row,
    names: () => names,
  }
}
