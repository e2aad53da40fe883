// The fibre that a brief offers for a wavelength.

import { expect, test } from 'vitest'
import { FIBRE_CHOICES, fibreFor } from '../../../src/analysis/proposals/brief'

test.each([
  [1.55, 'fibre-core-standard'],
  [1.26, 'fibre-core-standard'],
  [1.7, 'fibre-core-standard'],
  [1.1, 'fibre-core-980'],
  [0.93, 'fibre-core-980'],
  [0.8, 'fibre-core-780'],
  [0.74, 'fibre-core-780'],
  [0.739, undefined],
  [1.701, undefined],
])('at %f µm is %s', (wavelengthUm, id) => {
  expect(fibreFor(wavelengthUm)?.id).toBe(id)
})

test('every band is covered by its own choice', () => {
  for (const { bandNm } of FIBRE_CHOICES) expect(fibreFor((bandNm[0] + bandNm[1]) / 2000)).toBeDefined()
})
