// The single tolerances of a budget: what each adds alone, and with which sign it enters the worst case. Rows are known before the
// rest is written, so that it can read the signs.

import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import { type Scenario, singleLossDb, tolerancedSlots } from './liveInputs'
import { address, type PageWriter, SIGN_FORMAT } from './page'
import { differenceTerm, type FormulaTerm, literal, most, rootOfSquares, sumTerm, worseEnd } from './term'

const SIGN = 5
const HEADS = [
  'Tolerance, alone',
  'Excess loss',
  'Unit',
  'Loss at lower limit',
  'Loss at upper limit',
  'Sign in the worst case',
  'Sign as exported',
  'Signs differ',
] as const
interface ToleranceRows {
  /** The cells of the signs, by slot of the tolerance. */
  readonly signCells: ReadonlyMap<number, FormulaTerm>
  /**
   * Fills the rows from the nominal loss and the losses at both ends of every tolerance, in the order of the slots. Gives RSS
   * and the number of signs that are no longer those of the app.
   */
  readonly fill: (
    nominal: FormulaTerm,
    ends: readonly (readonly [lower: FormulaTerm, upper: FormulaTerm])[],
  ) => { readonly rss: FormulaTerm; readonly differing: FormulaTerm }
}

/** Rows that the table takes, with its title, note and heading. */
export const toleranceHeight = (compiled: CompiledCandidate): number => 3 + tolerancedSlots(compiled).length

/**
 * The table from `firstRow` on. `corner` is the app's; `follows` is false where cells cannot follow it and the signs stay as the
 * program found them.
 */
export function toleranceRows(
  writer: PageWriter,
  firstRow: number,
  compiled: CompiledCandidate,
  corner: Scenario,
  follows: boolean,
): ToleranceRows {
  const { name } = writer
  const first = firstRow + 3
  const slots = tolerancedSlots(compiled)
  const found = (slot: number): -1 | 1 => corner.signs.get(slot) ?? 1
  const single = (slot: number, sign: -1 | 1) => literal(singleLossDb(compiled, slot, sign))
  const signOf = (slot: number) =>
    follows ? worseEnd(single(slot, -1), single(slot, 1), found(slot)).value : found(slot)
  return {
    signCells: new Map(
      slots.map((slot, i) => [slot, { text: address(first + i, SIGN, name), value: signOf(slot) }]),
    ),
    fill: (nominal, ends) => {
      writer.text(firstRow, 0, 'Tolerances, each alone', 'title')
      writer.text(
        firstRow + 1,
        0,
        follows
          ? 'Every sign follows from the two losses of its row; where both are equal, it is the sign as exported.'
          : 'Signs as exported: cells cannot search for the worst case of this design.',
        'note',
      )
      for (const [i, head] of HEADS.entries())
        writer.text(first - 1, i, head, i === 0 ? 'head' : i === 2 ? 'unitHead' : 'numberHead')
      const rows = slots.map((slot, i) => {
        const row = first + i
        const [lower, upper] = ends[i] ?? [nominal, nominal]
        writer.text(row, 0, compiled.variables[slot]?.label ?? '')
        const added = writer.formula(
          row,
          1,
          most(literal(0), differenceTerm(lower, nominal), differenceTerm(upper, nominal)),
        )
        writer.text(row, 2, 'dB', 'unit')
        const low = writer.formula(row, 3, lower)
        const high = writer.formula(row, 4, upper)
        const own = literal(found(slot))
        const sign = follows
          ? writer.formula(row, SIGN, worseEnd(low, high, found(slot)), 'sign')
          : writer.number(row, SIGN, found(slot), 'carried', SIGN_FORMAT)
        const programs = writer.number(row, SIGN + 1, own.value, 'carried', SIGN_FORMAT)
        // Half the distance of two signs is 1 where they differ.
        const apart = {
          text: `(ABS(${sign.text}-${programs.text})/2)`,
          value: Math.abs(sign.value - own.value) / 2,
        }
        writer.formula(row, SIGN + 2, apart, 'sign')
        return { added, apart }
      })
      const range = (column: number) =>
        `'${name}'!$${address(first, column).replace(/\d/g, '')}$${first + 1}:$${address(0, column).replace(/\d/g, '')}$${first + slots.length}`
      const none = slots.length === 0
      return {
        rss: none
          ? nominal
          : sumTerm(
              nominal,
              rootOfSquares(
                range(1),
                rows.map(({ added }) => added.value),
              ),
            ),
        differing: none
          ? literal(0)
          : { text: `SUM(${range(SIGN + 2)})`, value: rows.reduce((sum, { apart }) => sum + apart.value, 0) },
      }
    },
  }
}
