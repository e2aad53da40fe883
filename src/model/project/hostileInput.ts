// A first look at data from outside, before any schema reads it: amount, depth, and keys that could reach an object's
// prototype. A text is counted before it is parsed, so that a file of thirty million zeros takes no memory. Iterative, so that
// deep nesting cannot exhaust the stack; a path is put together only for what is wrong.

import { countText, megabytesText } from '../../numerics/numberText'
import type { Steps } from '../../numerics/steps'
import type { Issue, Path } from '../issue'
import { pathText } from '../issue'
import { LIMITS, READING_LIMITS } from '../words/limits'

export const INPUT_LIMITS = LIMITS.file

const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

const tooMany: Issue = {
  path: [],
  code: 'size',
  message: `the file holds more than ${INPUT_LIMITS.nodes} values, the limit for a project`,
}

const tooMuchText = (message: string): Issue => ({ path: [], code: 'size', message })
const { plainBytes, packedKey } = INPUT_LIMITS
/** No text is longer than the readings of one column or image. */
const textCharacters = READING_LIMITS.packedCharacters
const tooLongText = (characters: number) =>
  tooMuchText(
    `the file holds a text of ${countText(characters)} characters; the limit is ${countText(textCharacters)}`,
  )
const tooPlain = tooMuchText(
  `without readings and sampled fields, the file is larger than ${megabytesText(plainBytes)}, the limit for a project`,
)

/** A list or an object of the data, and how it was reached. */
interface Location {
  readonly value: object
  readonly key: string | number
  readonly above: Location | null
  readonly depth: number
}

function pathTo(location: Location | null): Path {
  const path: (string | number)[] = []
  for (let at = location; at !== null && at.above !== null; at = at.above) path.push(at.key)
  return path.reverse()
}

function tooDeep(location: Location): Issue {
  const path = pathTo(location).slice(0, 4)
  return {
    path,
    code: 'size',
    message: `${pathText(path)}… is nested deeper than ${INPUT_LIMITS.depth} levels; a typical project has about 10`,
  }
}

function reserved(location: Location, key: string): Issue {
  const path = [...pathTo(location), key]
  return {
    path,
    code: 'format',
    message: `${pathText(path)} uses the reserved key ${key}, which is not the name of any project field`,
  }
}

/** Every reason to refuse the data outright; an empty list lets the schema go on. */
export function hostileInputIssues(root: unknown): readonly Issue[] {
  if (typeof root !== 'object' || root === null) return []
  const issues: Issue[] = []
  const waiting: Location[] = [{ value: root, key: '', above: null, depth: 0 }]
  let count = 0
  for (let location = waiting.pop(); location !== undefined; location = waiting.pop()) {
    if (location.depth >= INPUT_LIMITS.depth) return [...issues, tooDeep(location)]
    const isList = Array.isArray(location.value)
    const fields = location.value as Readonly<Record<string, unknown>>
    const keys = isList ? null : Object.keys(fields)
    const length = keys?.length ?? (location.value as readonly unknown[]).length
    count += length
    if (count > INPUT_LIMITS.nodes) return [...issues, tooMany]
    for (let i = 0; i < length; i++) {
      const key = keys?.[i] ?? i
      if (keys !== null && FORBIDDEN_KEYS.has(String(key))) {
        issues.push(reserved(location, String(key)))
        continue
      }
      const value = fields[key]
      if (typeof value === 'object' && value !== null) {
        waiting.push({ value, key, above: location, depth: location.depth + 1 })
      }
    }
  }
  return issues
}

const [QUOTE, COMMA, COLON, LIST, BACKSLASH, FIELDS] = [34, 44, 58, 91, 92, 123]

/** Where the string that begins at `from` ends. */
function afterString(text: string, from: number): number {
  for (let at = text.indexOf('"', from + 1); at >= 0; at = text.indexOf('"', at + 1)) {
    let slashes = 0
    while (text.charCodeAt(at - 1 - slashes) === BACKSLASH) slashes++
    if (slashes % 2 === 0) return at
  }
  return text.length
}

const isSpace = (code: number) => code === 32 || (code >= 9 && code <= 13)

/** The place before the spaces that end at `at`. */
function beforeSpaces(text: string, at: number): number {
  let before = at
  while (before >= 0 && isSpace(text.charCodeAt(before))) before--
  return before
}

const PACKED_KEY = `"${packedKey}"`

/** Whether the string that begins at `at` is the value of a key of packed numbers. */
function isPacked(text: string, at: number): boolean {
  const colon = beforeSpaces(text, at - 1)
  return text.charCodeAt(colon) === COLON && text.endsWith(PACKED_KEY, beforeSpaces(text, colon - 1) + 1)
}

/** Characters between two pauses: some ten milliseconds. */
const PAUSE_AFTER = 2_000_000

/**
 * Whether a JSON text holds more values or more text than are read. Values are counted by what parts them; nothing is built.
 * In steps.
 */
export function* countingSteps(text: string): Steps<Issue | null> {
  let count = 0
  let packed = 0
  let pauseAt = PAUSE_AFTER
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at)
    if (code === QUOTE) {
      const end = afterString(text, at)
      const characters = end - at - 1
      if (characters > textCharacters) return tooLongText(characters)
      if (isPacked(text, at)) packed += characters
      at = end
    } else if (code === COMMA || code === LIST || code === FIELDS) {
      count++
      if (count > INPUT_LIMITS.nodes) return tooMany
    }
    if (at - packed > plainBytes) return tooPlain
    if (at >= pauseAt) {
      yield at / text.length
      pauseAt = at + PAUSE_AFTER
    }
  }
  return null
}
