import { expect, test } from 'vitest'
import { centredGrid } from '../../../src/optics/field/fieldGrid'
import { fieldMoments } from '../../../src/optics/field/fieldMoments'
import { gaussianField } from './support'

test('a Gaussian off the middle has its MFD as D4-sigma diameter, its place as centroid (ISO 11146-1)', () => {
  const grid = centredGrid(128, 128, 0.25, 0.25)
  const moments = fieldMoments(gaussianField(6, 4, { ...grid, x0Um: grid.x0Um + 0.7, y0Um: grid.y0Um - 0.2 }))
  expect(moments.widthXUm).toBeCloseTo(6, 9)
  expect(moments.widthYUm).toBeCloseTo(4, 9)
  expect(moments.centreXUm).toBeCloseTo(0, 9)
  expect(moments.centreYUm).toBeCloseTo(0, 9)
})
