// The fundamental mode of a cross-section: window, grids of growing fineness, substrate, and what is wrong in words.

import { InputError, requireInRange } from '../../numerics/inputError'
import { autoWindow, edgeLevel } from './autoWindow'
import { type CrossSection, mirrorAxis, requireCrossSection } from './crossSection'
import { cutOffIndex } from './cutOff'
import { type Eigenmode, refineMode } from './fundamental'
import { mirrored } from './grid'
import { type GridAxes, interpolated } from './interpolate'
import { coarseMode, k2Of, type ModeOptions, operatorOn, type Problem } from './modeProblem'
import { gridOf, type ModeWindow, planGrid } from './modeWindow'
import type { WaveKind } from './waveOperator'

export const MODE_DEFAULTS = { cells: { x: 200, y: 150 } } as const
export const CELL_LIMITS = [24, 480] as const

/** Grids solved one after the other, each twice as fine as the one before. */
export const DOUBLINGS = 2

/** Amplitude at the border over the greatest; above it the window cuts the mode. */
export const EDGE_LIMIT = 0.02

/** One grid of the solution, for showing how it settles. */
export interface ModeLevel {
  readonly nx: number
  readonly ny: number
  readonly effectiveIndex: number
  readonly axes: GridAxes
  readonly field: Float64Array
}

export interface SolvedMode {
  readonly kind: WaveKind
  readonly wavelengthUm: number
  readonly effectiveIndex: number
  /** Index at which the mode would cease to be guided. */
  readonly cutOffIndex: number
  /** What was solved: the substrate replaced by the layer above it where `substrateTakenOut`. */
  readonly section: CrossSection
  readonly substrateTakenOut: boolean
  readonly substrateIndex: number
  readonly axes: GridAxes
  /** Row-major, index iy * nx + ix, at the centres of the cells; positive, its greatest value is 1. */
  readonly field: Float64Array
  /** All grids, the finest last. */
  readonly levels: readonly ModeLevel[]
  /** Greatest amplitude on the border. */
  readonly edgeLevel: number
  readonly residual: number
}

/** Why there is no mode; `message` is fit to be shown. */
export class NoModeError extends Error {
  readonly reason: 'cut-off' | 'too wide'
  constructor(reason: NoModeError['reason'], message: string) {
    super(message)
    this.name = 'NoModeError'
    this.reason = reason
  }
}

/** The substrate replaced by what lies above it, so that the mode does not run off into it. */
export function withoutSubstrate(section: CrossSection): CrossSection {
  return { ...section, substrateIndex: section.layers[0]?.index ?? section.coverIndex }
}

/** A substrate denser than every core draws all light; the mode is then solved without it, and leakage told apart. */
function mustLeaveOut({ substrateIndex, cores }: CrossSection): boolean {
  return substrateIndex >= Math.max(...cores.map((core) => core.index))
}

function wholeAxes(axes: GridAxes, mirrorUm: number | null): GridAxes {
  return mirrorUm === null ? axes : { x: mirrored(axes.x), y: axes.y }
}

function wholeField(field: Float64Array, nx: number, mirrorUm: number | null): Float64Array {
  if (mirrorUm === null) return field
  const ny = field.length / nx
  const out = new Float64Array(2 * field.length)
  for (let iy = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++) {
      const value = field[iy * nx + ix] as number
      out[iy * 2 * nx + nx + ix] = value
      out[iy * 2 * nx + nx - 1 - ix] = value
    }
  }
  return out
}

function* levelsOf(
  problem: Problem,
): Generator<number, { levels: readonly ModeLevel[]; residual: number; cutOff: number } | null, void> {
  const { section, options, plan } = problem
  const first = coarseMode(problem)
  if (first === null) return null
  const k2 = k2Of(options.wavelengthUm)
  const levelOf = (axes: GridAxes, mode: Eigenmode): ModeLevel => {
    const nx = axes.x.centres.length
    const whole = wholeAxes(axes, plan.mirrorUm)
    return {
      nx: whole.x.centres.length,
      ny: axes.y.centres.length,
      effectiveIndex: Math.sqrt(mode.value / k2),
      axes: whole,
      field: wholeField(mode.field, nx, plan.mirrorUm),
    }
  }
  const levels = [levelOf(first.axes, first.mode)]
  let { axes, mode } = first
  let spread = 0.1 * (mode.value - k2 * first.cutOff ** 2)
  let cutOff = first.cutOff
  for (let level = 1; level <= DOUBLINGS; level++) {
    yield level / (DOUBLINGS + 1.5)
    const finer = gridOf(plan, level)
    const guess = interpolated(mode.field, axes, finer)
    const next = refineMode(operatorOn(problem, finer), guess, mode.value + spread)
    spread = Math.max(1e-7 * next.value, Math.min(spread, Math.abs(next.value - mode.value)))
    axes = finer
    mode = next
    levels.push(levelOf(axes, mode))
    cutOff = cutOffIndex(section, options.kind, axes.y, options.wavelengthUm)
  }
  return { levels, residual: mode.residual, cutOff }
}

function noMode(section: CrossSection, kind: WaveKind, cutOff: number): NoModeError {
  const beside =
    cutOff > Math.max(section.substrateIndex, section.coverIndex)
      ? 'the layers beside the cores guide as well as the cores do'
      : 'the surroundings are too dense for it'
  return new NoModeError(
    'cut-off',
    `No ${kind} mode is guided here: its effective index would be ${cutOff.toFixed(4)} or less, and ${beside}. Make a core larger or denser, or the wavelength shorter.`,
  )
}

/** Progress from 0 to 1 on the way to the mode. Throws as `solveMode` does. */
export function* modeSteps(raw: CrossSection, options: ModeOptions): Generator<number, SolvedMode, void> {
  const section = requireCrossSection(raw)
  requireInRange('wavelengthUm', options.wavelengthUm, 0.2, 20)
  const cells = options.cells ?? MODE_DEFAULTS.cells
  requireInRange('cells.x', cells.x, ...CELL_LIMITS)
  requireInRange('cells.y', cells.y, ...CELL_LIMITS)
  for (const takenOut of mustLeaveOut(section) ? [true] : [false, true]) {
    const solved = takenOut ? withoutSubstrate(section) : section
    const mirrorUm = mirrorAxis(section)
    const window = options.window ?? autoWindow(solved, options, mirrorUm)
    if (window === null) {
      if (!takenOut && withoutSubstrate(section).substrateIndex < section.substrateIndex) continue
      throw noMode(solved, options.kind, Math.max(solved.substrateIndex, solved.coverIndex))
    }
    const plan = planGrid(solved, window, options.wavelengthUm, cells, DOUBLINGS, mirrorUm)
    const found = yield* levelsOf({ section: solved, options, plan })
    if (found === null) {
      if (!takenOut && withoutSubstrate(section).substrateIndex < section.substrateIndex) continue
      throw noMode(solved, options.kind, Math.max(solved.substrateIndex, solved.coverIndex))
    }
    const finest = found.levels.at(-1)
    if (finest === undefined) throw new Error('no level was solved')
    const edge = edgeLevel(finest.field, finest.nx)
    if (edge > EDGE_LIMIT) refuseEdge(options, window, edge)
    return {
      kind: options.kind,
      wavelengthUm: options.wavelengthUm,
      effectiveIndex: finest.effectiveIndex,
      cutOffIndex: found.cutOff,
      section: solved,
      substrateTakenOut: takenOut,
      substrateIndex: section.substrateIndex,
      axes: finest.axes,
      field: finest.field,
      levels: found.levels,
      edgeLevel: edge,
      residual: found.residual,
    }
  }
  throw noMode(section, options.kind, Math.max(section.substrateIndex, section.coverIndex))
}

function refuseEdge(options: ModeOptions, window: ModeWindow, edge: number): never {
  const { leftUm, rightUm, bottomUm, topUm } = window
  const size = `${(rightUm - leftUm).toFixed(1)} x ${(topUm - bottomUm).toFixed(1)} um`
  if (options.window !== undefined) {
    throw new InputError(
      'window',
      size,
      `wide enough for the field to fall below ${EDGE_LIMIT} of its peak; it is ${edge.toFixed(3)} at the border`,
    )
  }
  throw new NoModeError(
    'too wide',
    `The mode does not end within ${size}: it is close to cut-off, and no facet shows such a mode. Make a core larger or denser.`,
  )
}

/**
 * The fundamental mode. Throws InputError for a cross-section, window or cell count that cannot be used, and NoModeError
 * where no mode is guided or it is wider than any window.
 */
export function solveMode(section: CrossSection, options: ModeOptions): SolvedMode {
  const steps = modeSteps(section, options)
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}
