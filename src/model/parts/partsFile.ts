// Parts as a file of their own, JSON: the same lists as in a project, checked by the same door.

import { megabytesText } from '../../numerics/numberText'
import { failure, type Issue, type Result, success } from '../issue'
import { emptyProject } from '../project/emptyProject'
import { INPUT_LIMITS } from '../project/hostileInput'
import { readProject } from '../project/parseProject'
import { PART_LISTS, type PartLists } from '../project/references'
import type { Project } from '../schema/project'

const PARTS_FORMAT = 'modeseam-parts'
const PARTS_VERSION = 1

/** The text of a file that holds all parts of the project and nothing else. */
export function partsText(project: Project): string {
  const { fibres, facets, media, converters, lenses } = project
  const file = { format: PARTS_FORMAT, version: PARTS_VERSION, fibres, facets, media, converters, lenses }
  return `${JSON.stringify(file, null, 2)}\n`
}

/** The checked parts of an object that has some of the lists, or every fault with its path. */
export function checkParts(raw: Readonly<Record<string, unknown>>): Result<PartLists> {
  const lists = Object.fromEntries(PART_LISTS.map((list) => [list, raw[list] ?? []]))
  const result = readProject({ ...emptyProject(), ...lists })
  if (!result.ok) return result
  const { fibres, facets, media, converters, lenses } = result.value
  return success({ fibres, facets, media, converters, lenses })
}

/** Says that a text is longer than files are read; null where it is not. */
export function tooLong(text: string): Issue | null {
  if (text.length <= INPUT_LIMITS.textBytes) return null
  return {
    path: [],
    code: 'size',
    message: `the file is ${megabytesText(text.length)}; the limit is ${INPUT_LIMITS.textBytes / 1e6} MB`,
  }
}

/** The parts of a parts file or of a whole project file, or every fault found. */
export function readPartsText(text: string): Result<PartLists> {
  const long = tooLong(text)
  if (long !== null) return failure(long)
  let raw: unknown
  try {
    raw = JSON.parse(text)
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error)
    return failure({ path: [], code: 'format', message: `the file is not JSON: ${reason}` })
  }
  if (typeof raw !== 'object' || raw === null || !PART_LISTS.some((list) => list in raw)) {
    return failure({
      path: [],
      code: 'format',
      message: `the file holds none of the lists ${PART_LISTS.join(', ')}`,
    })
  }
  return checkParts(raw as Readonly<Record<string, unknown>>)
}
