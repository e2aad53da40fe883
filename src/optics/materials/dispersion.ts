// Dispersion formulas and their wavelength derivatives, for coefficients as data.
// Wavelengths in micrometres, vacuum. Each form returns n; the slope is dn/d(lambda) by the analytic derivative.

/** n^2 = constant + sum strength * lambda^2 / (lambda^2 - resonance^2): Sellmeier with resonance wavelengths. */
interface SellmeierFormula {
  readonly form: 'sellmeier'
  readonly constant: number
  readonly terms: readonly { readonly strength: number; readonly resonanceUm: number }[]
}

/** n^2 = constant + strength / lambda^2: far from the band edge. */
interface InverseSquareFormula {
  readonly form: 'inverse-square'
  readonly constant: number
  readonly strengthUm2: number
}

/** n = 1 + sum strength / (pole - 1 / lambda^2): gases. */
interface GasFormula {
  readonly form: 'gas'
  readonly terms: readonly { readonly strengthPerUm2: number; readonly polePerUm2: number }[]
}

export type DispersionFormula = SellmeierFormula | InverseSquareFormula | GasFormula

interface IndexAndSlope {
  readonly index: number
  readonly slopePerUm: number
}

/** Index and slope at a wavelength above 0. The caller has checked the material's range. */
export function evaluateDispersion(formula: DispersionFormula, wavelengthUm: number): IndexAndSlope {
  const square = wavelengthUm * wavelengthUm
  switch (formula.form) {
    case 'sellmeier': {
      let n2 = formula.constant
      let slope2 = 0
      for (const { strength, resonanceUm } of formula.terms) {
        const distance = square - resonanceUm * resonanceUm
        n2 += (strength * square) / distance
        slope2 -= (2 * strength * wavelengthUm * resonanceUm * resonanceUm) / (distance * distance)
      }
      return fromSquare(n2, slope2)
    }
    case 'inverse-square':
      return fromSquare(
        formula.constant + formula.strengthUm2 / square,
        (-2 * formula.strengthUm2) / (square * wavelengthUm),
      )
    case 'gas': {
      let index = 1
      let slopePerUm = 0
      for (const { strengthPerUm2, polePerUm2 } of formula.terms) {
        const distance = polePerUm2 - 1 / square
        index += strengthPerUm2 / distance
        slopePerUm -= (2 * strengthPerUm2) / (distance * distance * square * wavelengthUm)
      }
      return { index, slopePerUm }
    }
  }
}

function fromSquare(n2: number, slope2: number): IndexAndSlope {
  const index = Math.sqrt(n2)
  return { index, slopePerUm: slope2 / (2 * index) }
}
