// Uncertainty of a measured length as a table of contributions.
//   u_c² = Σ (c_i u_i)²,   U = k u_c + |b|,   k = 2
// Source: JCGM 100:2008, eq. (10) for uncorrelated inputs; 4.2 and 4.3 for types A and B; F.2.4.5 for a known bias b
// that is reported but not corrected (its size is added to U); G.4.1 (Welch–Satterthwaite) for the degrees of freedom.

export const COVERAGE_FACTOR = 2

export interface Contribution {
  readonly source: string
  readonly type: 'A' | 'B'
  /** Standard uncertainty of the result due to this source, sensitivity included. */
  readonly standardUm: number
  /** Infinity for a type B contribution. */
  readonly degreesOfFreedom: number
}

export interface UncertaintyBudget {
  readonly contributions: readonly Contribution[]
  readonly combinedUm: number
  /** Known and uncorrected, signed: measured less true. */
  readonly biasUm: number
  readonly expandedUm: number
  readonly effectiveDegreesOfFreedom: number
}

export function typeA(source: string, standardUm: number, degreesOfFreedom: number): Contribution {
  return { source, type: 'A', standardUm, degreesOfFreedom }
}

export function typeB(source: string, standardUm: number): Contribution {
  return { source, type: 'B', standardUm, degreesOfFreedom: Infinity }
}

/** Combines contributions; those of size zero stay in the table, to show what was considered. */
export function combine(contributions: readonly Contribution[], biasUm = 0): UncertaintyBudget {
  const combinedUm = Math.hypot(...contributions.map((part) => part.standardUm))
  const fourth = contributions.reduce((sum, part) => sum + part.standardUm ** 4 / part.degreesOfFreedom, 0)
  return {
    contributions,
    combinedUm,
    biasUm,
    expandedUm: COVERAGE_FACTOR * combinedUm + Math.abs(biasUm),
    effectiveDegreesOfFreedom: fourth > 0 ? combinedUm ** 4 / fourth : Infinity,
  }
}
