import { describe, expect, test } from 'vitest'
import { demoProject } from '../../src/model/project/demoProject'
import { firstProfile, profileText, readProfile } from '../../src/panels/parts/modeShape/profileText'

describe('an index profile as text', () => {
  test('comes back as it was written', () => {
    for (const fibre of demoProject().fibres) {
      const profile = firstProfile(fibre)
      expect(readProfile(profileText(profile))).toEqual(profile)
    }
  })

  test('takes semicolons and decimal commas', () => {
    expect(readProfile('0;1,4492\n4,1;1,4492\n\n4,1 1,444\n16 1,444')).toEqual({
      kind: 'index profile',
      radiiUm: [0, 4.1, 4.1, 16],
      indices: [1.4492, 1.4492, 1.444, 1.444],
    })
  })

  test('is refused with the row, or with the reason', () => {
    expect(readProfile('0 1.45\n4 core')).toBe('Row 2 is "4 core"; must be a radius in µm and an index')
    expect(readProfile('1 1.45\n4 1.44')).toMatch('radius is 1; must be 0')
    expect(readProfile('0 1.45\n4 1.44\n3 1.44')).toMatch('radius is 3; must be 4 or more')
    expect(typeof readProfile('0 1.45')).toBe('string')
  })
})
