import { produce } from 'immer'
import { expect, test } from 'vitest'
import { demoProject, emptyProject } from '../../../src/model/index'
import { requirementFaults } from '../../../src/model/project/requirementFaults'
import type { Requirements } from '../../../src/model/schema/requirements'

const faultsWith = (recipe: (draft: Requirements) => void) =>
  requirementFaults(produce(demoProject().requirements, recipe)).map((issue) => issue.message)

test('the demo and the empty project do not contradict themselves', () => {
  expect(requirementFaults(demoProject().requirements)).toEqual([])
  expect(requirementFaults(emptyProject().requirements)).toEqual([])
})

test('a temperature range upside down, a band upside down and a wavelength outside its band are named with both numbers', () => {
  expect(
    faultsWith((draft) => {
      draft.temperatureMin.value = 100
    }),
  ).toEqual(['the minimum operating temperature is 100 °C; must be at most the maximum, 60 °C'])
  expect(
    faultsWith((draft) => {
      if (draft.wavelengthMin) draft.wavelengthMin.value = 1900
    }),
  ).toEqual(['the band start is 1900 nm; must be at most the band end, 1656.7 nm'])
  expect(
    faultsWith((draft) => {
      draft.wavelength.value = 1550
    }),
  ).toEqual(['the wavelength is 1550 nm; must be within the band, 1650.7 to 1656.7 nm'])
})
