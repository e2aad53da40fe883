import { beforeEach, expect, test } from 'vitest'
import { demoProject, emptyProject } from '../../src/model/index'
import {
  beginGesture,
  editProject,
  endGesture,
  redo,
  UNDO_STEPS,
  undo,
  workbench,
} from '../../src/store/workbench'

const project = () => workbench.getState().project
const rename = (name: string) =>
  editProject((draft) => {
    draft.name = name
  })

beforeEach(() => {
  endGesture()
  workbench.getState().replaceProject(demoProject())
  workbench.temporal.getState().clear()
})

test('all edits of one gesture are one undo step, and redo brings the last of them back', () => {
  const before = project()
  beginGesture()
  for (const name of ['A', 'B', 'C']) rename(name)
  endGesture()
  undo()
  expect(project()).toBe(before)
  redo()
  expect(project().name).toBe('C')
})

test('an edit after the gesture is a step of its own', () => {
  beginGesture()
  rename('A')
  rename('B')
  endGesture()
  rename('C')
  undo()
  expect(project().name).toBe('B')
})

test('an edit that changes nothing leaves the next one of the same gesture undoable', () => {
  const before = project()
  beginGesture()
  rename(before.name)
  rename('B')
  endGesture()
  undo()
  expect(project()).toBe(before)
})

test('a project opened in the middle of a gesture can be undone: nothing of the old one is lost', () => {
  beginGesture()
  rename('A')
  rename('B')
  workbench.getState().replaceProject(emptyProject())
  endGesture()
  undo()
  expect(project().name).toBe('B')
})

test('undo goes back as many steps as it states, and no further', () => {
  for (let edit = 0; edit <= UNDO_STEPS; edit++) rename(`Edit ${edit}`)
  for (let step = 0; step < UNDO_STEPS; step++) undo()
  expect(project().name).toBe('Edit 0')
  undo()
  expect(project().name).toBe('Edit 0')
})
