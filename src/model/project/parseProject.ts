// The door for project files: hostile-input check, migration, schema, references. Everything behind it may trust the data.

import type { z } from 'zod'
import { megabytesText } from '../../numerics/numberText'
import { finish, type Steps, within } from '../../numerics/steps'
import { failure, type Issue, type IssueCode, pathText, type Result, success } from '../issue'
import { NO_NUMBER } from '../quantity/quantity'
import { type Project, projectSchema } from '../schema/project'
import { PROJECT_FORMAT, PROJECT_VERSION } from '../words/projectFile'
import { countingSteps, hostileInputIssues, INPUT_LIMITS } from './hostileInput'
import { migrate } from './migrations'
import { ProjectError } from './projectError'
import { PART_LISTS, referenceIssues } from './references'
import { allowedText } from './zodText'

function codeOf(issue: z.core.$ZodIssue, input: unknown): IssueCode {
  if (issue.code === 'too_big' || issue.code === 'too_small' || issue.code === 'custom') return 'range'
  if (issue.code === 'invalid_type' && input === undefined) return 'missing'
  return 'format'
}

function seen(input: unknown): string {
  if (input === undefined) return 'missing'
  if (typeof input === 'number' && !Number.isFinite(input)) return NO_NUMBER
  const text =
    typeof input === 'object' ? (Array.isArray(input) ? 'a list' : 'an object') : JSON.stringify(input)
  return (text ?? String(input)).slice(0, 60)
}

function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) => (typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined),
    root,
  )
}

function issueOf(issue: z.core.$ZodIssue, root: unknown): Issue {
  const path = issue.path.map((step) => (typeof step === 'number' ? step : String(step)))
  const input = valueAt(root, issue.path)
  return {
    path,
    code: codeOf(issue, input),
    message: `${pathText(path) || 'the file'} is ${seen(input)}: ${allowedText(issue)}`,
  }
}

function headIssue(json: unknown): Issue | null {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    return { path: [], code: 'format', message: `the file is ${seen(json)}; it must hold one project object` }
  }
  const { format, version } = json as Record<string, unknown>
  if (format !== PROJECT_FORMAT) {
    return {
      path: ['format'],
      code: 'format',
      message: `format is ${seen(format)}; must be "${PROJECT_FORMAT}"`,
    }
  }
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return {
      path: ['version'],
      code: 'format',
      message: `version is ${seen(version)}; must be 1 to ${PROJECT_VERSION}`,
    }
  }
  if (version > PROJECT_VERSION) {
    return {
      path: ['version'],
      code: 'format',
      message: `version is ${version}, written by a newer release; this one reads 1 to ${PROJECT_VERSION}`,
      fix: 'Open the file with that release, or update this one.',
    }
  }
  return null
}

/** Lists that are checked one after the other, with a pause between them. */
const LISTS = [...PART_LISTS, 'candidates', 'measurements', 'revisions'] as const

type Raw = Readonly<Record<string, unknown>>

/** What the schema says of the project, list by list. */
function* schemaSteps(raw: Raw): Steps<Result<Project>> {
  const present = LISTS.filter((list) => raw[list] !== undefined)
  const frame = projectSchema.safeParse({ ...raw, ...Object.fromEntries(present.map((list) => [list, []])) })
  const faults = frame.success ? [] : frame.error.issues.map((issue) => issueOf(issue, raw))
  const lists: Record<string, unknown> = {}
  for (const [at, list] of present.entries()) {
    yield at / present.length
    const schema: z.ZodType = projectSchema.shape[list]
    const parsed = schema.safeParse(raw[list])
    if (parsed.success) lists[list] = parsed.data
    else
      faults.push(
        ...parsed.error.issues.map((issue) => issueOf({ ...issue, path: [list, ...issue.path] }, raw)),
      )
  }
  return frame.success && faults.length === 0 ? success({ ...frame.data, ...lists }) : failure(...faults)
}

/** Share of the steps that is done once the amount of the data is known to be right. */
const AMOUNT_KNOWN = 0.3

function* readingSteps(json: unknown): Steps<Result<Project>> {
  const head = headIssue(json)
  if (head !== null) return failure(head)
  const hostile = hostileInputIssues(json)
  if (hostile.length > 0) return failure(...hostile)
  yield AMOUNT_KNOWN
  const parsed = yield* within(AMOUNT_KNOWN, 1, schemaSteps(migrate(json as Raw)))
  if (!parsed.ok) return parsed
  const dangling = referenceIssues(parsed.value)
  return dangling.length > 0 ? failure(...dangling) : parsed
}

/** The validated, migrated project, or every fault found. Unknown fields are kept. */
export function readProject(json: unknown): Result<Project> {
  return finish(readingSteps(json))
}

/** Shares of the steps that are done once the values are counted, and once the text is parsed. */
const [COUNTED, PARSED] = [0.3, 0.5]

/** The same, from a file's text; refuses text that is too long or not JSON. In steps. */
export function* textReadingSteps(text: string): Steps<Result<Project>> {
  if (text.length > INPUT_LIMITS.textBytes) {
    const most = INPUT_LIMITS.textBytes / 1e6
    return failure({
      path: [],
      code: 'size',
      message: `the file is ${megabytesText(text.length)}; the limit is ${most} MB`,
    })
  }
  const much = yield* within(0, COUNTED, countingSteps(text))
  if (much !== null) return failure(much)
  yield COUNTED
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    return failure({ path: [], code: 'format', message: `the file is not JSON: ${reason}` })
  }
  text = '' // otherwise the text stays in memory, with the values read from it, until the steps end
  yield PARSED
  return yield* within(PARSED, 1, readingSteps(json))
}

/** The same at once. */
export function readProjectText(text: string): Result<Project> {
  return finish(textReadingSteps(text))
}

/**
 * The validated, migrated project.
 * @throws ProjectError that lists every fault with its path
 */
export function parseProject(json: unknown): Project {
  const result = readProject(json)
  if (!result.ok) throw new ProjectError(result.issues)
  return result.value
}
