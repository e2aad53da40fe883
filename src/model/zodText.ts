// What a schema allows, in the words of a person who wrote the file rather than of the schema library.

import type { z } from 'zod'

const TYPES: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
}

function range(least: number | bigint | undefined, greatest: number | bigint | undefined): string {
  return least === undefined ? `at most ${greatest}` : `at least ${least}`
}

/** The clause after "is …": what the value must be. */
export function allowedText(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${TYPES[issue.expected] ?? issue.expected}`
    case 'too_small':
    case 'too_big': {
      const limit = range(
        issue.code === 'too_small' ? issue.minimum : undefined,
        issue.code === 'too_big' ? issue.maximum : undefined,
      )
      if (issue.origin === 'string') return `must have ${limit} characters`
      if (issue.origin === 'array') return `must have ${limit} entries`
      return `must be ${limit}`
    }
    case 'invalid_value':
      return `must be ${issue.values.map((value) => JSON.stringify(value)).join(', or ')}`
    case 'invalid_union':
      return 'must be one of the kinds that this program knows'
    default:
      return issue.message
  }
}
