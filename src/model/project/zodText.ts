// What a schema allows, in words for the author of the file rather than those of the schema library.

import type { z } from 'zod'

const TYPES: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
}

function limitText(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const included = issue.inclusive !== false
  return issue.code === 'too_small'
    ? `${included ? 'at least' : 'above'} ${issue.minimum}`
    : `${included ? 'at most' : 'below'} ${issue.maximum}`
}

/** The clause after "is …": what the value must be. */
export function allowedText(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${TYPES[issue.expected] ?? issue.expected}`
    case 'too_small':
    case 'too_big': {
      const limit = limitText(issue)
      if (issue.origin === 'string') return `must have ${limit} characters`
      if (issue.origin === 'array') return `must have ${limit} entries`
      return `must be ${limit}`
    }
    case 'invalid_value':
      return `must be ${issue.values.map((value) => JSON.stringify(value)).join(', or ')}`
    case 'invalid_union':
      return 'must be a supported type'
    default:
      return issue.message
  }
}
