import { describe, expect, test } from 'vitest'
import { greyOf } from '../../../src/measure/images/greyPixels'

describe('samples of several channels as one value per pixel', () => {
  test.each([
    [1, [10, 20], [10, 20], []],
    [2, [10, 255, 20, 0], [10, 20], ['alpha channel dropped']],
    [3, [1, 2, 6, 10, 20, 30], [3, 20], ['colour channels averaged']],
    [4, [1, 2, 6, 99, 10, 20, 30, 99], [3, 20], ['colour channels averaged', 'alpha channel dropped']],
  ])('%i channels', (channels, samples, pixels, notes) => {
    const grey = greyOf(samples, 2, channels)
    expect([...grey.pixels]).toEqual(pixels)
    expect(grey.notes).toEqual(notes)
    expect(() => greyOf(samples.slice(1), 2, channels)).toThrow(
      `image data is ${2 * channels - 1} samples; must be ${2 * channels} samples for the size in the header`,
    )
  })
})
