import { expect, test } from 'vitest'
import { isolatorVerdict } from '../../../src/analysis/verdicts/isolatorVerdict'
import { newIsolator, requiredIsolator } from '../../../src/model/designs/newElements'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'

test('an isolator that is added meets the requirement for one, and is a usual one where there is none', () => {
  const project = demoProject()
  const relay = project.candidates.find(({ id }) => id === 'relay')!
  const element = relay.chain.find((each) => each.kind === 'relay')!
  const status = () => isolatorVerdict(project, relay)[0]?.status
  delete project.requirements.isolator
  expect(requiredIsolator(project.requirements)).toEqual(newIsolator())
  project.requirements.isolator = {
    length: quantityOf(4, 'mm', 'estimate', 0.1),
    aperture: quantityOf(0.5, 'mm', 'estimate'),
    isolation: quantityOf(40, 'dB', 'estimate'),
  }
  element.device = newIsolator()
  expect(status()).toBe('not met')
  element.device = requiredIsolator(project.requirements)
  expect(status()).toBe('met')
  expect(element.device.isolation).toEqual(quantityOf(40, 'dB', 'estimate'))
  expect(element.device.length.tolerance).toBeUndefined()
})
