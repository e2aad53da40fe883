import { expect, test } from 'vitest'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { runBlocks, sampleValues } from '../../../src/analysis/yield/runBlocks'
import { demoProject } from '../../../src/model/project/demoProject'

test.each(['sobol', 'random'] as const)(
  'a block of %s points counts every sample once, as it is drawn alone',
  (method) => {
    const result = assemblyOf(demoProject(), 'cleaved-dry')
    if (!result.ok) throw new Error('the demo cannot be computed')
    const options = { samples: 700, seed: 5, method }
    const tally = runBlocks(result.value, options, 0, 1)
    const losses = Array.from({ length: options.samples }, (_, i) =>
      result.value.lossDb(sampleValues(result.value, options, i)),
    )
    expect(tally.samples).toBe(700)
    expect(tally.leastDb).toBe(Math.min(...losses))
    expect(tally.greatestDb).toBe(Math.max(...losses))
    expect(tally.blocks[0]?.sumDb).toBeCloseTo(
      losses.reduce((sum, loss) => sum + loss, 0),
      9,
    )
  },
)
