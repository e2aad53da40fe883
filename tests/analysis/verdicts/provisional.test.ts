// While the fit of a real joint is computed elsewhere, what tolerances move is provisional: no verdict is met or missed by it.

import { expect, onTestFinished, test } from 'vitest'
import { answerSteps } from '../../../src/analysis/field/fit/fitHere'
import { type FieldRequest, fitElsewhere, learnAnswer } from '../../../src/analysis/field/fit/knownFits'
import { checkRequirements, evaluateCandidate } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { finish } from '../../../src/numerics/steps'
import '../../support/fitsHere'

test('a relay waits for its fit, and its RSS and temperature verdicts with it', () => {
  const asked = new Map<string, FieldRequest>()
  onTestFinished(fitElsewhere((request) => asked.set(request.key, request)))
  const project = demoProject()
  // Like no other test's, whose fits are known.
  project.requirements.wavelength.value = 1653.713
  const look = () => {
    const evaluation = evaluateCandidate(project, 'relay')
    const verdicts = checkRequirements(project, evaluation)
    return { evaluation, of: (id: string) => verdicts.find((each) => each.id === id) }
  }
  const before = look()
  expect(before.evaluation.awaitsFit).toBe(true)
  for (const id of ['loss', 'temperature'])
    expect(before.of(id), id).toMatchObject({ status: 'not known', provisional: true })
  expect(before.of('loss')?.reason).toContain('provisional')
  // What no tolerance moves is final all the same.
  expect(before.of('band')?.status).toBe('met')

  // First the fit, then the sums at the worst cases that it finds, also those of both ends of the temperature range.
  for (const round of ['fit', 'worst case']) {
    expect(asked.size, round).toBe(round === 'fit' ? 1 : 3)
    for (const [key, request] of asked) learnAnswer(key, finish(answerSteps(request)))
    asked.clear()
    look()
  }
  expect(asked.size).toBe(0)
  const after = look()
  expect(after.evaluation.awaitsFit).toBe(false)
  expect(after.of('loss')).toMatchObject({ status: 'met' })
  expect(after.of('loss')?.provisional).toBeUndefined()
  expect(after.evaluation.nominalDb).toBe(before.evaluation.nominalDb)
  expect(after.evaluation.worstCorner.lossDb).not.toBe(before.evaluation.worstCorner.lossDb)
})

test('a joint that nothing has to be fitted for is final at once', () => {
  const wanted: FieldRequest[] = []
  onTestFinished(fitElsewhere((request) => wanted.push(request)))
  expect(evaluateCandidate(demoProject(), 'cleaved-dry').awaitsFit).toBe(false)
  expect(wanted).toEqual([])
})
