import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { rippleYield } from '../../../src/analysis/light/rippleYield'
import { demoProject } from '../../../src/model/index'
import { askLoss } from '../../support/askLoss'

const project = demoProject()
askLoss(project, { limitDb: 6.1 })
const run = runYield(project, 'cleaved-dry', { samples: 2 ** 14, seed: 1, rankingPoints: null })
const { ripples } = evaluateCandidate(project, 'cleaved-dry')

describe('yield with ripple', () => {
  test('is that of the run where nothing ripples', () => {
    expect(rippleYield(run, [])).toBe(run.yield)
    const still = ripples.map((ripple) => ({ ...ripple, crestGainDb: 0, troughLossDb: 0 }))
    expect(rippleYield(run, still)).toBeCloseTo(run.yield, 12)
  })

  // The slow way: a cosine of the ripple's height at a random phase added to the losses of the run's own classes.
  test('is what a random phase added to every class of the run gives', () => {
    const [ripple] = ripples
    if (ripple === undefined) throw new Error('no ripple')
    const { fromDb, stepDb, counts } = run.histogram
    const middle = (ripple.troughLossDb - ripple.crestGainDb) / 2
    const half = (ripple.troughLossDb + ripple.crestGainDb) / 2
    const passes = (shiftDb: number) => {
      let passed = 0
      for (const [i, count] of counts.entries()) {
        for (let part = 0; part < 50; part++) {
          const loss = fromDb + (i + (part + 0.5) / 50) * stepDb
          if (loss + shiftDb <= run.limitDb) passed += count / 50
        }
      }
      return passed / run.samples
    }
    let mean = 0
    for (let i = 0; i < 360; i++) mean += passes(middle - half * Math.cos((i * Math.PI) / 180)) / 360
    expect(rippleYield(run, ripples) - run.yield).toBeCloseTo(mean - passes(0), 2)
  })

  test('moves towards one half: a limit in the middle of the losses changes little, one above them loses some', () => {
    const above = { ...run, limitDb: run.p95Db }
    expect(rippleYield({ ...above, yield: 0.95 }, ripples)).toBeLessThan(0.95)
  })
})
