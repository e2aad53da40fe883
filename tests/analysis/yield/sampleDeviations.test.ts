import { expect, test } from 'vitest'
import { runYield } from '../../../src/analysis/index'
import { sampleDeviations } from '../../../src/analysis/yield/sampleDeviations'
import { demoProject } from '../../../src/model/index'
import { isotropic } from './cases'

const OPTIONS = { samples: 20_000, seed: 5 }

// Equal modes: the loss is 4.342945 (x^2 + y^2) / w^2 (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703), w = 5.2 um here.
test('the worst sample of two offsets of 1 um is as many standard deviations off as its loss says', () => {
  const project = isotropic(10.4, 1, 0.5)
  const [worst] = runYield(project, 'matched', { ...OPTIONS, rankingPoints: null }).worst
  const [found] = sampleDeviations(project, 'matched', OPTIONS, [worst?.index ?? 0], 5)
  expect(found?.map((each) => each.label).sort()).toEqual(['offset x', 'offset y'])
  const squares = found?.reduce((sum, { sigmas }) => sum + sigmas ** 2, 0) ?? 0
  expect((4.342945 * squares) / 5.2 ** 2).toBeCloseTo(worst?.lossDb ?? 0, 6)
})

test('the largest deviation comes first, and no more are named than asked for', () => {
  const [found = []] = sampleDeviations(demoProject(), 'high-na-bonded', OPTIONS, [77], 3)
  expect(found).toHaveLength(3)
  const sizes = found.map((each) => Math.abs(each.sigmas))
  expect(sizes).toEqual([...sizes].sort((a, b) => b - a))
})
