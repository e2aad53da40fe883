// A first look at data from outside, before any schema walks it: depth, amount and keys that could
// reach an object's prototype. Iterative, so that deep nesting cannot exhaust the stack.

import type { Issue, Path } from '../issue'
import { pathText } from '../issue'

export const INPUT_LIMITS = {
  /** Measurements are most of it: a camera image keeps up to 5 MB. */
  textBytes: 64_000_000,
  depth: 40,
  nodes: 2_000_000,
} as const

const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

/** Every reason to refuse the data outright; an empty list lets the schema go on. */
export function hostileInputIssues(root: unknown): readonly Issue[] {
  const issues: Issue[] = []
  const waiting: { value: unknown; path: Path }[] = [{ value: root, path: [] }]
  let nodes = 0
  while (waiting.length > 0) {
    const { value, path } = waiting.pop() as { value: unknown; path: Path }
    if (typeof value !== 'object' || value === null) continue
    nodes += 1
    if (nodes > INPUT_LIMITS.nodes) {
      issues.push({
        path: [],
        code: 'size',
        message: `the file holds more than ${INPUT_LIMITS.nodes} objects; at most that many are read`,
      })
      return issues
    }
    if (path.length >= INPUT_LIMITS.depth) {
      issues.push({
        path: path.slice(0, 4),
        code: 'size',
        message: `${pathText(path.slice(0, 4))}… is nested deeper than ${INPUT_LIMITS.depth} levels; a project needs about 10`,
      })
      return issues
    }
    for (const key of Object.keys(value)) {
      if (FORBIDDEN_KEYS.has(key)) {
        issues.push({
          path: [...path, key],
          code: 'format',
          message: `${pathText([...path, key])} uses the reserved key ${key}; no field of a project has that name`,
        })
        continue
      }
      const step = Array.isArray(value) ? Number(key) : key
      waiting.push({ value: (value as Record<string, unknown>)[key], path: [...path, step] })
    }
  }
  return issues
}
