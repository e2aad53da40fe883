import { expect, test } from 'vitest'
import type { Reading } from '../../src/measure/index'
import { degrees, mfdText, ownNotes } from '../../src/panels/measurements/measurementText'

test('angles are said in degrees, diameters with their expanded uncertainty to two digits of it', () => {
  expect(degrees(Math.PI / 6)).toBeCloseTo(30, 12)
  // JCGM 100:2008, 7.2.6: an uncertainty has two significant digits at most, and the value as many decimals.
  expect(mfdText({ valueUm: 10.41234, expandedUm: 0.0783 } as Parameters<typeof mfdText>[0])).toMatch(
    /^10\.412 ± 0\.078 µm$/,
  )
})

test('notes of a file are said once, and not where a finding says the same', () => {
  const reading = { notes: ['a', 'b', 'a'], findings: [{ message: 'b' }] } as unknown as Reading
  expect(ownNotes(reading)).toEqual(['a'])
})
