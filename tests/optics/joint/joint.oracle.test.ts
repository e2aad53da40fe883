import { describe, expect, test } from 'vitest'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import reference from '../../reference/data/gaussian-overlap.json'

describe('the joint against 120 sampled fields carried by FFT (tests/reference/data)', () => {
  test.each(reference.cases.map((joint, number) => ({ number, joint })))(
    'case $number agrees to 1e-12',
    ({ joint: { efficiency, ...joint } }) => {
      expect(Math.abs(jointEfficiency(joint) - efficiency)).toBeLessThan(1e-12)
    },
  )

  test('the cases are many and exercise every degree of freedom', () => {
    expect(reference.cases).toHaveLength(120)
    for (const field of ['gapUm', 'rollRad', 'waistXUm'] as const) {
      expect(reference.cases.filter((joint) => joint[field] !== 0).length).toBeGreaterThan(30)
    }
  })
})
