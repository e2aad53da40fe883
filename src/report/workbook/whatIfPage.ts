// The page that compares designs live: inputs that several designs share, set once, and every design next to its value when exported.

import type { Variable } from '../../analysis/results/evaluation'
import type { Quantity } from '../../model/quantity/quantity'
import { RULES } from '../../model/quantity/quantityRules'
import { spreadEnds } from '../../model/quantity/spread'
import { unitLabel } from '../../model/quantity/units'
import type { LiveBudget } from './budgetPage'
import { cellLimits, cellName, type SharedCells, type SharedInput } from './inputTable'
import { unitSizeOf } from './liveInputs'
import { type CellName, type PageWriter, pageWriter, type WorkbookPage } from './page'
import { differenceTerm } from './term'

const WHAT_IF = 'What if'

const WIDTHS = [40, 13, 13, 13, 13, 13, 13, 13, 13, 13, 24, 40] as const
/** Notes on a design, and the names of shared inputs. */
const NOTE = 11
const HEADS = ['Nominal', 'RSS', 'Worst case'] as const

/** Rows above the shared inputs, for so many designs. */
const inputsFrom = (designs: number) => designs + 7

interface WhatIf {
  readonly shared: SharedInput
  /** The page, once the designs are written. */
  readonly page: (budgets: readonly LiveBudget[]) => WorkbookPage
  readonly names: () => readonly CellName[]
}

/** Writes a quantity that several designs read; the budgets then follow its cells. */
function sharedRow(
  writer: PageWriter,
  row: number,
  variable: Variable,
  quantity: Quantity | undefined,
): SharedCells {
  const factor = unitSizeOf(variable)
  const unit = unitLabel(variable.unit)
  const { minCore, maxCore } = RULES[variable.rule]
  writer.text(row, 0, variable.label)
  const value = writer.number(row, 1, quantity?.value ?? variable.nominal / factor)
  writer.limit(row, 1, cellLimits(variable.label, unit, [minCore / factor, maxCore / factor]))
  writer.text(row, 2, unit, 'unit')
  writer.text(row, 5, quantity?.provenance ?? '', 'unit')
  if (!(variable.spread.halfWidth > 0)) return { value, below: null, above: null }
  const [low, high] = spreadEnds(variable.spread)
  const width = (column: number, name: string, size: number) => {
    writer.limit(
      row,
      column,
      cellLimits(`${variable.label}, ${name}`, unit, [0, (maxCore - minCore) / factor]),
    )
    return writer.number(row, column, size)
  }
  return {
    value,
    below: width(3, 'lower limit −', 0 - low / factor),
    above: width(4, 'upper limit +', high / factor),
  }
}

function designRow(writer: PageWriter, row: number, { title, totals, verdicts, carried }: LiveBudget): void {
  writer.text(row, 0, title)
  for (const [i, total] of [totals.nominal, totals.rss, totals.worst].entries()) {
    const now = writer.formula(row, 1 + 3 * i, total, 'total')
    const exported = writer.number(row, 2 + 3 * i, total.value, 'carried')
    writer.formula(row, 3 + 3 * i, differenceTerm(now, exported))
  }
  if (carried > 0)
    writer.text(
      row,
      NOTE,
      `${carried} lines are fixed values and do not follow the inputs: change them in the app`,
      'note',
    )
  const [first] = verdicts
  if (first === undefined) writer.text(row, 10, 'needs a run', 'carried')
  else writer.word(row, 10, first.cell, first.word, 'verdict')
}

/** `count` designs; `isShared` says which quantities of the path more than one of them reads. */
export function whatIf(count: number, isShared: (variable: Variable) => boolean): WhatIf {
  const writer = pageWriter(WHAT_IF)
  const known = new Map<string, SharedCells>()
  const names: CellName[] = []
  const first = inputsFrom(count)
  return {
    shared: (variable, quantity) => {
      if (!isShared(variable)) return null
      const key = variable.path.join('/')
      const found = known.get(key)
      if (found !== undefined) return found
      const row = first + known.size
      const cells = sharedRow(writer, row, variable, quantity)
      const name = cellName('what_if', variable.label, new Set(names.map((each) => each.name)))
      writer.text(row, NOTE, name, 'note')
      names.push({ name, at: cells.value.text })
      known.set(key, cells)
      return cells
    },
    names: () => names,
    page: (budgets) => {
      writer.text(0, 0, 'What if: designs side by side', 'title')
      writer.text(
        1,
        0,
        'All numbers follow the inputs. Inputs that several designs share are below; those of a single design are on its own page. “Exported” is the value computed by the app. Losses are in dB; the verdict refers to the first loss limit that the cells can recalculate.',
        'note',
      )
      writer.text(3, 0, 'Design', 'head')
      for (const [i, head] of HEADS.entries()) {
        writer.text(3, 1 + 3 * i, `${head} now`, 'numberHead')
        writer.text(3, 2 + 3 * i, 'Exported', 'numberHead')
        writer.text(3, 3 + 3 * i, 'Change', 'numberHead')
      }
      writer.text(3, 10, budgets[0]?.verdicts[0]?.label ?? 'Verdict', 'unitHead')
      for (const [i, budget] of budgets.entries()) designRow(writer, 4 + i, budget)
      if (known.size > 0)
        for (const [i, head] of [
          'Shared input',
          'Value',
          'Unit',
          'Lower limit −',
          'Upper limit +',
          'Source',
        ].entries())
          writer.text(
            first - 1,
            i,
            head,
            i === 0 ? 'head' : [1, 3, 4].includes(i) ? 'numberHead' : 'unitHead',
          )
      return {
        ...writer.page(WIDTHS, 4, 1),
        spans: [[1, 0, WIDTHS.length - 1]],
        print: { orientation: 'landscape', pages: 1 },
      }
    },
  }
}
