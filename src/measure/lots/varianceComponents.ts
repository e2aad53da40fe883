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

interface Groups {
  readonly of: Int32Array
  readonly sizes: Float64Array
}

interface GroupedFactor {
  readonly name: string
  readonly groups: Groups
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
  const usable: GroupedFactor[] = []
  const omitted: string[] = []
  for (const { name, levels } of factors) {
    const groups = groupsOf(levels)
    const count = groups.sizes.length
    const twin = usable.some((other) => samePartition(groups, other.groups))
    if (count < 2 || count === values.length || twin) omitted.push(name)
    else usable.push({ name, groups })
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

/** The readings of a factor by group; groups are numbered in the order in which they appear, so that equal partitions have equal numbers. */
function groupsOf(levels: ArrayLike<number>): Groups {
  const indices = new Map<number, number>()
  const of = new Int32Array(levels.length)
  for (let i = 0; i < of.length; i++) {
    const level = levels[i] as number
    const known = indices.get(level)
    of[i] = known ?? indices.size
    if (known === undefined) indices.set(level, indices.size)
  }
  const sizes = new Float64Array(indices.size)
  for (const group of of) sizes[group] = (sizes[group] as number) + 1
  return { of, sizes }
}

const samePartition = (a: Groups, b: Groups): boolean => a.of.every((group, i) => group === b.of[i])

/** k_fg of the head of this file. */
function shared(f: Groups, g: Groups): number {
  if (f === g) return f.of.length
  const cells = new Map<number, number>()
  for (let i = 0; i < f.of.length; i++) {
    const cell = (f.of[i] as number) * g.sizes.length + (g.of[i] as number)
    cells.set(cell, (cells.get(cell) ?? 0) + 1)
  }
  let sum = 0
  for (const [cell, n] of cells) sum += (n * n) / (f.sizes[Math.floor(cell / g.sizes.length)] as number)
  return sum
}

function solved(
  values: ArrayLike<number>,
  factors: readonly GroupedFactor[],
): Omit<VarianceComponents, 'omitted'> | null {
  const count = values.length
  // About the mean: the squares then keep their digits.
  let mean = 0
  for (let i = 0; i < count; i++) mean += (values[i] as number) / count
  const whole: Groups = { of: new Int32Array(count), sizes: Float64Array.of(count) }
  const known = [whole, ...factors.map(({ groups }) => groups)]
  const totalOf = ({ of, sizes }: Groups) => {
    const sums = new Float64Array(sizes.length)
    for (let i = 0; i < count; i++) {
      const group = of[i] as number
      sums[group] = (sums[group] as number) + ((values[i] as number) - mean)
    }
    return sums.reduce((sum, each, j) => sum + (each * each) / (sizes[j] as number), 0)
  }
  let squares = 0
  for (let i = 0; i < count; i++) squares += ((values[i] as number) - mean) ** 2
  // The unknowns: mu^2, then every factor's variance and that of the residual, in whose groups each reading is alone.
  const rows = [
    ...known.map((f) => [
      count,
      ...factors.map(({ groups }) => shared(f, groups)),
      f.sizes.length,
      totalOf(f),
    ]),
    [...known.map(() => count), count, squares],
  ]
  const solution = solveSmall(rows)
  if (solution === null || solution.some((each) => !Number.isFinite(each))) return null
  const componentOf = (name: string, at: number, levels: number): VarianceComponent => {
    const estimate = solution[at] as number
    return { name, levels, estimate, variance: Math.max(0, estimate) }
  }
  return {
    components: factors.map(({ name, groups }, i) => componentOf(name, i + 1, groups.sizes.length)),
    residual: componentOf('residual', factors.length + 1, count),
  }
}
