import { expect, test } from 'vitest'
import { demoProject } from '../../src/model/index'
import { evaluateSlice, evaluationOf } from '../../src/store/evaluations'

/** A clock that moves on by so much with every look at it. */
const clock = (stepMs: number) => {
  let now = 0
  return () => (now += stepMs)
}

test('designs are evaluated in their order until the slice is over, and the rest waits', () => {
  const project = demoProject()
  const ids = project.candidates.map(({ id }) => id)
  const left = evaluateSlice(project, ids, clock(15))
  expect(left).toEqual(ids.slice(2))
  const first = evaluationOf(project, ids[0] ?? '')
  expect(evaluationOf(project, ids[0] ?? '')).toBe(first)
})

test('with time enough nothing waits', () => {
  const project = demoProject()
  expect(
    evaluateSlice(
      project,
      project.candidates.map(({ id }) => id),
      clock(0),
    ),
  ).toEqual([])
})
