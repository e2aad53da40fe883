// Leakage of a mode through the layer below it into a substrate of higher index, to first order in the tunnelling: every plane
// wave of the field at the substrate's surface meets the index step, and the transmitted part carries power away.
//   TE  2 alpha = int dkx/2pi  q^2 / (k beta^2)  ks |E'(kx)|^2 / (g^2 + ks^2) / P
//   TM  2 alpha = int dkx/2pi  k / q^2  (ks / eps_substrate) |E'|^2 / (g^2 / eps_layer^2 + ks^2 / eps_substrate^2) / P
//   q^2 = beta^2 + kx^2,  g^2 = q^2 - k^2 eps_layer,  ks^2 = k^2 eps_substrate - q^2,  P = int (E x H)z with H = n E of a plane wave
// E' is the slope at a wall at the surface for the same arriving wave. A field solved with a wall at the depth d has at the height p
// E(p) = E' exp(-g d) sinh[g (p + d)] / g; where its window ends above the surface, E(p) = E' exp(g p) / (2 g).
// Source: derived here from Fresnel's formulas for evanescent waves; compared in tests with the exact leaky slab and with an
// absorbing border. Valid while the loss is small; reflections from below are neglected.

import { stackIndexAt } from './crossSection'
import { cellSizes } from './grid'
import { linearPositions } from './interpolate'
import type { SolvedMode } from './solveMode'

export interface Leakage {
  readonly dbPerMm: number
  /** Intensity at the substrate's surface over that at the peak. */
  readonly surfaceShare: number
}

const POINTS = 256
const CLEAR_OF_BORDER = 0.25
/** The spectrum of a line is cut off at this many inverse standard deviations of its intensity. */
const SPECTRUM_REACH = 8

/** Standard deviation of the intensity along a line. */
function spreadOf(line: Float64Array, positions: Float64Array, sizes: Float64Array): number {
  let [power, first, second] = [0, 0, 0]
  line.forEach((value, i) => {
    const position = positions[i] as number
    const weight = value * value * (sizes[i] as number)
    power += weight
    first += weight * position
    second += weight * position * position
  })
  return Math.sqrt(second / power - (first / power) ** 2)
}
const DB_PER_NEPER_POWER = 10 / Math.LN10

/**
 * Height at which the field is read: the substrate's surface, or, where the window ends above it, a height inside it that
 * the border does not yet disturb. From there each wave decays as in the lowest layer; null where that layer does not extend that far up.
 */
function readingPosition({ axes, section }: SolvedMode): number | null {
  const lowest = axes.y.ends[0]
  const core = Math.min(...section.cores.map((each) => each.bottomUm))
  const positionUm = Math.max(0, lowest + CLEAR_OF_BORDER * (core - lowest))
  return positionUm <= (section.layers[0]?.thicknessUm ?? 0) ? positionUm : null
}

/**
 * Slope at a wall at the surface of the wave that arrives there as one of unit amplitude at the height `positionUm` does;
 * `decaySquared` is its decay rate squared, 1/um^2, and `depthUm` that of the wall it was solved with, null where none was met.
 */
function slopeAtSurface(decaySquared: number, positionUm: number, depthUm: number | null): number {
  const rate = Math.sqrt(Math.abs(decaySquared))
  if (depthUm === null) return decaySquared > 0 ? 2 * rate * Math.exp(-rate * positionUm) : 0
  const phase = rate * (positionUm + depthUm)
  if (phase < 1e-6) return 1 / (positionUm + depthUm)
  return decaySquared > 0 ? (rate * Math.exp(rate * depthUm)) / Math.sinh(phase) : rate / Math.sin(phase)
}

/** Loss into the substrate, or null where the mode is slower than light in the substrate and none leaks. */
export function substrateLeakage(mode: SolvedMode): Leakage | null {
  const { axes, field, kind, wavelengthUm, effectiveIndex, substrateIndex, section } = mode
  const k = (2 * Math.PI) / wavelengthUm
  if (effectiveIndex >= substrateIndex) return null
  const { x, y } = axes
  const nx = x.centres.length
  const positionUm = readingPosition(mode)
  if (positionUm === null) return { dbPerMm: 0, surfaceShare: 0 }
  const line = new Float64Array(nx)
  const { at, part } = linearPositions(y.centres, Float64Array.of(positionUm))
  const [row, share] = [at[0] as number, part[0] as number]
  for (let i = 0; i < nx; i++) {
    line[i] = (1 - share) * (field[row * nx + i] as number) + share * (field[(row + 1) * nx + i] as number)
  }
  const layer = stackIndexAt(section, 1e-9) ** 2
  const [epsLayer, epsBelow] = kind === 'TM' ? [layer, substrateIndex ** 2] : [1, 1]
  const hx = cellSizes(x)
  const depthUm = mode.substrateTakenOut && y.ends[0] <= 0 ? -y.ends[0] : null
  const betaSquared = (k * effectiveIndex) ** 2
  const most = Math.sqrt(k * k * substrateIndex ** 2 - betaSquared)
  const reach = Math.min(most, SPECTRUM_REACH / spreadOf(line, x.centres, hx))
  let flux = 0
  let surface = 0
  for (let m = 0; m < POINTS; m++) {
    const kx = ((m + 0.5) * reach) / POINTS
    let re = 0
    let im = 0
    for (let i = 0; i < nx; i++) {
      const weight = (line[i] as number) * (hx[i] as number)
      re += weight * Math.cos(kx * (x.centres[i] as number))
      im += weight * Math.sin(kx * (x.centres[i] as number))
    }
    const decaySquared = betaSquared + kx * kx - k * k * layer
    const slope = Math.hypot(re, im) * slopeAtSurface(decaySquared, positionUm, depthUm)
    const substrateSquared = most * most - kx * kx
    const weight = Math.max(0, decaySquared) / epsLayer ** 2 + substrateSquared / epsBelow ** 2
    surface += (2 * (slope / epsLayer) * reach) / Math.sqrt(weight) / POINTS / (2 * Math.PI)
    // Both signs of kx, hence twice.
    const along = betaSquared + kx * kx
    const through = ((Math.sqrt(substrateSquared) / epsBelow) * (slope * slope)) / weight
    flux += 2 * through * (kind === 'TM' ? k / along : along / (k * betaSquared))
  }
  flux *= reach / POINTS / (2 * Math.PI)
  return {
    dbPerMm: (1000 * DB_PER_NEPER_POWER * flux) / mode.magnetic.flux,
    surfaceShare: Math.min(1, surface * surface),
  }
}
