import { expect, test } from 'vitest'
import { stepWord } from '../../../src/analysis/assembly/stepWord'
import { usualSequence } from '../../../src/analysis/assembly/usualSequence'
import { demoProject } from '../../../src/model/index'

test('a joint is cured with adhesive and fixed without', () => {
  const project = demoProject()
  const candidate = project.candidates.find(({ id }) => id === 'high-na-bonded')
  if (candidate === undefined) throw new Error('no design')
  const { steps } = usualSequence(project, candidate)
  const words = () => steps.map((step) => stepWord(project, candidate, step))
  expect(words()).toEqual(steps.map(({ kind }) => kind))
  expect(words()).toContain('cure')
  for (const medium of project.media) medium.state = 'gas'
  expect(words()).toEqual(steps.map(({ kind }) => (kind === 'cure' ? 'fix' : kind)))
})
