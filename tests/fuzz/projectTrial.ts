// What the program makes of one damaged project: every answer a screen or a paper could show of it.

import '../support/fitsHere'
import { runArray } from '../../src/analysis/array/runArray'
import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { checkRequirements, runYield, tryEvaluate } from '../../src/analysis/index'
import { faceAngleCurve } from '../../src/analysis/light/faceAngleCurve'
import { rippleCurve } from '../../src/analysis/light/rippleCurve'
import { spectrum } from '../../src/analysis/light/spectrum'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import type { Evaluation } from '../../src/analysis/results/evaluation'
import { allowances } from '../../src/analysis/sizing/allowances'
import { sizedCandidate } from '../../src/analysis/sizing/wholeRow'
import { temperatureSweep } from '../../src/analysis/temperature/temperatureSweep'
import { bestSettings } from '../../src/analysis/tolerance/bestSettings'
import { lossCurve, toleranceWindows } from '../../src/analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../src/analysis/tolerance/toleranceMap'
import { evaluateMeasurement } from '../../src/measure/index'
import { readProjectText } from '../../src/model/project/parseProject'
import { ProjectError } from '../../src/model/project/projectError'
import type { Project } from '../../src/model/schema/project'
import { InputError } from '../../src/numerics/inputError'
import { sheetCsv } from '../../src/report/formats/csv'
import { sheetMarkdown } from '../../src/report/formats/markdown'
import { buildSheet } from '../../src/report/sheet'
import type { Dice } from './dice'
import { nonFinitePaths, notANumberIn } from './nonFinite'
import type { Outcome } from './outcome'

/** Looks at what `work` gives; a refusal by name is an answer too. */
function answered(name: string, work: () => unknown, faults: string[]): void {
  try {
    for (const path of nonFinitePaths(work())) faults.push(`${name}${path}`)
  } catch (error) {
    if (error instanceof InputError || error instanceof ProjectError) {
      const wrong = notANumberIn(error.message)
      if (wrong !== null && !(error instanceof InputError))
        faults.push(`${name} refused with ${error.message}`)
    } else
      faults.push(`${name} threw ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`)
  }
}

/** Runs take many times as long as all else together. */
const RUN_SHARE = 0.1
/** A ranking of as many points as the page takes would align a relay some hundred thousand times. */
const FEW_POINTS = { effectPoints: 32, yieldPoints: 64, fewPoints: 32 }

function depthAnswers(
  project: Project,
  id: string,
  evaluation: Evaluation,
  dice: Dice,
  faults: string[],
): void {
  const ask = (name: string, work: () => unknown) => answered(`${name}(${id})`, work, faults)
  ask('spectrum', () => spectrum(project, id, undefined, 21))
  ask('temperature', () => temperatureSweep(project, id))
  for (const ripple of evaluation.ripples) ask('ripple', () => rippleCurve(project, id, ripple))
  for (const view of evaluation.joints) {
    ask('face angle', () => faceAngleCurve(project, evaluation, view))
    ask('windows', () => toleranceWindows(view.joint))
    ask('curve', () => {
      const [from, to] = axisRange(view.joint, 'offsetXUm')
      return lossCurve(view.joint, 'offsetXUm', from, to, 11)
    })
    ask('map', () => toleranceMap(view.joint, 'offsetXUm', 'gapUm', 9))
  }
  const compiled = compileCandidate(project, id)
  if (compiled.ok) {
    ask('best settings', () => bestSettings(compiled.value))
  }
  const sized = sizedCandidate(project, id)
  if (sized.ok) {
    ask('allowances', () => allowances(sized.value, 3, { criterion: 'worst case', share: 0.99 }))
  }
  if (!dice.chance(RUN_SHARE)) return
  ask('yield', () => runYield(project, id, { samples: 64, rankingPoints: FEW_POINTS }))
  ask('array', () => runArray(project, id, { samples: 4 }))
}

/** `text` is a project file. All its designs are evaluated; one, drawn by chance, is looked at in depth. */
export function projectTrial(text: string, dice: Dice): Outcome {
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
  for (const { id } of project.candidates) {
    answered(
      `evaluation(${id})`,
      () => {
        const result = tryEvaluate(project, id)
        return result.ok
          ? [result.value, checkRequirements(project, result.value, null, null)]
          : result.issues
      },
      faults,
    )
  }
  const evaluated = project.candidates.flatMap(({ id }) => {
    const result = tryEvaluate(project, id)
    return result.ok ? [{ id, evaluation: result.value }] : []
  })
  if (evaluated.length > 0) {
    const { id, evaluation } = dice.pick(evaluated)
    depthAnswers(project, id, evaluation, dice, faults)
  }
  answered('comparison', () => compareCandidates(project, tryEvaluate), faults)
  for (const measurement of project.measurements) {
    answered(`measurement(${measurement.id})`, () => evaluateMeasurement(measurement), faults)
  }
  answered(
    'sheet',
    () => {
      const sheet = buildSheet({ project, date: '2026-11-25' })
      return [sheetMarkdown(sheet), sheetCsv(sheet)]
    },
    faults,
  )
  return faults.length === 0 ? { kind: 'finite' } : { kind: 'fault', faults }
}
