import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { seenJoint } from '../../src/analysis/tolerance/viewWindows'
import { demoProject } from '../../src/model/index'
import { setCoreValue } from '../../src/model/quantity/coreQuantity'
import type { MisalignmentAxis } from '../../src/optics/index'
import { type MovedAxis, relayChanges } from '../../src/panels/tolerance/relayMove'
import { findElement } from '../../src/store/elementEdits'
import { withoutTolerances } from '../support/withoutTolerances'

const project = withoutTolerances(demoProject())
const design = project.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'relay'))
const relay = design?.chain.find(({ kind }) => kind === 'relay')
if (design === undefined || relay === undefined) throw new Error('no relay in the demo')
const target = { designId: design.id, elementId: relay.id }

const unmoved = evaluateCandidate(project, target.designId)

const jointAfter = (moves: readonly MovedAxis[], ...axes: readonly MisalignmentAxis[]) => {
  const moved = structuredClone(project)
  const own = findElement(moved, target.designId, target.elementId, 'relay')
  for (const { field, rule, core } of relayChanges(project, target, moves)) {
    if (own !== undefined) setCoreValue(own[field], rule, core, 14)
  }
  const { joints } = moves.length === 0 ? unmoved : evaluateCandidate(moved, target.designId)
  const found = joints.find((each) => each.elementId === relay.id)
  if (found === undefined) throw new Error('no joint')
  return seenJoint(found, ...axes)
}

test.each<readonly [MisalignmentAxis, number, MisalignmentAxis, number]>([
  ['offsetXUm', 0.4, 'offsetYUm', -0.7],
  ['offsetXUm', 0.4, 'tiltXRad', 0.006],
  ['offsetYUm', -0.3, 'tiltYRad', -0.004],
  ['offsetXUm', 0.2, 'gapUm', 3],
])('a place on the map of a relay is reached: %s by %d, %s by %d', (x, byX, y, byY) => {
  const here = jointAfter([], x, y)
  const joint = jointAfter(
    [
      [x, here[x] + byX],
      [y, here[y] + byY],
    ],
    x,
    y,
  )
  expect(joint[x]).toBeCloseTo(here[x] + byX, 5)
  expect(joint[y]).toBeCloseTo(here[y] + byY, 5)
})

test('so is a place on the curve of one axis', () => {
  expect(jointAfter([['offsetYUm', 0.9]], 'offsetYUm').offsetYUm).toBeCloseTo(0.9, 5)
})
