// What decides, on one page, as plain data: the first page of the document, of the workbook and of the JSON file read it.

import type { VerdictStatus } from '../../analysis/index'
import type { NeededRun } from '../../analysis/results/verdict'
import { leadingLoss } from '../../model/project/lossCriteria'
import { coreValue } from '../../model/quantity/quantity'
import { REVIEW_DEFAULTS } from '../../model/words/review'
import { type StatusCounts, statusCounts } from '../sections/verdictWords'
import type { SheetContext } from '../sheet'
import { type Alternative, alternatives } from './alternatives'
import { type LossFigure, lossFigures, type YieldFigure, yieldFigures } from './lossFigures'
import { type MissingRun, missingRuns } from './missingRuns'
import { type Risk, risks } from './risks'
import { type WindowFigure, windowFigures } from './windowFigures'

export interface Decision {
  readonly designId: string
  readonly name: string
  /** True where the user has selected the design; otherwise it is proposed from the numbers. */
  readonly byEngineer: boolean
  /** The engineer's own words; empty where none are given. */
  readonly reason: string
  readonly channels: number
  readonly pitchUm: number
  /** Requirements that decide, by verdict; wishes are not counted. */
  readonly counts: StatusCounts
}

/** A requirement and how the selected design answers it. */
interface SummaryVerdict {
  readonly id: string
  readonly label: string
  readonly status: VerdictStatus
  readonly wish: boolean
  /** What was found and what is asked, in a few characters; empty where no number says it. */
  readonly found: string
  readonly limit: string
  readonly reason: string
  readonly needs: NeededRun | null
}

interface BudgetStep {
  readonly id: string
  readonly label: string
  readonly lossDb: number
}

/** Everything that the first page says. Losses in dB, yields as shares of 1, windows in the unit of each row. */
export interface Summary {
  readonly decision: Decision
  readonly limitDb: number
  readonly verdicts: readonly SummaryVerdict[]
  readonly losses: readonly LossFigure[]
  readonly yields: readonly YieldFigure[]
  /** The budget's contributions along the path; they add up to the nominal loss. */
  readonly steps: readonly BudgetStep[]
  readonly windows: readonly WindowFigure[]
  readonly risks: readonly Risk[]
  readonly alternatives: readonly Alternative[]
  /** Runs that would answer what is not evaluated, of every design. */
  readonly missing: readonly MissingRun[]
  /** Roles that sign. */
  readonly roles: readonly string[]
}

/** What the summary is made from. */
type Ground = Omit<SheetContext, 'summary'>

function decisionOf({ project, choice }: Ground): Decision | null {
  if (choice === null) return null
  const { id, name, verdicts } = choice.candidate
  return {
    designId: id,
    name,
    byEngineer: choice.byEngineer,
    reason: choice.byEngineer ? (project.review?.reason ?? '') : '',
    channels: project.requirements.channels,
    pitchUm: coreValue(project.requirements.pitch, 'pitch'),
    counts: statusCounts(verdicts),
  }
}

/** The summary of the selected or proposed design; null where no design can be evaluated. */
export function summaryOf(context: Ground): Summary | null {
  const decision = decisionOf(context)
  const { project, choice } = context
  if (decision === null || choice === null) return null
  const { candidate } = choice
  return {
    decision,
    limitDb: coreValue(leadingLoss(project.requirements).limit, 'loss'),
    verdicts: candidate.verdicts.map(
      ({ id, label, status, wish, value = '', limit = '', reason, needs = null }) => ({
        id,
        label,
        status,
        wish: wish === true,
        found: value,
        limit,
        reason,
        needs,
      }),
    ),
    losses: lossFigures(project, candidate),
    yields: yieldFigures(project, candidate),
    steps: candidate.lines.map(({ id, label, lossDb }) => ({ id, label, lossDb })),
    windows: windowFigures(project, candidate),
    risks: risks(candidate),
    alternatives: alternatives(context, candidate),
    missing: missingRuns(project, context.candidates, candidate.id),
    roles: project.review?.roles ?? REVIEW_DEFAULTS.roles,
  }
}
