import { describe, expect, test } from 'vitest'
import { freeName } from '../../../src/model/words/freeName'
import { LIMITS } from '../../../src/model/words/limits'

const named = (...names: readonly string[]) => names.map((name) => ({ name }))

describe('the name of a new entry', () => {
  test('is the plain one where it is free, otherwise with the first free number', () => {
    expect(freeName('Taper chip', named('Lens'))).toBe('Taper chip')
    expect(freeName('Taper chip', named('Taper chip'))).toBe('Taper chip 2')
    expect(freeName('Taper chip', named('Taper chip', 'Taper chip 3', 'Taper chip 2'))).toBe('Taper chip 4')
  })

  test('is cut where it would be longer than a name may be, its number whole', () => {
    const longest = 'x'.repeat(LIMITS.nameCharacters)
    const next = freeName(longest, named(longest))
    expect(next).toHaveLength(LIMITS.nameCharacters)
    expect(next.endsWith('x 2')).toBe(true)
  })
})
