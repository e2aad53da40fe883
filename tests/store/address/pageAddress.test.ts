import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addressFragment, addressOf } from '../../../src/store/address/pageAddress'

const step = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 })

describe('a place in the address', () => {
  test('reads back as what it was, whatever its names hold', () => {
    fc.assert(
      fc.property(
        step,
        fc.option(step, { nil: undefined }),
        fc.option(step, { nil: undefined }),
        (page, item, tab) => {
          const shown = { page, ...(item && { item }), ...(tab && { tab }) }
          expect(addressOf(addressFragment(shown))).toEqual(shown)
        },
      ),
    )
  })

  test('is written so that a person can read it', () => {
    expect(addressFragment({ page: 'design', item: 'stub-1', tab: 'tolerance' })).toBe(
      '#/design/stub-1/tolerance',
    )
    expect(addressFragment({ page: 'parts' })).toBe('#/parts')
  })

  test('is the same for every fragment that reads as a place', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        const shown = addressOf(`#/${text}`)
        if (shown !== null) expect(addressOf(addressFragment(shown))).toEqual(shown)
      }),
    )
  })

  test.each(['', '#', '#/', '#design', '#project=1.abc', '#/a/b/c/d', '#/%E0%A4%A', `#/${'a'.repeat(3000)}`])(
    'is none in %s',
    (fragment) => {
      expect(addressOf(fragment)).toBeNull()
    },
  )
})
