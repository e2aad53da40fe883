// Candidates side by side.

import type { Result } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { fixedText } from '../../numerics/numberText'
import type { ArrayResult } from '../array/runArray'
import type { Evaluation } from '../results/evaluation'
import { statusText, type VerdictStatus } from '../results/verdict'
import { checkRequirements } from '../verdicts/checkRequirements'
import { musts } from '../verdicts/verdictGroups'
import type { YieldResult } from '../yield/yieldResult'
import { candidateFacts } from './candidateFacts'
import type { Comparison, ComparisonCell, ComparisonRow } from './comparison'
import { NONE, type RowSpec, rowSpecs, type Subject } from './comparisonRows'

const EMPTY: ComparisonCell = { value: null, text: '' }

function cellOf(spec: RowSpec, subject: Subject | null): ComparisonCell {
  if (subject === null) return EMPTY
  const read = spec.read(subject)
  if (read === null) return NONE
  if (typeof read === 'string') return { value: null, text: read }
  return typeof read === 'number' ? { value: read, text: fixedText(read, spec.digits) } : read
}

function rowOf(spec: RowSpec, subjects: readonly (Subject | null)[]): ComparisonRow {
  const { read: _, ...row } = spec
  return { ...row, cells: subjects.map((subject) => cellOf(spec, subject)) }
}

function verdictRows(subjects: readonly (Subject | null)[]): readonly ComparisonRow[] {
  const labels = new Map<string, string>()
  for (const subject of subjects) for (const { id, label } of subject?.verdicts ?? []) labels.set(id, label)
  return Array.from(labels, ([id, label]) => ({
    id: `verdict-${id}`,
    group: 'Requirements',
    label,
    unit: '',
    digits: 0,
    better: null,
    cells: subjects.map((subject) => {
      const found = byId(subject?.verdicts, id)
      return found === undefined
        ? EMPTY
        : {
            value: null,
            text: statusText(found.status),
            status: found.status,
            reason: found.reason,
            verdict: found,
          }
    }),
  }))
}

/**
 * The comparison of the candidates in the order of the project. `evaluate` returns the evaluation of each, so that a
 * caller may cache it; `runs` and `arrays` are the yield and array runs that still hold, by candidate.
 */
export function compareCandidates(
  project: Project,
  evaluate: (project: Project, candidateId: string) => Result<Evaluation>,
  runs: ReadonlyMap<string, YieldResult> = new Map(),
  arrays: ReadonlyMap<string, ArrayResult> = new Map(),
): Comparison {
  const results = project.candidates.map((candidate) => ({
    candidate,
    result: evaluate(project, candidate.id),
  }))
  const subjects = results.map(({ candidate, result }): Subject | null => {
    if (!result.ok) return null
    const run = runs.get(candidate.id) ?? null
    const array = arrays.get(candidate.id) ?? null
    const evaluation = result.value
    return {
      candidate,
      evaluation,
      facts: candidateFacts(project, candidate),
      project,
      run,
      array,
      verdicts: checkRequirements(project, evaluation, run, array),
    }
  })
  const count = (subject: Subject | null | undefined, status: VerdictStatus) =>
    musts(subject?.verdicts ?? []).filter((each) => each.status === status).length
  return {
    columns: results.map(({ candidate, result }, i) => ({
      candidateId: candidate.id,
      name: candidate.name,
      issues: result.ok ? [] : result.issues,
      met: count(subjects[i], 'met'),
      notMet: count(subjects[i], 'not met'),
      notKnown: count(subjects[i], 'not known'),
    })),
    rows: [...verdictRows(subjects), ...rowSpecs(project).map((spec) => rowOf(spec, subjects))],
  }
}
