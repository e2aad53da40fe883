// A cross-section on a planned series of grids, and its mode on one of them: found without a first guess on the coarsest, and
// refined from the previous one on the others.

import type { CrossSection } from './crossSection'
import { cutOffIndex } from './cutOff'
import { type Eigenmode, findMode, refineMode } from './fundamental'
import { cellSizes, mirrored, mirroredField } from './grid'
import { type GridAxes, interpolated } from './interpolate'
import { integralOfProduct, type MagneticField, magneticField } from './magneticField'
import { type CellCounts, type GridPlan, gridOf, type ModeWindow } from './modeWindow'
import { slicesOf } from './slices'
import { refineVectorMode, type VectorMode } from './vectorMode'
import { type VectorOperator, vectorOperator } from './vectorOperator'
import { WALLS, type WaveKind, waveOperator } from './waveOperator'

export interface ModeOptions {
  /** TE and TM are full-vector; scalar is for weak guidance and for checks. */
  readonly kind: WaveKind
  readonly wavelengthUm: number
  /** Approximate number of cells across the whole window. */
  readonly cells?: CellCounts
  /** Chosen by the solver where absent. */
  readonly window?: ModeWindow
}

export interface Problem {
  readonly section: CrossSection
  readonly options: ModeOptions
  readonly plan: GridPlan
  /** Whether the lower border is the surface of a higher-index substrate, where the field ends. */
  readonly walled: boolean
}

/** A component of the field on its own grid; row-major, index iy * nx + ix. */
export interface Component {
  readonly axes: GridAxes
  readonly field: Float64Array
}

/** The mode on one grid; on the half of it where the structure is its own mirror image. */
export interface LevelMode {
  readonly value: number
  readonly residual: number
  /** The leading component, then, unless scalar, the other. */
  readonly components: readonly Component[]
  /** Magnetic field that goes with the leading component, and power: see magneticField.ts. */
  readonly magnetic: () => MagneticField
}

export const k2Of = (wavelengthUm: number): number => ((2 * Math.PI) / wavelengthUm) ** 2

function scalarOperator({ section, options, plan }: Problem, axes: GridAxes) {
  const borders = plan.mirrorUm === null ? WALLS : ({ ...WALLS, left: 'mirror' } as const)
  return waveOperator(
    'scalar',
    slicesOf(section, axes.y.faces),
    axes.x,
    axes.y,
    options.wavelengthUm,
    borders,
  )
}

function scalarLevel(axes: GridAxes, { value, field, residual }: Eigenmode, wavelengthUm: number): LevelMode {
  const magnetic = () => {
    const leading = field.map((each) => each * Math.sqrt(value / k2Of(wavelengthUm)))
    return { leading, flux: integralOfProduct(axes, field, leading) }
  }
  return { value, residual, components: [{ axes, field }], magnetic }
}

/** All of Ex, then all of Ey, from components in the order of their weight. */
function stacked(operator: VectorOperator, components: readonly Component[]): Float64Array {
  const { ex, ey, exAxes, eyAxes, polarisation } = operator
  const [leading, other] = components
  const [ofX, ofY] = polarisation === 'TE' ? [leading, other] : [other, leading]
  const out = new Float64Array(ex.nx * ex.ny + ey.nx * ey.ny)
  if (ofX !== undefined) out.set(interpolated(ofX.field, ofX.axes, exAxes))
  if (ofY !== undefined) out.set(interpolated(ofY.field, ofY.axes, eyAxes), ex.nx * ex.ny)
  return out
}

function vectorLevel(
  operator: VectorOperator,
  { value, field, residual }: VectorMode,
  wavelengthUm: number,
): LevelMode {
  const { ex, exAxes, eyAxes, polarisation } = operator
  const count = ex.nx * ex.ny
  const ofX = { axes: exAxes, field: field.slice(0, count) }
  const ofY = { axes: eyAxes, field: field.slice(count) }
  const components = polarisation === 'TE' ? [ofX, ofY] : [ofY, ofX]
  let peak = 0
  for (const each of components[0]?.field ?? []) if (Math.abs(each) > Math.abs(peak)) peak = each
  for (const component of components) {
    component.field.forEach((each, i) => {
      component.field[i] = each / peak
    })
  }
  const whole = field.map((each) => each / peak)
  return {
    value,
    residual,
    components,
    magnetic: () => magneticField(operator, whole, value, wavelengthUm),
  }
}

/** The leading component alone on the coarsest grid: scalar or semivectorial, which is more tightly bound than the full-vector mode. */
export interface LeadingMode {
  readonly leading: Component
  /** Its beta^2, in 1/um^2: the search on a similar grid begins there. */
  readonly foundAt: number
  /** Index below which no mode is guided. */
  readonly cutOff: number
  /** The whole mode; null where it is not guided. With the residual, as far as it takes to see where its field ends. */
  readonly whole: (residual?: number) => LevelMode | null
}

/** null where none is guided; `near` is `foundAt` of a similar problem. */
export function leadingMode(problem: Problem, near?: number): LeadingMode | null {
  const { section, options, plan, walled } = problem
  const { kind, wavelengthUm } = options
  const nodes = gridOf(plan, 0)
  const k2 = k2Of(wavelengthUm)
  const cutOff = cutOffIndex(section, kind, nodes.y, wavelengthUm, walled)
  const least = k2 * cutOff ** 2
  const densest = k2 * Math.max(...section.cores.map((core) => core.index), cutOff) ** 2
  if (kind === 'scalar') {
    const mode = findMode(scalarOperator(problem, nodes), least, densest, near)
    if (mode === null) return null
    const level = scalarLevel(nodes, mode, wavelengthUm)
    return { leading: { axes: nodes, field: mode.field }, foundAt: mode.value, cutOff, whole: () => level }
  }
  const operator = vectorOperator(kind, section, nodes, wavelengthUm, plan.mirrorUm !== null)
  const [own, axes] = kind === 'TE' ? [operator.ex, operator.exAxes] : [operator.ey, operator.eyAxes]
  const start = findMode(own, least, densest, near)
  if (start === null) return null
  const leading = { axes, field: start.field }
  const whole = (residual?: number) => {
    const above = start.value - least
    const low = least - 2 * above
    const high = start.value + 0.01 * above
    const sigma = start.value + 0.1 * above
    const wanted = { low, high, guessWeight: 0, ...(residual !== undefined && { residual }) }
    const mode = refineVectorMode(operator, stacked(operator, [leading]), sigma, wanted)
    return mode.value > least ? vectorLevel(operator, mode, wavelengthUm) : null
  }
  return { leading, foundAt: start.value, cutOff, whole }
}

/** The mode on the coarsest grid. */
interface CoarseMode extends LeadingMode {
  readonly mode: LevelMode
}

/** null where none is guided; `near` is `foundAt` of a similar problem. */
export function coarseMode(problem: Problem, near?: number): CoarseMode | null {
  const found = leadingMode(problem, near)
  const mode = found?.whole() ?? null
  return found === null || mode === null ? null : { ...found, mode }
}

/**
 * The mode on the grid of `doublings` doublings, starting from that of a coarser one. `least` is beta^2 at cut-off, `spread` the
 * approximate error of the coarser value.
 */
export function refinedMode(
  problem: Problem,
  doublings: number,
  coarser: LevelMode,
  least: number,
  spread: number,
): LevelMode {
  const { section, options, plan } = problem
  const nodes = gridOf(plan, doublings)
  const sigma = coarser.value + spread
  if (options.kind === 'scalar') {
    const [only] = coarser.components
    if (only === undefined) throw new Error('a mode has a component')
    const guess = interpolated(only.field, only.axes, nodes)
    return scalarLevel(nodes, refineMode(scalarOperator(problem, nodes), guess, sigma), options.wavelengthUm)
  }
  const operator = vectorOperator(options.kind, section, nodes, options.wavelengthUm, plan.mirrorUm !== null)
  const above = coarser.value - least
  const wanted = { low: least - 2 * above, high: coarser.value + 0.1 * above, guessWeight: 0.7 }
  return vectorLevel(
    operator,
    refineVectorMode(operator, stacked(operator, coarser.components), sigma, wanted),
    options.wavelengthUm,
  )
}

/** The leading component over the whole window, and its share of |E|^2. */
export function wholeMode(
  { plan }: Problem,
  { components }: LevelMode,
): Component & { readonly leadingShare: number } {
  const [leading, other] = components
  if (leading === undefined) throw new Error('a mode has a component')
  const power = ({ axes, field }: Component) => {
    const [hx, hy] = [cellSizes(axes.x), cellSizes(axes.y)]
    const nx = hx.length
    return field.reduce(
      (sum, value, i) => sum + value * value * (hx[i % nx] as number) * (hy[Math.floor(i / nx)] as number),
      0,
    )
  }
  const [own, rest] = [power(leading), other === undefined ? 0 : power(other)]
  const whole =
    plan.mirrorUm === null
      ? leading
      : {
          axes: { x: mirrored(leading.axes.x), y: leading.axes.y },
          field: mirroredField(leading.field, leading.axes.x, 1),
        }
  return { ...whole, leadingShare: own / (own + rest) }
}

/** The magnetic field that goes with the leading component over the whole window, and the power of the whole mode. */
export function wholeMagnetic({ plan }: Problem, { components, magnetic }: LevelMode): MagneticField {
  const { leading, flux } = magnetic()
  const axes = components[0]?.axes
  if (plan.mirrorUm === null || axes === undefined) return { leading, flux }
  return { leading: mirroredField(leading, axes.x, 1), flux: 2 * flux }
}
