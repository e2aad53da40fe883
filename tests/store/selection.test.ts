import { expect, test } from 'vitest'
import { demoProject } from '../../src/model/index'
import { chosenDesign } from '../../src/store/selection'
import { selectDesign, view } from '../../src/store/view'

const { candidates } = demoProject()
const shown = () => chosenDesign(candidates, view.getState())?.id

test('where undo takes the chosen design away the one before it is shown, and without that the first', () => {
  selectDesign('ssc-chip')
  selectDesign('design-2')
  expect(shown()).toBe('ssc-chip')
  selectDesign('design-3')
  expect(shown()).toBe(candidates[0]?.id)
  selectDesign('lensed')
  selectDesign('lensed')
  expect(view.getState()).toMatchObject({ designId: 'lensed', designBeforeId: 'design-3' })
})
