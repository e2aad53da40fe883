// The input cells of a live budget, with their names: what a reviewer may change.

import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import type { Variable } from '../../analysis/results/evaluation'
import type { Quantity } from '../../model/quantity/quantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import { RULES } from '../../model/quantity/quantityRules'
import { spreadEnds } from '../../model/quantity/spread'
import { unitLabel } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'
import { rounded } from '../../numerics/numberText'
import { flipped, type Read, type Scenario, unitSizeOf } from './liveInputs'
import type { CellLimits, CellName, PageWriter } from './page'
import { bySign, differenceTerm, type FormulaTerm, literal, productTerm, sumTerm } from './term'

/** What a formula reads of an input, in the core's unit, at a scenario. */
export type InputTerm = (scenario: Scenario) => FormulaTerm

/** Least and greatest number allowed, in the unit of the cell. */
export type Range = readonly [from: number, to: number]

export interface InputTable {
  /** A quantity of the chain, by its slot. */
  readonly quantity: (slot: number) => InputTerm
  /** A number that the app computes and a reviewer may overtype; it keeps its ratio to nominal at every scenario. */
  readonly computed: (label: string, unit: string, read: Read, range: Range) => InputTerm
  /** A number that is shown and not to be overwritten, and why. */
  readonly shown: (label: string, unit: string, read: Read, why: string) => InputTerm
  /** The row after the last. */
  readonly end: () => number
  readonly names: () => readonly CellName[]
}

export const INPUT_COLUMNS = [
  'Input',
  'Value',
  'Unit',
  'Lower limit −',
  'Upper limit +',
  'Source',
  'Name',
] as const

/** The cells of a quantity that several designs read, on the page that compares them. */
export interface SharedCells {
  readonly value: FormulaTerm
  readonly below: FormulaTerm | null
  readonly above: FormulaTerm | null
}

/** The shared cells of a quantity; null where only one design has it. */
export type SharedInput = (variable: Variable, quantity: Quantity | undefined) => SharedCells | null

const LONGEST_NAME = 60

/** A name that no program takes for a cell: lower case, led by the budget's own prefix. */
export function cellName(prefix: string, label: string, taken: ReadonlySet<string>): string {
  const stem = `${prefix}_${label.toLowerCase().replace(/[^a-z0-9]+/g, '_')}`.slice(0, LONGEST_NAME)
  for (let i = 1; ; i++) {
    const name = i === 1 ? stem : `${stem}_${i}`
    if (!taken.has(name)) return name
  }
}

export const cellLimits = (label: string, unit: string, [from, to]: Range): CellLimits => {
  const [low, high] = [from, to].map((each) => rounded(each, 9)) as [number, number]
  return { from: low, to: high, message: `${label}: ${low} to ${high} ${unit}`.trim() }
}

/** A read of the chain at a scenario, as a multiple of the cell that holds its nominal value. */
function scaledRead(compiled: CompiledCandidate, read: Read, cell: FormulaTerm): InputTerm {
  const moved = (term: FormulaTerm, from: number, to: number): FormulaTerm =>
    from === to ? term : from === 0 ? sumTerm(term, literal(to)) : productTerm(term, literal(to / from))
  return (scenario) => {
    const value = read(scenario.values)
    const flips = Array.from(scenario.signCells ?? []).flatMap(([slot, sign]) => {
      const other = read(flipped(compiled, scenario, slot))
      return other === value ? [] : [{ sign, other, up: scenario.signs.get(slot) === 1 }]
    })
    // Exact at the signs of the scenario and with one of them turned; with several, each turns the number by its own share.
    return flips.reduce(
      (term, { sign, other, up }) => {
        const [own, turned] =
          value === 0 ? [literal(0), literal(other)] : [literal(1), literal(other / value)]
        const share = up ? bySign(sign, own, turned) : bySign(sign, turned, own)
        return value === 0 ? sumTerm(term, share) : productTerm(term, share)
      },
      moved(cell, read(compiled.nominal), value),
    )
  }
}

const scaled = (term: FormulaTerm, factor: number) =>
  factor === 1 ? term : productTerm(term, literal(factor))

/** Adds inputs to a page from `firstRow` on as they are requested, each once. */
export function inputTable(
  writer: PageWriter,
  firstRow: number,
  prefix: string,
  project: Project,
  compiled: CompiledCandidate,
  shared: SharedInput = () => null,
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
    value: number | FormulaTerm,
    unit: string,
    from: string,
    style: 'input' | 'computed' | 'carried' = 'input',
  ): FormulaTerm => {
    const taken = new Set(names.map(({ name }) => name))
    const name = cellName(prefix, label, taken)
    writer.text(row, 0, label)
    const cell =
      typeof value === 'number'
        ? writer.number(row, 1, value, style)
        : writer.formula(row, 1, value, 'linked')
    writer.text(row, 2, unit, 'unit')
    writer.text(row, 5, from, 'unit')
    if (style === 'carried') return cell
    writer.text(row, 6, name, 'note')
    names.push({ name, at: cell.text })
    return cell
  }
  const ofQuantity = (slot: number): InputTerm => {
    const variable = compiled.variables[slot]
    if (variable === undefined) throw new Error(`no quantity at ${slot}`)
    const quantity = quantityAt(project, variable.path)
    const factor = unitSizeOf(variable)
    const value = quantity?.value ?? variable.nominal / factor
    const common = shared(variable, quantity)
    const cell = start(
      variable.label,
      common?.value ?? value,
      unitLabel(variable.unit),
      common === null ? (quantity?.provenance ?? '') : `${quantity?.provenance ?? ''}; set on What if`,
    )
    const { minCore, maxCore } = RULES[variable.rule]
    const unit = unitLabel(variable.unit)
    writer.limit(row, 1, cellLimits(variable.label, unit, [minCore / factor, maxCore / factor]))
    const [low, high] = spreadEnds(variable.spread)
    const toleranced = variable.spread.halfWidth > 0
    const width = (column: number, own: number, from: FormulaTerm | null | undefined) =>
      from ? writer.formula(row, column, from, 'linked') : writer.number(row, column, own)
    const below = toleranced ? width(3, 0 - low / factor, common?.below) : null
    const above = toleranced ? width(4, high / factor, common?.above) : null
    if (toleranced) {
      const widest = (maxCore - minCore) / factor
      writer.limit(row, 3, cellLimits(`${variable.label}, lower limit −`, unit, [0, widest]))
      writer.limit(row, 4, cellLimits(`${variable.label}, upper limit +`, unit, [0, widest]))
    }
    row += 1
    return ({ signs, signCells }) => {
      const chosen = signCells?.get(slot)
      if (chosen !== undefined && below !== null && above !== null)
        return scaled(sumTerm(cell, bySign(chosen, above, differenceTerm(literal(0), below))), factor)
      const sign = signs.get(slot)
      const moved =
        sign === -1 && below !== null
          ? differenceTerm(cell, below)
          : sign === 1 && above !== null
            ? sumTerm(cell, above)
            : cell
      return scaled(moved, factor)
    }
  }
  return {
    quantity: (slot) => once(`quantity ${slot}`, () => ofQuantity(slot)),
    computed: (label, unit, read, range) =>
      once(`computed ${label}`, () => {
        const from = 'computed value; may be overwritten'
        const cell = start(label, read(compiled.nominal), unit, from, 'computed')
        writer.limit(row, 1, cellLimits(label, unit, range))
        row += 1
        return scaledRead(compiled, read, cell)
      }),
    shown: (label, unit, read, why) =>
      once(`shown ${label}`, () => {
        const cell = start(label, read(compiled.nominal), unit, why, 'carried')
        row += 1
        return scaledRead(compiled, read, cell)
      }),
    end: () => row,
    names: () => names,
  }
}
