// Points of an additive recurrence, as `draws` in reference/data/recipes/tip_tolerances.py and relay_tolerances.py makes them: the same
// assemblies here and there, so that percentiles can be compared without the scatter of samples.

/** Point number `index`, from 1 on, in the unit cube of as many axes. */
export function recurrencePoint(index: number, axes: number): readonly number[] {
  let phi = 2
  for (let i = 0; i < 60; i++) phi = (1 + phi) ** (1 / (axes + 1))
  return Array.from({ length: axes }, (_, j) => (0.5 + index * phi ** -(j + 1)) % 1)
}

/** As numpy.quantile: linear between the sorted values. */
export function quantileOf(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  const at = share * (sorted.length - 1)
  const low = sorted[Math.floor(at)] ?? Number.NaN
  const high = sorted[Math.ceil(at)] ?? Number.NaN
  return low + (high - low) * (at - Math.floor(at))
}
