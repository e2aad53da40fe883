import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../src/numerics/inputError'
import { gaussLegendre, integrate, nodeSlopes, panelRule } from '../../src/numerics/quadrature'

describe('Gauss-Legendre rules', () => {
  // M. Abramowitz and I. Stegun, Handbook of Mathematical Functions (1964), table 25.4 (from memory).
  test('the three- and five-point rules are the tabulated ones', () => {
    const three = gaussLegendre(3)
    expect(three.nodes[2]).toBeCloseTo(Math.sqrt(0.6), 15)
    expect(three.nodes[1]).toBeCloseTo(0, 15)
    expect(three.weights[1]).toBeCloseTo(8 / 9, 15)
    const five = gaussLegendre(5)
    expect(five.nodes[4]).toBeCloseTo(0.906179845938664, 14)
    expect(five.weights[4]).toBeCloseTo(0.236926885056189, 14)
  })

  test('n points integrate every polynomial up to degree 2n - 1 exactly', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 0, max: 79 }), (n, degree) => {
        fc.pre(degree < 2 * n)
        const rule = panelRule([-1, 1], n)
        const exact = degree % 2 === 0 ? 2 / (degree + 1) : 0
        return Math.abs(integrate((x) => x ** degree, rule) - exact) < 1e-14
      }),
    )
  })

  test('one degree more is beyond the two-point rule, so the exactness above is not free', () => {
    expect(Math.abs(integrate((x) => x ** 4, panelRule([-1, 1], 2)) - 2 / 5)).toBeGreaterThan(0.1)
  })

  test('weights are positive and add up to the interval at any order', () => {
    for (const n of [1, 2, 7, 64, 256]) {
      const { weights } = gaussLegendre(n)
      expect(Math.min(...weights)).toBeGreaterThan(0)
      expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(2, 13)
    }
  })
})

describe('slopes at the nodes', () => {
  test('are exact for polynomials up to degree n - 1, and beyond it are not', () => {
    const off = (n: number, degree: number) => {
      const { nodes } = gaussLegendre(n)
      const slopes = nodeSlopes(nodes.map((x) => x ** degree))
      return Math.max(...slopes.map((slope, i) => Math.abs(slope - degree * (nodes[i] ?? 0) ** (degree - 1))))
    }
    for (const n of [4, 9, 16]) expect(off(n, n - 1)).toBeLessThan(1e-11)
    expect(off(9, 9)).toBeGreaterThan(1e-3)
  })

  test('of a smooth function, to 12 digits on 40 nodes', () => {
    const { nodes } = gaussLegendre(40)
    const slopes = nodeSlopes(nodes.map((x) => Math.exp(x) * Math.sin(3 * x)))
    slopes.forEach((slope, i) => {
      const x = nodes[i] ?? 0
      expect(Math.abs(slope - Math.exp(x) * (Math.sin(3 * x) + 3 * Math.cos(3 * x)))).toBeLessThan(1e-11)
    })
  })
})

describe('sequences of panels', () => {
  test('they add up to the integral over the whole', () => {
    expect(integrate(Math.exp, panelRule([0, 0.5, 2, 3], 16))).toBeCloseTo(Math.E ** 3 - 1, 12)
    expect(integrate((x) => Math.exp(-x * x), panelRule([0, 2, 4, 8], 24))).toBeCloseTo(
      Math.sqrt(Math.PI) / 2,
      14,
    )
  })

  test('bad rules are refused with the reason', () => {
    expect(() => gaussLegendre(0)).toThrow('n is 0; must be a whole number, 1 to 256')
    expect(() => gaussLegendre(2.5)).toThrow(InputError)
    expect(() => panelRule([1], 4)).toThrow(InputError)
    expect(() => panelRule([0, 1, 1], 4)).toThrow('breaks is 1; must be above the break before it, 1')
  })
})
