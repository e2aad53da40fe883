// The spread of losses split into its sources: batch, assembly, channel and what is left, all taken as random.
//   T_f = sum over the levels of factor f of (sum of losses)^2 / n,   E T_f = N mu^2 + sum over g of k_fg s_g^2
//   k_fg = sum over the levels i of f and j of g of n_ij^2 / n_i
// Setting every T equal to its expectation gives as many linear equations as there are unknowns. With balanced data this is the
// analysis of variance; without, it stays unbiased.
// Source: C. R. Henderson, Biometrics 9 (1953) 226, method 1.

import { InputError } from '../../numerics/inputError'
import { solveSmall } from '../../numerics/linear/smallSystem'

interface Factor {
  readonly name: string
  /** Level of every reading; any whole numbers. */
  readonly levels: ArrayLike<number>
}

interface VarianceComponent {
  readonly name: string
  readonly levels: number
  /** As the equations give it; a small component may come out below 0. */
  readonly estimate: number
  /** The estimate, or 0 where that is negative. */
  readonly variance: number
}

export interface VarianceComponents {
  readonly components: readonly VarianceComponent[]
  /** What no factor explains. */
  readonly residual: VarianceComponent
  /** Factors left out, because they do not differ or cannot be separated from another one or from the residual. */
  readonly omitted: readonly string[]
}

/**
 * The components of `values` for random `factors`. Factors that cannot be estimated are omitted by name, later ones
 * first. InputError for fewer than two readings or factors of another length.
 */
export function varianceComponents(
  values: ArrayLike<number>,
  factors: readonly Factor[],
): VarianceComponents {
  if (values.length < 2) throw new InputError('values', `${values.length} long`, 'at least two readings')
  for (const { name, levels } of factors) {
    if (levels.length !== values.length)
      throw new InputError(name, `${levels.length} levels`, `one for each of ${values.length} readings`)
  }
  const usable: Factor[] = []
  const omitted: string[] = []
  for (const factor of factors) {
    const count = countOf(factor)
    const twin = usable.some((other) => samePartition(factor, other))
    if (count < 2 || count === values.length || twin) omitted.push(factor.name)
    else usable.push(factor)
  }
  for (let kept = usable; ; kept = kept.slice(0, -1)) {
    const solution = solved(values, kept)
    if (solution !== null) {
      return {
        ...solution,
        omitted: [...omitted, ...usable.slice(kept.length).map(({ name }) => name)],
      }
    }
  }
}

const countOf = ({ levels }: Factor) => new Set(Array.from(levels)).size

function samePartition(a: Factor, b: Factor): boolean {
  const pairs = new Set(Array.from(a.levels, (level, i) => `${level}/${b.levels[i]}`)).size
  return pairs === countOf(a) && pairs === countOf(b)
}

interface Groups {
  readonly of: Int32Array
  readonly sizes: Float64Array
}

function groupsOf(levels: ArrayLike<number>): Groups {
  const indices = new Map<number, number>()
  const of = Int32Array.from(levels, (level) => {
    const known = indices.get(level) ?? indices.size
    indices.set(level, known)
    return known
  })
  const sizes = new Float64Array(indices.size)
  for (const group of of) sizes[group] = (sizes[group] ?? 0) + 1
  return { of, sizes }
}

/** k_fg of the head of this file. */
function shared(f: Groups, g: Groups): number {
  const cells = new Map<number, number>()
  for (let i = 0; i < f.of.length; i++) {
    const cell = (f.of[i] ?? 0) * g.sizes.length + (g.of[i] ?? 0)
    cells.set(cell, (cells.get(cell) ?? 0) + 1)
  }
  let sum = 0
  for (const [cell, n] of cells) sum += (n * n) / (f.sizes[Math.floor(cell / g.sizes.length)] ?? 1)
  return sum
}

function solved(
  values: ArrayLike<number>,
  factors: readonly Factor[],
): Omit<VarianceComponents, 'omitted'> | null {
  const count = values.length
  // About the mean: the squares then keep their digits.
  let mean = 0
  for (let i = 0; i < count; i++) mean += (values[i] ?? 0) / count
  const groups = [
    groupsOf(new Uint8Array(count)),
    ...factors.map(({ levels }) => groupsOf(levels)),
    groupsOf(Int32Array.from({ length: count }, (_, i) => i)),
  ]
  const rows = groups.map((f) => {
    const sums = new Float64Array(f.sizes.length)
    for (let i = 0; i < count; i++) sums[f.of[i] ?? 0] = (sums[f.of[i] ?? 0] ?? 0) + ((values[i] ?? 0) - mean)
    const total = sums.reduce((sum, each, j) => sum + (each * each) / (f.sizes[j] ?? 1), 0)
    // The unknowns: mu^2, then every factor's variance and that of the residual.
    return [count, ...groups.slice(1).map((g) => shared(f, g)), total]
  })
  const solution = solveSmall(rows)
  if (solution === null || solution.some((each) => !Number.isFinite(each))) return null
  const componentOf = (name: string, at: number): VarianceComponent => {
    const estimate = solution[at] ?? 0
    return {
      name,
      levels: groups[at]?.sizes.length ?? 0,
      estimate,
      variance: Math.max(0, estimate),
    }
  }
  return {
    components: factors.map(({ name }, i) => componentOf(name, i + 1)),
    residual: componentOf('residual', factors.length + 1),
  }
}
