import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { directLoss, fieldProject, skewedMode } from '../support/fieldDraws'

describe('tolerances by fields', () => {
  const SAMPLES = 256
  const { project, id } = fieldProject({
    field: skewedMode(),
    powerShare: 1,
    mfdXUm: 2.6,
    mfdYUm: 2.4,
    offsetsUm: 1.2,
    inGel: true,
  })

  test('percentiles, RSS and worst case are those of direct sums over the same assemblies within 0.05 dB', () => {
    const direct = directLoss(project, id)
    const plan = { samples: SAMPLES, seed: 7, method: 'sobol' as const }
    const losses = Float64Array.from({ length: SAMPLES }, (_, i) =>
      direct.lossDb(direct.sample(plan, i)),
    ).sort()
    const at = (share: number) => losses[Math.ceil(share * SAMPLES) - 1] ?? Number.NaN
    // The sums keep fewer waves than the joint's own grid; three assemblies show that nothing is lost.
    for (const index of [3, 57, 200]) {
      const v = direct.sample(plan, index)
      expect(Math.abs(direct.lossDb(v) - direct.wholeGridDb(v))).toBeLessThan(0.005)
    }
    const result = runYield(project, id, plan)
    expect(Math.abs(result.p50Db - at(0.5))).toBeLessThan(0.05)
    expect(Math.abs(result.p95Db - at(0.95))).toBeLessThan(0.05)
    expect(Math.abs(result.p99Db - at(0.99))).toBeLessThan(0.05)

    const evaluation = evaluateCandidate(project, id)
    const { compiled } = direct.assembly
    const moved = (signs: readonly number[], alone?: number) => {
      const v = Float64Array.from(compiled.nominal)
      for (const [i, place] of direct.assembly.draws.places.entries()) {
        const variable = compiled.variables[place]
        if (variable === undefined || (alone !== undefined && alone !== i)) continue
        v[place] = variable.nominal + (signs[i] ?? 0) * variable.spread.halfWidth
      }
      return direct.lossDb(v)
    }
    const count = direct.assembly.draws.places.length
    expect(count).toBe(5)
    const corners = Array.from({ length: 2 ** count }, (_, mask) =>
      moved(Array.from({ length: count }, (_each, i) => ((mask >> i) & 1 ? 1 : -1))),
    )
    expect(Math.abs(evaluation.worstCorner.lossDb - Math.max(...corners))).toBeLessThan(0.05)
    const nominalDb = direct.lossDb(compiled.nominal)
    const squares = Array.from({ length: count }, (_, i) =>
      Math.max(0, ...[-1, 1].map((sign) => moved(Array(count).fill(sign), i) - nominalDb)),
    ).reduce((sum, each) => sum + each * each, 0)
    expect(Math.abs(evaluation.rootSumSquare.lossDb - nominalDb - Math.sqrt(squares))).toBeLessThan(0.05)
    expect(evaluation.nominalDb).toBeCloseTo(nominalDb, 2)
  })

  test('the fit reports its error, below 0.02 dB', () => {
    const note = evaluateCandidate(project, id).validity.find(({ message }) => message.includes('fit error'))
    const error = Number(/fit error ([\d.]+) dB/.exec(note?.message ?? '')?.[1])
    expect(error).toBeLessThan(0.02)
  })
})
