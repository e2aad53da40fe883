// A click on a map or curve moves the working point there, in the units of its axes; what is read from the project follows.

import { beforeEach, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { chart } from '../../src/figures/chart'
import { AXIS_TEXT } from '../../src/figures/loss/axisText'
import { demoProject } from '../../src/model/index'
import type { MisalignmentAxis } from '../../src/optics/index'
import { movableOn } from '../../src/panels/tolerance/workingPoint'
import { workbench } from '../../src/store/workbench'

const DESIGN = 'cleaved-dry'
const viewNow = () => {
  const [view] = evaluateCandidate(workbench.getState().project, DESIGN).joints
  if (view === undefined) throw new Error('no joint')
  return view
}

const onAxes = (x: MisalignmentAxis, y: MisalignmentAxis | null) => {
  const axis = (from: number, to: number) => ({ title: '', from, to })
  const { elementId, joint } = viewNow()
  return movableOn(chart(axis(-3, 3), axis(0, 12), []), { designId: DESIGN, elementId, joint }, x, y)
}

beforeEach(() => workbench.getState().replaceProject(demoProject()))

test.each([
  ['offsetXUm', 0.7, 'offsetYUm', -0.4],
  ['offsetYUm', -1.1, 'gapUm', 7.5],
  ['gapUm', 6, 'tiltXRad', 1.5],
  ['tiltXRad', -0.8, 'tiltYRad', 2],
] as const)('%s goes to %d and %s to %d, degrees for tilts', (x, toX, y, toY) => {
  onAxes(x, y).onMove({ x: toX, y: toY })
  const { joint } = viewNow()
  expect(joint[x] * AXIS_TEXT[x].perCore).toBeCloseTo(toX, 3)
  expect(joint[y] * AXIS_TEXT[y].perCore).toBeCloseTo(toY, 3)
  const { at } = onAxes(x, y)
  expect(at.x).toBeCloseTo(toX, 3)
  expect(at.y).toBeCloseTo(toY, 3)
})

test('on a curve one axis alone moves, and no gap goes below contact', () => {
  const before = viewNow().joint
  onAxes('gapUm', null).onMove({ x: -2, y: 99 })
  expect(viewNow().joint).toEqual({ ...before, gapUm: 0 })
})

test('an arrow key moves by a sixtieth of the chart', () => {
  expect(onAxes('offsetXUm', 'gapUm').step).toEqual({ x: 0.1, y: 0.2 })
  expect(onAxes('offsetXUm', null).step).toEqual({ x: 0.1, y: 0 })
})
