import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { placeFragment, placeOf } from '../../../src/store/address/place'

const step = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 })

describe('a place in the address', () => {
  test('reads back as what it was, whatever its names hold', () => {
    fc.assert(
      fc.property(
        step,
        fc.option(step, { nil: undefined }),
        fc.option(step, { nil: undefined }),
        (page, item, tab) => {
          const place = { page, ...(item && { item }), ...(tab && { tab }) }
          expect(placeOf(placeFragment(place))).toEqual(place)
        },
      ),
    )
  })

  test('is written so that a person can read it', () => {
    expect(placeFragment({ page: 'design', item: 'stub-1', tab: 'tolerance' })).toBe(
      '#/design/stub-1/tolerance',
    )
    expect(placeFragment({ page: 'parts' })).toBe('#/parts')
  })

  test('is the same for every fragment that reads as a place', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        const place = placeOf(`#/${text}`)
        if (place !== null) expect(placeOf(placeFragment(place))).toEqual(place)
      }),
    )
  })

  test.each(['', '#', '#/', '#design', '#project=1.abc', '#/a/b/c/d', '#/%E0%A4%A', `#/${'a'.repeat(3000)}`])(
    'is none in %s',
    (fragment) => {
      expect(placeOf(fragment)).toBeNull()
    },
  )
})
