import { expect, test } from 'vitest'
import { polarisationKept } from '../../../src/analysis/verdicts/polarisationKept'
import type { StubForm } from '../../../src/model/words/candidate'
import { familiesProject } from '../support/families'

/** The bonded stub of the demo with fibres that keep polarisation. */
function finding({
  form,
  madeToOrder = false,
  channels = 12,
}: {
  readonly form?: StubForm
  readonly madeToOrder?: boolean
  readonly channels?: number
}) {
  const project = familiesProject()
  project.requirements.channels = channels
  for (const fibre of project.fibres) fibre.polarisationMaintaining = true
  const [, bridge] = project.fibres
  if (bridge !== undefined && madeToOrder) bridge.madeToOrder = true
  const candidate = project.candidates.find(({ id }) => id === 'high-na-bonded')
  const stub = candidate?.chain[2]
  if (candidate === undefined || stub?.kind !== 'stub') throw new Error('no stub')
  if (form !== undefined) stub.form = form
  return polarisationKept(project, candidate)
}

// High-NA fibre arrays are polarisation-maintaining only if made to order: common practice, no source.
test('an array of stubs keeps polarisation only when it is made to order', () => {
  expect(finding({ form: 'array' })).toMatchObject({ kept: 'not known' })
  expect(finding({})).toMatchObject({ kept: 'not known' })
  expect(finding({ form: 'array', madeToOrder: true })).toMatchObject({ kept: 'made to order' })
})

test('single stubs, and a single channel, keep it with any fibre that does', () => {
  expect(finding({ form: 'single' })).toMatchObject({ kept: 'yes' })
  expect(finding({ channels: 1 })).toMatchObject({ kept: 'yes' })
})

test('a fibre that is not polarisation-maintaining is named', () => {
  const project = familiesProject()
  const [first] = project.candidates
  if (first === undefined) throw new Error('no candidate')
  expect(polarisationKept(project, first)).toEqual({
    kept: 'no',
    reason: 'not polarisation-maintaining: Standard single-mode fibre',
  })
})
