// Alignment tolerances of a relay on paper: by rays through its real lenses, as on the Tolerance tab and in Compare; until these are known, those
// of the paraxial image, marked as provisional.

import { expect, onTestFinished, test } from 'vitest'
import { viewChipMark } from '../../../src/analysis/compare/chipWindows'
import { answerSteps } from '../../../src/analysis/field/fit/fitHere'
import { type FieldRequest, fitElsewhere, learnAnswer } from '../../../src/analysis/field/fit/knownFits'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { viewWindows } from '../../../src/analysis/tolerance/viewWindows'
import { demoProject } from '../../../src/model/index'
import { finish } from '../../../src/numerics/steps'
import { windowsSection } from '../../../src/report/sections/loss/windows'
import { windowFigures } from '../../../src/report/summary/windowFigures'
import '../../support/fitsHere'
import { contextOf, evaluatedAs, readRows, tablesIn, wordsIn } from '../support/sectionContext'

test('windows, pictures and summary of a relay are provisional until its rays are traced', () => {
  const project = demoProject()
  // Like no other test's, whose answers are known.
  project.requirements.wavelength.value = 1651.907
  const compiled = compileCandidate(project, 'relay')
  if (!compiled.ok) throw new Error('not computed')
  const { joins, nominal } = compiled.value
  const join = joins.find(({ relayFields }) => relayFields !== undefined)
  const [image, lenses] = [join?.view?.(nominal), join?.relayFields?.()]
  if (image === undefined || lenses == null) throw new Error('real lenses')
  const view = { ...image, lenses }
  const joints = [view]
  const look = () => {
    const candidate = evaluatedAs({ joints })
    const blocks = windowsSection.build(contextOf([candidate]))
    const rows = tablesIn(blocks).flatMap((each) => readRows(each))
    return {
      words: wordsIn(blocks),
      offset: rows.find(([axis]) => axis === 'Offset x') ?? [],
      summary: windowFigures(project, candidate)[0],
    }
  }
  const asked = new Map<string, FieldRequest>()
  onTestFinished(fitElsewhere((request) => asked.set(request.key, request)))

  const before = look()
  expect(before.words[0]).toMatch(/^Provisional: of the paraxial image/)
  const imageUm = viewWindows(view)[0]?.marks[1]?.above ?? Number.NaN
  expect(before.offset[5]).toBe(imageUm.toFixed(2))
  expect(before.summary).toMatchObject({ isProvisional: true, positive: expect.closeTo(imageUm, 9) })
  // The pictures wait as well.
  expect([...asked.values()].map(({ kind }) => kind).sort()).toEqual(['relay losses', 'relay windows'])
  const answer = (wanted: string) => {
    for (const [key, request] of asked)
      if (request.kind === wanted) learnAnswer(key, finish(answerSteps(request)))
  }
  answer('relay windows')
  expect(look().words[0]).toMatch(/^Provisional/)
  answer('relay losses')

  const after = look()
  expect(after.words[0]).toBe('Computed by rays through the real lenses of the relay.')
  const real = viewChipMark(view, 'offsetXUm').above ?? Number.NaN
  expect(real).toBeGreaterThan(1.05 * imageUm)
  expect(after.offset[5]).toBe(real.toFixed(2))
  expect(after.summary).toMatchObject({ isProvisional: false, positive: real })
})
