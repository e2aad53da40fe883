// The fit against the line of weighted least squares in closed form: P. R. Bevington, Data Reduction and Error Analysis (1969),
// ch. 6 (from memory), with weights w² where residuals are multiplied by w.

import { expect, test } from 'vitest'
import { fitSparse } from '../../../src/numerics/polynomial/sparseChebyshev'

test.each([4, 5, 6, 7, 8])(
  'a line through %i scattered points is that of weighted least squares',
  (count) => {
    const x = Array.from({ length: count }, (_, i) => Math.sin(3 * i + 1))
    const y = x.map((_, i) => Math.cos(5 * i))
    const w = x.map((_, i) => 1 + (i % 3))
    const { coefficients } = fitSparse(
      { from: [-1], to: [1] },
      [[0], [1]],
      x.map((each) => [each]),
      y,
      w,
    )
    const sum = (of: (i: number) => number) => x.reduce((total, _, i) => total + w[i]! ** 2 * of(i), 0)
    const [s, sx, sy] = [sum(() => 1), sum((i) => x[i]!), sum((i) => y[i]!)]
    const [sxx, sxy] = [sum((i) => x[i]! ** 2), sum((i) => x[i]! * y[i]!)]
    const slope = (s * sxy - sx * sy) / (s * sxx - sx * sx)
    expect(coefficients[1]).toBeCloseTo(slope, 8)
    expect(coefficients[0]).toBeCloseTo((sy - slope * sx) / s, 8)
  },
)
