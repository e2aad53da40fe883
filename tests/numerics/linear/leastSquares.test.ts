import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type FitOptions, leastSquares } from '../../../src/numerics/linear/leastSquares'

interface Problem {
  name: string
  difficulty: 'lower' | 'average' | 'higher'
  starts: number[][]
  certified: number[]
  standardErrors?: number[]
  residualSumOfSquares: number
  x: (number | number[])[]
  y: number[]
}

type Model = (b: Float64Array, x: number) => number

const { exp, cos, sin, PI, atan } = Math
const at = (b: Float64Array, i: number) => b[i]!
const lanczos: Model = (b, x) =>
  at(b, 0) * exp(-at(b, 1) * x) + at(b, 2) * exp(-at(b, 3) * x) + at(b, 4) * exp(-at(b, 5) * x)
const gauss: Model = (b, x) =>
  at(b, 0) * exp(-at(b, 1) * x) +
  at(b, 2) * exp(-(((x - at(b, 3)) / at(b, 4)) ** 2)) +
  at(b, 5) * exp(-(((x - at(b, 6)) / at(b, 7)) ** 2))
const chwirut: Model = (b, x) => exp(-at(b, 0) * x) / (at(b, 1) + at(b, 2) * x)
const cubicRatio: Model = (b, x) =>
  (at(b, 0) + x * (at(b, 1) + x * (at(b, 2) + x * at(b, 3)))) /
  (1 + x * (at(b, 4) + x * (at(b, 5) + x * at(b, 6))))
const enso: Model = (b, x) => {
  const wave = (period: number, c: number, s: number) =>
    c * cos((2 * PI * x) / period) + s * sin((2 * PI * x) / period)
  return (
    at(b, 0) +
    wave(12, at(b, 1), at(b, 2)) +
    wave(at(b, 3), at(b, 4), at(b, 5)) +
    wave(at(b, 6), at(b, 7), at(b, 8))
  )
}

const models: Record<string, Model> = {
  Misra1a: (b, x) => at(b, 0) * (1 - exp(-at(b, 1) * x)),
  Misra1b: (b, x) => at(b, 0) * (1 - (1 + (at(b, 1) * x) / 2) ** -2),
  Misra1c: (b, x) => at(b, 0) * (1 - (1 + 2 * at(b, 1) * x) ** -0.5),
  Misra1d: (b, x) => (at(b, 0) * at(b, 1) * x) / (1 + at(b, 1) * x),
  DanWood: (b, x) => at(b, 0) * x ** at(b, 1),
  BoxBOD: (b, x) => at(b, 0) * (1 - exp(-at(b, 1) * x)),
  Rat42: (b, x) => at(b, 0) / (1 + exp(at(b, 1) - at(b, 2) * x)),
  Rat43: (b, x) => at(b, 0) / (1 + exp(at(b, 1) - at(b, 2) * x)) ** (1 / at(b, 3)),
  MGH09: (b, x) => (at(b, 0) * (x * x + x * at(b, 1))) / (x * x + x * at(b, 2) + at(b, 3)),
  MGH10: (b, x) => at(b, 0) * exp(at(b, 1) / (x + at(b, 2))),
  MGH17: (b, x) => at(b, 0) + at(b, 1) * exp(-x * at(b, 3)) + at(b, 2) * exp(-x * at(b, 4)),
  Lanczos1: lanczos,
  Lanczos2: lanczos,
  Lanczos3: lanczos,
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  Eckerle4: (b, x) => (at(b, 0) / at(b, 1)) * exp(-0.5 * ((x - at(b, 2)) / at(b, 1)) ** 2),
  Thurber: cubicRatio,
  Hahn1: cubicRatio,
  Kirby2: (b, x) => (at(b, 0) + x * (at(b, 1) + x * at(b, 2))) / (1 + x * (at(b, 3) + x * at(b, 4))),
  Roszman1: (b, x) => at(b, 0) - at(b, 1) * x - atan(at(b, 2) / (x - at(b, 3))) / PI,
  ENSO: enso,
}

const problems: Problem[] = JSON.parse(
  readFileSync(new URL('../../reference/data/nist-strd/data.json', import.meta.url), 'utf8'),
)

function solve(problem: Problem, start: number[], options: FitOptions = {}) {
  const nelson = problem.name === 'Nelson'
  const model = models[problem.name]!
  return leastSquares(
    {
      start,
      residualCount: problem.y.length,
      residuals: (b, out) => {
        problem.y.forEach((y, i) => {
          const x = problem.x[i]!
          out[i] = Array.isArray(x)
            ? at(b, 0) - at(b, 1) * x[0]! * exp(-at(b, 2) * x[1]!) - Math.log(y)
            : model(b, x) - y
        })
      },
      // Nelson's first start overflows unless the rate keeps its sign.
      ...(nelson ? { lower: [0, 0, -1], upper: [10, 1, 0] } : {}),
    },
    options,
  )
}

const relative = (value: number, reference: number) => Math.abs(value / reference - 1)

describe('NIST StRD nonlinear regression (certified values; see tests/reference/data/nist-strd)', () => {
  test('all eight lower and eleven average problems are in the list', () => {
    expect(problems.filter((p) => p.difficulty === 'lower')).toHaveLength(8)
    expect(problems.filter((p) => p.difficulty === 'average')).toHaveLength(11)
  })

  for (const problem of problems) {
    const second = problem.starts[1]!
    test(`${problem.name} (${problem.difficulty}) from the near start reaches the certified parameters`, () => {
      const fit = solve(problem, second)
      expect(['small-step', 'small-gain', 'exact']).toContain(fit.end)
      // Lanczos1 has residuals of rounding size only, so its certified sum is known to a per cent in doubles.
      const sumTolerance = problem.name === 'Lanczos1' ? 0.02 : 1e-8
      expect(relative(fit.sumOfSquares, problem.residualSumOfSquares)).toBeLessThan(sumTolerance)
      problem.certified.forEach((value, j) => {
        expect(relative(fit.parameters[j]!, value)).toBeLessThan(1e-6) // certified digits that a double-precision cost can fix
      })
      problem.standardErrors?.forEach((value, j) => {
        expect(relative(fit.standardErrors![j]!, value)).toBeLessThan(1e-4)
      })
    })
  }

  for (const problem of problems.filter((p) => p.difficulty !== 'higher')) {
    test(`${problem.name} (${problem.difficulty}) from the far start reaches them too`, () => {
      // MGH17 creeps along a curved valley from here: its first 500 steps end honestly as 'max-iterations'.
      const fit = solve(problem, problem.starts[0]!, { maxIterations: 20_000 })
      problem.certified.forEach((value, j) => {
        expect(relative(fit.parameters[j]!, value)).toBeLessThan(1e-6)
      })
    })
  }
})

describe('ends and bounds', () => {
  const line = (slopes: number[]) => ({
    residualCount: slopes.length,
    residuals: (b: Float64Array, out: Float64Array) => {
      for (let i = 0; i < slopes.length; i++) out[i] = at(b, 0) + at(b, 1) * i - slopes[i]!
    },
  })

  test('a straight line is fitted exactly, with the textbook covariance', () => {
    const fit = leastSquares({ ...line([1, 3, 5, 7]), start: [0, 0] })
    expect(fit.parameters[0]).toBeCloseTo(1, 12)
    expect(fit.parameters[1]).toBeCloseTo(2, 12)
    // (JᵀJ)⁻¹ for x = 0..3: Σx² / (n Σx² − (Σx)²) = 14/20, n / ... = 4/20
    expect(fit.unscaledCovariance![0]).toBeCloseTo(0.7, 9)
    expect(fit.unscaledCovariance![3]).toBeCloseTo(0.2, 9)
  })

  test('as many readings as parameters leave no freedom, and no error to estimate', () => {
    const fit = leastSquares({ ...line([1, 3]), start: [0, 0] })
    expect(fit.degreesOfFreedom).toBe(0)
    expect(fit.parameters[1]).toBeCloseTo(2, 12)
    expect(fit.standardErrors).toEqual([0, 0])
  })

  test('a parameter that wants to leave its bound is held there, said so, and the rest is the best fit given it', () => {
    const fit = leastSquares({ ...line([1, 3, 5, 7]), start: [0, 0], upper: [Infinity, 1.5] })
    expect(fit.heldAtBound).toEqual([false, true])
    expect(fit.parameters[1]).toBe(1.5)
    expect(fit.parameters[0]).toBeCloseTo(1.75, 10) // mean of y − 1.5 x
    expect(fit.standardErrors![1]).toBe(0)
  })

  test('parameters that the data cannot separate end as singular, without standard errors', () => {
    const fit = leastSquares({
      start: [1, 1],
      residualCount: 3,
      residuals: (b, out) => {
        for (let i = 0; i < 3; i++) out[i] = at(b, 0) + at(b, 1) - i
      },
    })
    expect(fit.end).toBe('singular')
    expect(fit.standardErrors).toBeNull()
  })

  test('a model that is not finite ends as such instead of returning NaN as a result', () => {
    const fit = leastSquares({ start: [1], residualCount: 2, residuals: (_, out) => out.fill(Number.NaN) })
    expect(fit.end).toBe('not-finite')
    expect(fit.standardErrors).toBeNull()
  })

  test('an analytic Jacobian gives the same minimum as central differences', () => {
    const y = [5, 3.1, 1.8, 1.2, 0.7, 0.4]
    const residuals = (b: Float64Array, out: Float64Array) => {
      y.forEach((v, i) => {
        out[i] = at(b, 0) * exp(-at(b, 1) * i) - v
      })
    }
    const jacobian = (b: Float64Array, out: Float64Array) => {
      y.forEach((_, i) => {
        out[2 * i] = exp(-at(b, 1) * i)
        out[2 * i + 1] = -i * at(b, 0) * exp(-at(b, 1) * i)
      })
    }
    const numeric = leastSquares({ start: [1, 1], residualCount: 6, residuals })
    const analytic = leastSquares({ start: [1, 1], residualCount: 6, residuals, jacobian })
    expect(relative(numeric.parameters[1]!, analytic.parameters[1]!)).toBeLessThan(1e-8)
  })
})
