// What the app makes of one damaged project: every answer a screen or a paper could show of it.

import '../support/fitsHere'
import { runArray } from '../../src/analysis/array/runArray'
import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { checkRequirements, runYield, tryEvaluate } from '../../src/analysis/index'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import type { Evaluation } from '../../src/analysis/results/evaluation'
import { allowances } from '../../src/analysis/sizing/allowances'
import { sizedCandidate } from '../../src/analysis/sizing/wholeRow'
import { bestSettings } from '../../src/analysis/tolerance/bestSettings'
import type { Figure } from '../../src/figures/figure'
import { evaluateMeasurement } from '../../src/measure/index'
import { readProjectText } from '../../src/model/project/parseProject'
import { ProjectError } from '../../src/model/project/projectError'
import type { Candidate } from '../../src/model/schema/candidate'
import type { Project } from '../../src/model/schema/project'
import { InputError } from '../../src/numerics/inputError'
import type { Evaluate } from '../../src/report/candidates'
import { measuredEvidence } from '../../src/report/evidence'
import { sheetCsv } from '../../src/report/formats/csv'
import { sheetMarkdown } from '../../src/report/formats/markdown'
import { buildPaper, PAPER_KINDS } from '../../src/report/papers'
import { buildSheet } from '../../src/report/sheet'
import { sheetWorkbook } from '../../src/report/workbook/workbook'
import { askDesignFigures, drawn } from './designFigures'
import type { Dice } from './dice'
import { nonFinitePaths, notANumberIn } from './nonFinite'
import type { Outcome } from './outcome'
import { wordedNumbers } from './worded'

/** Looks at what `work` gives, and at the numbers it words; a refusal by name is an answer too. */
async function answered(name: string, work: () => unknown, faults: string[]): Promise<void> {
  try {
    let result: unknown
    const worded = await wordedNumbers(async () => {
      result = await work()
    })
    for (const path of [...nonFinitePaths(result), ...worded]) faults.push(`${name}${path}`)
  } catch (error) {
    if (error instanceof InputError || error instanceof ProjectError) {
      const wrong = notANumberIn(error.message)
      if (wrong !== null && !(error instanceof InputError))
        faults.push(`${name} refused with ${error.message}`)
    } else
      faults.push(`${name} threw ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`)
  }
}

interface Evaluated {
  readonly candidate: Candidate
  readonly evaluation: Evaluation
}

const DATE = '2026-11-25'
/** Runs take many times as long as everything else together. */
const RUN_SHARE = 0.1
/** A ranking of as many points as the page takes would align a relay some hundred thousand times. */
const FEW_POINTS = { effectPoints: 32, yieldPoints: 64, fewPoints: 32 }

async function depthAnswers(
  project: Project,
  { candidate, evaluation }: Evaluated,
  dice: Dice,
  faults: string[],
): Promise<void> {
  const { id } = candidate
  const ask = (name: string, work: () => unknown) => answered(`${name}(${id})`, work, faults)
  const figures: (readonly [name: string, draw: () => readonly Figure[]])[] = []
  askDesignFigures(project, candidate, evaluation, (name, draw) => figures.push([name, draw]))
  for (const [name, draw] of figures) await ask(name, () => drawn(draw()))
  const compiled = compileCandidate(project, id)
  if (compiled.ok) await ask('best settings', () => bestSettings(compiled.value))
  const sized = sizedCandidate(project, id)
  if (sized.ok) {
    await ask('allowances', () => allowances(sized.value, 3, { criterion: 'worst case', share: 0.99 }))
  }
  const request = { project, candidate, evaluation, date: DATE }
  for (const kind of PAPER_KINDS) await ask(kind, () => sheetMarkdown(buildPaper(kind, request)))
  if (!dice.chance(RUN_SHARE)) return
  await ask('yield', () => runYield(project, id, { samples: 64, rankingPoints: FEW_POINTS }))
  await ask('array', () => runArray(project, id, { samples: 4 }))
  await ask('workbook', () => sheetWorkbook(buildSheet({ project, date: DATE }), project))
}

/** Evaluates each design of the project once, as the page does. */
function remembering(own: Project): Evaluate {
  const results = new Map<string, ReturnType<Evaluate>>()
  return (project, id) => {
    const known = project === own ? results.get(id) : undefined
    const result = known ?? tryEvaluate(project, id)
    if (project === own) results.set(id, result)
    return result
  }
}

/** `text` is a project file. All its designs are evaluated; one, chosen at random, is examined in depth. */
export async function projectTrial(text: string, dice: Dice): Promise<Outcome> {
  const read = readProjectText(text)
  if (!read.ok) {
    const unnamed = read.issues.find((issue) => issue.message.trim() === '' || notANumberIn(issue.message))
    if (unnamed !== undefined) return { kind: 'fault', faults: [`refused with "${unnamed.message}"`] }
    return { kind: 'refused' }
  }
  const project = read.value
  const faults: string[] = []
  const again = readProjectText(JSON.stringify(project))
  if (!again.ok) faults.push(`does not read back: ${again.issues[0]?.message}`)
  const evaluated: Evaluated[] = []
  const evaluate = remembering(project)
  for (const candidate of project.candidates) {
    await answered(
      `evaluation(${candidate.id})`,
      () => {
        const result = evaluate(project, candidate.id)
        if (!result.ok) return result.issues
        evaluated.push({ candidate, evaluation: result.value })
        return [result.value, checkRequirements(project, result.value, null, null)]
      },
      faults,
    )
  }
  if (evaluated.length > 0) await depthAnswers(project, dice.pick(evaluated), dice, faults)
  await answered('comparison', () => compareCandidates(project, evaluate), faults)
  for (const measurement of project.measurements) {
    await answered(`measurement(${measurement.id})`, () => evaluateMeasurement(measurement), faults)
  }
  await answered(
    'sheet',
    () => {
      const evidence = measuredEvidence(project.measurements)
      const sheet = buildSheet({ project, date: DATE, evidence, evaluate })
      return [sheet, sheetMarkdown(sheet), sheetCsv(sheet)]
    },
    faults,
  )
  return faults.length === 0 ? { kind: 'finite' } : { kind: 'fault', faults }
}
