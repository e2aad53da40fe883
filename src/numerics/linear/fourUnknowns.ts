// Four linear equations in four unknowns, solved in place for hot loops: nothing is allocated.

/**
 * Brings `system`, four rows of five (matrix, right-hand side), to a diagonal matrix by Gauss-Jordan elimination. No pivot is
 * looked for: the matrix must be positive definite up to the order of its rows, as a curvature is.
 */
export function eliminateFour(system: Float64Array): void {
  for (let k = 0; k < 4; k++) {
    const pivot = system[6 * k] as number
    for (let i = 0; i < 4; i++) {
      const factor = i === k ? 0 : (system[5 * i + k] as number) / pivot
      if (factor === 0) continue
      for (let j = k; j < 5; j++)
        system[5 * i + j] = (system[5 * i + j] as number) - factor * (system[5 * k + j] as number)
    }
  }
}

/** Unknown k, 0 to 3, of an eliminated system. */
export function solutionOfFour(system: Float64Array, k: number): number {
  return (system[5 * k + 4] as number) / (system[6 * k] as number)
}
