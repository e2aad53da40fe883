// What is asked once is known: an evaluation, and a simulation of the same design that comes to its numbers in another way.

import { describe, expect, test } from 'vitest'
import { type FieldRequest, fitElsewhere } from '../../../src/analysis/field/fit/knownFits'
import { dataText, placesText } from '../../../src/analysis/field/fit/questionText'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { withoutTolerances } from '../../support/withoutTolerances'
import { familiesProject, relayElement } from '../support/families'

/** The next greater number with 53 binary digits. */
const next = (x: number) => x * (1 + Number.EPSILON)

describe('the text of a question', () => {
  test('is that of numbers which differ in their last digits only', () => {
    expect(next(3.0266073626457297)).not.toBe(3.0266073626457297)
    expect(placesText([next(3.0266073626457297), 1e-17, -0])).toBe(placesText([3.0266073626457297, 0, 0]))
    expect(dataText({ a: [next(1e-7)], b: null })).toBe(dataText({ a: [1e-7], b: null }))
  })

  test('is another one where numbers differ', () => {
    expect(placesText([1.55])).not.toBe(placesText([1.5500001]))
    expect(placesText([1e-9])).not.toBe(placesText([2e-9]))
    // Coefficients of an asphere in 1/um^3 are as small as this.
    expect(dataText([1.1e-13])).not.toBe(dataText([1.2e-13]))
  })
})

test.each(['relay', 'ssc-chip'])(
  'a simulation of the %s asks for nothing that its evaluation knows',
  (id) => {
    const project = demoProject()
    for (const fibre of project.fibres) fibre.modeShape = { kind: 'core' }
    // A facet that no other test has: nothing is known of it yet.
    for (const facet of project.facets) facet.mfdX = quantityOf(3.4173, 'um')
    const asked: FieldRequest['kind'][] = []
    const listen = () => fitElsewhere(({ kind }) => asked.push(kind))
    const first = listen()
    evaluateCandidate(project, id)
    first()
    expect(asked.length).toBeGreaterThan(0)
    evaluateCandidate(project, id)
    asked.length = 0
    const second = listen()
    runYield(project, id, { samples: 64, rankingPoints: null })
    second()
    expect(asked).toEqual([])
  },
)

test('a relay in line that only temperature moves, along the light, needs no fit: the distances tell its aberration', () => {
  const project = withoutTolerances(familiesProject(relayElement({ lens1Id: 'plano-1', lens2Id: 'plano-2' })))
  const asked: FieldRequest['kind'][] = []
  const end = fitElsewhere(({ kind }) => asked.push(kind))
  const { validity, awaitsFit } = evaluateCandidate(project, 'relay')
  end()
  expect(asked).not.toContain('relay')
  expect(awaitsFit).toBe(false)
  expect(validity.map(({ message }) => message).join()).toContain('varies with the lens distances only.')
})
