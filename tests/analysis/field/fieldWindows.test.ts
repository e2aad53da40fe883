// Alignment tolerances by the fields, as the review sheet states them: compared with sums over plane waves at the ends of the windows.

import { expect, test } from 'vitest'
import { chipWindow, viewChipWindow } from '../../../src/analysis/compare/chipWindows'
import { fieldWindows } from '../../../src/analysis/field/fieldWindows'
import { windowNumbers, windowsFrom } from '../../../src/analysis/field/fit/windowNumbers'
import { evaluateCandidate } from '../../../src/analysis/index'
import { axisWindow } from '../../../src/analysis/tolerance/toleranceCurve'
import { viewWindows } from '../../../src/analysis/tolerance/viewWindows'
import { type CompactNumbers, unpackNumbers } from '../../../src/numerics/compactNumbers'
import { ALIGNED_POSE, MISALIGNMENT_AXES } from '../../../src/optics/index'
import reference from '../../reference/data/field-tolerances.json'
import { directLoss, fieldProject } from '../support/fieldDraws'

test('the loss at the end of a field’s window has grown by what the window says, at that of the Gaussians it has not', () => {
  const { re, mfdXUm, mfdYUm, ...grid } = reference.modes.surface
  const values = unpackNumbers(re as CompactNumbers)
  const { project, id } = fieldProject({
    field: { ...grid, re: values, im: new Float64Array(values.length), wavelengthUm: 1.55, index: 1 },
    powerShare: 1,
    mfdXUm,
    mfdYUm,
    offsetsUm: 0.3,
    inGel: false,
  })
  const [view] = evaluateCandidate(project, id).joints
  if (view === undefined) throw new Error('no joint')
  const windows = fieldWindows(view)
  if (windows === null || windows === 'pending') throw new Error('no windows')
  const { assembly, lossDb } = directLoss(project, id)
  const { nominal, variables } = assembly.compiled
  const slot = variables.findIndex(({ path }) => path.at(-1) === 'offsetY')
  const hereDb = lossDb(nominal)
  const excessDb = (offsetUm: number) => {
    const v = Float64Array.from(nominal)
    v[slot] = (nominal[slot] ?? 0) + offsetUm
    return lossDb(v) - hereDb
  }
  const marksOf = (of: typeof windows) => of.find(({ axis }) => axis === 'offsetYUm')?.marks ?? []
  for (const { excessDb: said, below, above } of marksOf(windows)) {
    expect(Math.abs(excessDb(-(below ?? 0)) - said)).toBeLessThan(0.03)
    expect(Math.abs(excessDb(above ?? 0) - said)).toBeLessThan(0.03)
  }
  const gaussian = marksOf(viewWindows(view)).flatMap((mark) => [
    excessDb(-(mark.below ?? 0)) - mark.excessDb,
    excessDb(mark.above ?? 0) - mark.excessDb,
  ])
  const [mark] = marksOf(windows).filter((each) => each.excessDb === 1)
  expect(viewChipWindow(view, 'offsetYUm')).toEqual({
    distance: Math.min(mark?.below ?? 0, mark?.above ?? 0),
    only: null,
  })
  // A tilt about the facet: the beam meets it where it did.
  const found = viewChipWindow(view, 'tiltYRad')
  const tilt = found !== 'pending' && found?.distance
  if (typeof tilt !== 'number') throw new Error('no tilt')
  const tiltAt = variables.findIndex(({ path }) => path.at(-1) === 'tiltY')
  const turnedDb = [-1, 1].map((side) => {
    const v = Float64Array.from(nominal)
    v[tiltAt] = (nominal[tiltAt] ?? 0) + side * tilt
    v[slot] = (nominal[slot] ?? 0) - view.joint.gapUm * side * tilt
    return lossDb(v) - hereDb
  })
  expect(Math.abs(Math.max(...turnedDb) - 1)).toBeLessThan(0.03)
  expect(Math.abs(tilt / (chipWindow(view.joint, 'tiltYRad')?.distance ?? 0) - 1)).toBeGreaterThan(0.02)
  expect(gaussian).toHaveLength(6)
  expect(Math.max(...gaussian.map(Math.abs))).toBeGreaterThan(0.15)
})

test('windows are handed on as numbers and come back the same, also where an axis never gets there', () => {
  const round = {
    ...ALIGNED_POSE,
    wavelengthUm: 1.55,
    index: 1,
    emitterMfdXUm: 10,
    emitterMfdYUm: 10,
    receiverMfdXUm: 10,
    receiverMfdYUm: 10,
    waistXUm: 0,
    waistYUm: 0,
  }
  const windows = MISALIGNMENT_AXES.map((axis) => axisWindow(round, axis))
  expect(windows.find(({ axis }) => axis === 'rollRad')?.marks[0]?.above).toBeNull()
  expect(windowsFrom(windowNumbers(windows))).toEqual(windows)
})
