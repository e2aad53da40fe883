// Far-field scans along x and along y of the same mode, side by side.
// Petermann II by the far-field integral assumes a circular field: ∫ … sin θ dθ sums rings. If the two scans differ,
// neither of its values is that of the mode; use the Gaussian along each axis instead.

import { fixedText } from '../../numerics/numberText'
import { type FarFieldInput, type FarFieldResult, farFieldMfd } from './farFieldMfd'

export interface FarFieldAxes {
  readonly x: FarFieldResult
  readonly y: FarFieldResult
  /** Whether both scans agree within their expanded uncertainties, or to 1 %. */
  readonly circular: boolean
  /** Mean of both; null where the mode is not circular. */
  readonly petermann2MfdUm: number | null
  readonly gaussianMfdXUm: number
  readonly gaussianMfdYUm: number
  readonly warnings: readonly string[]
}

const SAME = 0.01

/** Errors are those of farFieldMfd. */
export function farFieldAxes(alongX: FarFieldInput, alongY: FarFieldInput): FarFieldAxes {
  const x = farFieldMfd(alongX)
  const y = farFieldMfd(alongY)
  return { x, y, ...farFieldPair(x, y) }
}

/** Two results of the same mode, side by side. */
export function farFieldPair(x: FarFieldResult, y: FarFieldResult): Omit<FarFieldAxes, 'x' | 'y'> {
  const mean = (x.petermann2MfdUm + y.petermann2MfdUm) / 2
  const difference = Math.abs(x.petermann2MfdUm - y.petermann2MfdUm)
  const circular = difference <= Math.max(SAME * mean, Math.hypot(x.uncertaintyUm, y.uncertaintyUm))
  const named = (axis: string, warnings: readonly string[]) =>
    warnings.map((warning) => `Along ${axis}: ${warning}`)
  const warnings = [...named('x', x.warnings), ...named('y', y.warnings)]
  if (!circular) {
    warnings.unshift(
      `The two scans differ (${fixedText(x.petermann2MfdUm, 3)} and ${fixedText(y.petermann2MfdUm, 3)} µm); the Petermann II integral assumes circular symmetry. Use the per-axis Gaussian: ${fixedText(x.gaussianMfdUm, 3)} × ${fixedText(y.gaussianMfdUm, 3)} µm.`,
    )
  }
  return {
    circular,
    petermann2MfdUm: circular ? mean : null,
    gaussianMfdXUm: x.gaussianMfdUm,
    gaussianMfdYUm: y.gaussianMfdUm,
    warnings,
  }
}
