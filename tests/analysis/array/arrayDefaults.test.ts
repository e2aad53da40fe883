// Which designs face the chip with a row of channels, and which of those are simulated with every run.

import { expect, test } from 'vitest'
import { hasArrayRun, isRow } from '../../../src/analysis/array/arrayDefaults'
import { familiesProject } from '../support/families'

function answers(
  id: string,
  channels: number,
  scope: 'one' | 'all',
  basis: 'percentile' | 'RSS' = 'percentile',
) {
  const project = familiesProject()
  project.requirements.channels = channels
  for (const loss of project.requirements.losses) Object.assign(loss, { basis, channels: scope })
  const candidate = project.candidates.find((each) => each.id === id)!
  return [isRow(project, candidate), hasArrayRun(project, candidate)]
}

test('a row is more than one channel; across a gap it is always simulated, behind lenses where all channels are asked for', () => {
  expect(answers('cleaved-dry', 1, 'all')).toEqual([false, false])
  expect(answers('cleaved-dry', 2, 'one')).toEqual([true, true])
  expect(answers('relay', 1, 'all')).toEqual([false, false])
  expect(answers('relay', 2, 'one')).toEqual([true, false])
  expect(answers('relay', 2, 'all')).toEqual([true, true])
  expect(answers('relay', 2, 'all', 'RSS')).toEqual([true, false])
})

test('a path that ends in a splice has no row', () => {
  const project = familiesProject()
  project.requirements.channels = 4
  const chain = project.candidates.find((each) => each.id === 'high-na-bonded')!.chain.slice(0, 3)
  expect(isRow(project, { chain })).toBe(false)
})
