import { describe, expect, test } from 'vitest'
import { nextRerun } from '../../src/store/idleRuns'
import type { OutdatedRun } from '../../src/store/runs'

const run = (candidateId: string, kind: OutdatedRun['kind'], inputs = 'now'): OutdatedRun => ({
  kind,
  key: `${kind}/${candidateId}`,
  candidateId,
  samples: 1000,
  inputs,
})

describe('an outdated run that is made again when idle', () => {
  const outdated = [run('a', 'yield'), run('b', 'yield'), run('b', 'array')]

  test('is that of the design on screen first, its yield before its array', () => {
    expect(nextRerun(outdated, 'b', new Map())).toBe(outdated[1])
    expect(nextRerun(outdated, 'gone', new Map())).toBe(outdated[0])
  })

  test('is not tried twice with the same inputs, so that one that fails does not go on for ever', () => {
    const tried = new Map([
      ['yield/b', 'now'],
      ['array/b', 'earlier'],
    ])
    expect(nextRerun(outdated, 'b', tried)).toBe(outdated[2])
    expect(nextRerun([run('a', 'yield')], 'a', new Map([['yield/a', 'now']]))).toBeNull()
  })
})
