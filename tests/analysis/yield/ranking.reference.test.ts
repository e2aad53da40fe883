import { describe, expect, test } from 'vitest'
import { runYield } from '../../../src/analysis/index'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { HARDLY_ANY, rankingPointsOf } from '../../../src/analysis/yield/ranking'
import { SHARE_OUT_WIDENING, shareOut } from '../../../src/analysis/yield/shareOut'
import { demoProject } from '../../../src/model/index'
import { type Quantity, quantityOf } from '../../../src/model/quantity/quantity'
import { isotropic, matchedProject, normal } from './cases'

describe('the ranking', () => {
  const wide = matchedProject(10.4, 0.5, {
    offsetX: quantityOf(0, 'um', 'estimate', normal(1)),
    offsetY: quantityOf(0, 'um', 'estimate', normal(0.5)),
  })
  const { ranking, rankingYield } = runYield(wide, 'matched', { samples: 65_536 })

  test('splits the variance as squares of normal variates have it: in the ratio of sigma to the fourth power', () => {
    expect(ranking.map((each) => each.label)).toEqual(['offset x', 'offset y'])
    // 2048 points know an index to about two hundredths; the mean of twelve seeds to 0.006.
    const runs = Array.from(
      { length: 12 },
      (_, at) => runYield(wide, 'matched', { samples: 65_536, seed: at + 1 }).ranking,
    )
    const mean = (index: (run: (typeof runs)[number]) => number | undefined) =>
      runs.reduce((sum, run) => sum + (index(run) ?? 9), 0) / runs.length
    expect(Math.abs(mean(([x]) => x?.total) - 16 / 17)).toBeLessThan(0.01)
    expect(Math.abs(mean(([, y]) => y?.total) - 1 / 17)).toBeLessThan(0.003)
    expect(Math.abs(mean(([x]) => x?.firstOrder) - 16 / 17)).toBeLessThan(0.018)
  })

  test('has the slope of the closed yield: 1 - exp(-x^2 / 2 sigma^2) for equal offsets', () => {
    const result = runYield(isotropic(10.4, 1, 0.5), 'matched', { samples: 65_536 })
    const x2 = -2 * Math.log(1 - 0.7891371850066711)
    // d yield / d sigma of both together is -x^2 exp(-x^2 / 2), of one alone half of it.
    const expected = (-x2 * Math.exp(-x2 / 2)) / 2
    for (const each of result.ranking) expect(each.yieldPerUnit / expected).toBeCloseTo(1, 1)
  })

  test('promises the yield that a run with the halved tolerance then has', () => {
    const first = ranking[0]
    const halved = matchedProject(10.4, 0.5, {
      offsetX: quantityOf(0, 'um', 'estimate', normal(0.5)),
      offsetY: quantityOf(0, 'um', 'estimate', normal(0.5)),
    })
    const after = runYield(halved, 'matched', { samples: 100_000 })
    expect(first?.yieldGainHalved).toBeGreaterThan(0.05)
    expect(rankingYield + (first?.yieldGainHalved ?? 0)).toBeCloseTo(after.yield, 2)
  })

  test('treats a change of a single assembly as zero', () => {
    const { fewPoints, yieldPoints } = rankingPointsOf(1000)
    const { ranking: all } = runYield(demoProject(), 'high-na-bonded', { samples: 1000 })
    const gains = all.map(({ total, yieldGainHalved }) => {
      const points = total < HARDLY_ANY ? fewPoints : yieldPoints
      return Math.round(Math.abs(yieldGainHalved) * points)
    })
    expect(gains).toContain(0)
    expect(gains).not.toContain(1)
    expect(Math.max(...gains)).toBeGreaterThan(25)
  })

  test('names each tolerance by its path and in its own unit', () => {
    const { ranking: all } = runYield(demoProject(), 'cleaved-dry', { samples: 1000 })
    const tilt = all.find((each) => each.label === 'tilt x')
    expect(tilt).toMatchObject({ path: ['candidates', 0, 'chain', 1, 'tiltX'], unit: '°' })
    expect(tilt?.plusMinus).toBeCloseTo(0.3, 12)
  })
})

describe('sharing out', () => {
  const assembly = (project = isotropic(10.4, 1, 0.5)) => {
    const result = assemblyOf(project, 'matched', SHARE_OUT_WIDENING)
    if (!result.ok) throw new Error('not computed')
    return result.value
  }

  test('equal tolerances of equal weight gets equal factors, as wide as the closed yield allows', () => {
    const result = shareOut(assembly(), 1, 0.95)
    // sigma for which 1 - exp(-x^2 / 2 sigma^2) is 0.95, with x^2 / 2 = -ln(1 - 0.789137)
    const sigma = Math.sqrt(Math.log(1 - 0.7891371850066711) / Math.log(0.05))
    expect(result.reached).toBe(true)
    expect(result.yieldAfter).toBeGreaterThanOrEqual(0.95)
    for (const { factor } of result.tolerances) expect(Math.abs(factor / sigma - 1)).toBeLessThan(0.06)
  })

  test('an expensive tolerance is narrowed less than a cheap one, at a lower cost than narrowing both equally', () => {
    const result = shareOut(assembly(), 1, 0.95, { 'candidates/0/chain/1/offsetX': 10 })
    const [dear, cheap] = result.tolerances
    expect(dear?.factor).toBeGreaterThan((cheap?.factor ?? 9) * 1.1)
    expect(result.cost).toBeLessThan(result.costInCommon)
    expect(result.yieldAfter).toBeGreaterThanOrEqual(0.95)
  })

  test('a tolerance that does not matter is widened', () => {
    const still: Quantity = quantityOf(0, 'deg', 'estimate', 0.5)
    const project = matchedProject(10.4, 0.5, {
      offsetX: quantityOf(0, 'um', 'estimate', normal(1)),
      roll: still,
    })
    const result = shareOut(assembly(project), 1, 0.95)
    const roll = result.tolerances.find((each) => each.label === 'roll')
    expect(roll?.factor).toBeGreaterThan(1.5)
  })

  test('a core is never widened to where it has no mode: such assemblies fail', () => {
    const project = demoProject()
    const bridge = project.fibres[1]
    for (const candidate of project.candidates) candidate.mount = undefined
    if (bridge?.mode.kind !== 'core') throw new Error('no core')
    bridge.mode.na = quantityOf(0.41, '1', 'data sheet', 0.2)
    const wide = assemblyOf(project, 'high-na-bonded', SHARE_OUT_WIDENING)
    if (!wide.ok) throw new Error('not computed')
    const result = shareOut(wide.value, 1, 0.8)
    expect(result.yieldAfter).toBeGreaterThanOrEqual(0.8)
    const na = result.tolerances.find((each) => each.label.startsWith('numerical aperture of High-NA'))
    expect(na?.factor).toBeLessThan(1.3)
  })

  test('what no tolerance can reach is said to be out of reach', () => {
    const far = matchedProject(10.4, 0.5, { offsetX: quantityOf(3, 'um', 'estimate', normal(0.1)) })
    expect(shareOut(assembly(far), 1, 0.9).reached).toBe(false)
    expect(() => shareOut(assembly(), 1, 1)).toThrow('wanted is 1; must be 0.01 to 0.9999')
  })
})
