// Chi-square of pairs that should be independent and uniform, over equal square cells.

const CELLS = 16

/** How far it is from its mean, in its standard deviations: k classes have mean k - 1 and variance 2 (k - 1). */
export function chiSquareSigmas(pairs: readonly (readonly [number, number])[]): number {
  const counts = new Float64Array(CELLS * CELLS)
  for (const [x, y] of pairs) {
    const cell = Math.floor(CELLS * x) * CELLS + Math.floor(CELLS * y)
    counts[cell] = (counts[cell] ?? 0) + 1
  }
  const expected = pairs.length / counts.length
  const sum = counts.reduce((total, count) => total + (count - expected) ** 2 / expected, 0)
  const freedom = counts.length - 1
  return (sum - freedom) / Math.sqrt(2 * freedom)
}
