// The loss limits of the requirements on a budget page: limit, loss, margin and verdict. Verdicts follow the inputs where the loss
// does; a percentile belongs to the app's run and does not.

import type { Verdict } from '../../analysis/results/verdict'
import { requirementLabel } from '../../model/project/statedRequirements'
import { coreValue } from '../../model/quantity/quantity'
import { RULES } from '../../model/quantity/quantityRules'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { address, type CellName, type PageWriter } from './page'
import { differenceTerm, type FormulaTerm } from './term'

/** A verdict that follows the inputs. */
export interface LiveVerdict {
  readonly label: string
  /** Reference to its cell, and the word in it. */
  readonly cell: string
  readonly word: string
}

export interface LiveTotals {
  readonly nominal: FormulaTerm
  readonly worst: FormulaTerm
  readonly rss: FormulaTerm
}

const HEADS = ['Loss limit', 'Limit', 'Unit', 'Loss', 'Margin', 'Verdict', 'Name'] as const

/** Column of the verdict. */
const VERDICT = 5

/** Writes the rows from `row` on; returns the row after them and the names of the limits. */
export function limitRows(
  writer: PageWriter,
  row: number,
  prefix: string,
  { requirements }: Project,
  verdicts: readonly Verdict[],
  totals: LiveTotals,
): { readonly verdicts: readonly LiveVerdict[]; readonly names: readonly CellName[] } {
  for (const [i, head] of HEADS.entries())
    writer.text(
      row,
      i,
      head,
      head === 'Limit' || head === 'Loss' || head === 'Margin' ? 'numberHead' : i === 0 ? 'head' : 'unitHead',
    )
  const { minCore, maxCore } = RULES.loss
  const live: LiveVerdict[] = []
  const names = requirements.losses.flatMap(({ id, basis, limit }, i): readonly CellName[] => {
    const at = row + 1 + i
    const name = `${prefix}_limit_${i + 1}`
    writer.text(at, 0, requirementLabel(requirements, id))
    const limitCell = writer.number(
      at,
      1,
      coreValue(limit, 'loss'),
      basis === 'percentile' ? 'carried' : 'input',
    )
    writer.text(at, 2, 'dB', 'unit')
    const verdict = byId(verdicts, id)
    if (basis === 'percentile') {
      writer.text(at, VERDICT, verdict?.status === undefined ? 'not known' : `${verdict.status}`, 'carried')
      writer.text(at, 3, 'of the run', 'note')
      writer.text(at, 6, `not recalculated here: ${verdict?.reason ?? 'no run'}`, 'note')
      return []
    }
    const lossTerm = { nominal: totals.nominal, 'worst case': totals.worst, RSS: totals.rss }[basis]
    const loss = writer.formula(at, 3, lossTerm)
    writer.formula(at, 4, differenceTerm(limitCell, loss))
    writer.limit(at, 1, {
      from: minCore,
      to: maxCore,
      message: `Loss limit: ${minCore} to ${maxCore} dB`,
    })
    writer.text(at, 6, name, 'note')
    writer.word(
      at,
      VERDICT,
      `IF(${loss.text}<=${limitCell.text},"met","not met")`,
      loss.value <= limitCell.value ? 'met' : 'not met',
      'verdict',
    )
    live.push({
      label: requirementLabel(requirements, id),
      cell: address(at, VERDICT, writer.name),
      word: loss.value <= limitCell.value ? 'met' : 'not met',
    })
    return [{ name, at: limitCell.text }]
  })
  return { verdicts: live, names }
}
