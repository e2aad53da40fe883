// The fundamental mode of a cross-section: window, successively finer grids, substrate, and the reason if no mode is guided.

import { InputError, RefusalError, requireInRange } from '../../numerics/inputError'
import { fixedText } from '../../numerics/numberText'
import { autoWindow, COARSE, edgeLevel, type FoundWindow } from './autoWindow'
import { type CrossSection, mirrorAxis, requireCrossSection, stackIndexAt } from './crossSection'
import { cutOffIndex } from './cutOff'
import type { GridAxes } from './interpolate'
import type { MagneticField } from './magneticField'
import {
  coarseMode,
  k2Of,
  type LevelMode,
  type ModeOptions,
  type Problem,
  refinedMode,
  wholeMagnetic,
  wholeMode,
} from './modeProblem'
import { coreBox, gridOf, type ModeWindow, planGrid, widened } from './modeWindow'
import { wallDepthUm } from './substrateWall'
import type { WaveKind } from './waveOperator'

export const MODE_DEFAULTS = { cells: { x: 200, y: 150 } } as const
const CELL_LIMITS = [24, 480] as const

/** Grids solved one after the other, each twice as fine as the one before. */
const DOUBLINGS = 2

/** Amplitude at the border relative to the peak; above this value the window truncates the mode. */
const EDGE_LIMIT = 0.02

/** One grid of the solution, to show its convergence. */
interface ModeLevel {
  readonly nx: number
  readonly ny: number
  readonly effectiveIndex: number
  readonly axes: GridAxes
  readonly field: Float64Array
  readonly leadingShare: number
}

export interface SolvedMode {
  readonly kind: WaveKind
  readonly wavelengthUm: number
  readonly effectiveIndex: number
  /** Index at which the mode would cease to be guided. */
  readonly cutOffIndex: number
  /** What was solved: the substrate replaced by the layer above it where `substrateTakenOut`. */
  readonly section: CrossSection
  /** Whether a higher-index substrate was left out; the field then ends at its surface, if it reaches that far. */
  readonly substrateTakenOut: boolean
  readonly substrateIndex: number
  readonly axes: GridAxes
  /** The leading component, row-major, index iy * nx + ix, at the centres of the axes; its greatest value is 1. */
  readonly field: Float64Array
  /** Share of the leading component in |E|^2. */
  readonly leadingShare: number
  /** Magnetic field that goes with the leading component on its grid, and power of the whole mode: see magneticField.ts. */
  readonly magnetic: MagneticField
  /** All grids, the finest last. */
  readonly levels: readonly ModeLevel[]
  /** Greatest amplitude on the border. */
  readonly edgeLevel: number
  readonly residual: number
}

/** Why no mode was found; `message` may be shown as it is. */
export class NoModeError extends RefusalError {
  readonly reason: 'cut-off' | 'too wide'
  constructor(reason: NoModeError['reason'], message: string) {
    super(message)
    this.name = 'NoModeError'
    this.reason = reason
  }
}

/** The substrate replaced by what lies above it, so that the mode does not leak into it. */
function withoutSubstrate(section: CrossSection): CrossSection {
  return { ...section, substrateIndex: section.layers[0]?.index ?? section.coverIndex }
}

/**
 * No mode is guided above a substrate of higher index than every core: all of them leak. The leaky mode is then solved with a
 * wall at the substrate's surface, since a large index step reflects almost as completely; the leakage is found from it.
 */
function mustLeaveOut({ substrateIndex, cores }: CrossSection): boolean {
  return substrateIndex >= Math.max(...cores.map((core) => core.index))
}

interface Solution {
  readonly levels: readonly ModeLevel[]
  readonly magnetic: MagneticField
  readonly residual: number
  readonly cutOff: number
}

function* levelsOf(problem: Problem, near?: number): Generator<number, Solution | null, void> {
  const { section, options, plan } = problem
  const first = coarseMode(problem, near)
  if (first === null) return null
  const k2 = k2Of(options.wavelengthUm)
  const levelOf = (mode: LevelMode): ModeLevel => {
    const { axes, field, leadingShare } = wholeMode(problem, mode)
    const effectiveIndex = Math.sqrt(mode.value / k2)
    const nodes = gridOf(plan, levels.length)
    const nx = nodes.x.centres.length * (plan.mirrorUm === null ? 1 : 2)
    return { nx, ny: nodes.y.centres.length, effectiveIndex, axes, field, leadingShare }
  }
  const levels: ModeLevel[] = []
  let { mode, cutOff } = first
  levels.push(levelOf(mode))
  let spread = 0.1 * (mode.value - k2 * cutOff ** 2)
  for (let doublings = 1; doublings <= DOUBLINGS; doublings++) {
    yield doublings / (DOUBLINGS + 1.5)
    const next = refinedMode(problem, doublings, mode, k2 * cutOff ** 2, spread)
    spread = Math.max(1e-7 * next.value, Math.min(spread, Math.abs(next.value - mode.value) / 2))
    mode = next
    levels.push(levelOf(mode))
  }
  const finest = gridOf(plan, DOUBLINGS).y
  cutOff = cutOffIndex(section, options.kind, finest, options.wavelengthUm, problem.walled)
  return { levels, magnetic: wholeMagnetic(problem, mode), residual: mode.residual, cutOff }
}

function noMode(section: CrossSection, { kind, wavelengthUm }: ModeOptions): NoModeError {
  const halfSpaces = Math.max(section.substrateIndex, section.coverIndex)
  const y = gridOf(
    planGrid(
      section,
      widened(coreBox(section), 10 * wavelengthUm),
      wavelengthUm,
      MODE_DEFAULTS.cells,
      0,
      null,
    ),
    0,
  ).y
  const cutOff = cutOffIndex(section, kind, y, wavelengthUm, false)
  const beside =
    cutOff > halfSpaces
      ? 'the adjacent layers guide as strongly as the cores'
      : 'the surroundings of the cores have too high an index'
  return new NoModeError(
    'cut-off',
    `No ${kind} mode is guided here: its effective index would be ${fixedText(cutOff, 4)} or less, and ${beside}. Use a larger core, a higher core index or a shorter wavelength.`,
  )
}

/** The requested window or one found for the mode, no deeper than the floor; null where no mode is guided. */
function windowOf(
  section: CrossSection,
  options: ModeOptions,
  mirrorUm: number | null,
  floorUm: number,
  near?: number,
): FoundWindow | null {
  if (options.window === undefined) return autoWindow(section, options, mirrorUm, floorUm, near)
  return { window: { ...options.window, bottomUm: Math.max(floorUm, options.window.bottomUm) } }
}

/** A window for the mode, and how far down the field reaches at most. */
interface Placed extends FoundWindow {
  readonly floorUm: number
}

/**
 * With a wall that stands for the substrate, at the height that follows from the mode above a wall at its surface; null where no
 * mode is guided there.
 */
function aboveWall(
  solved: CrossSection,
  substrateIndex: number,
  options: ModeOptions,
  mirrorUm: number | null,
): Placed | null {
  const { kind, wavelengthUm } = options
  const atSurface = windowOf(solved, options, mirrorUm, 0)
  if (atSurface === null) return null
  const { window } = atSurface
  const plan = planGrid(solved, window, wavelengthUm, COARSE, 0, mirrorUm)
  const problem = { section: solved, options, plan, walled: window.bottomUm === 0 }
  const found = coarseMode(problem, atSurface.foundAt)
  if (found === null) return { ...atSurface, floorUm: 0 }
  const { foundAt } = found
  const index = Math.sqrt(found.mode.value / k2Of(wavelengthUm))
  const floorUm = -wallDepthUm(kind, wavelengthUm, index, stackIndexAt(solved, 1e-9), substrateIndex)
  const placed = windowOf(solved, options, mirrorUm, floorUm, foundAt)
  return placed === null ? null : { ...placed, floorUm, foundAt }
}

/** With nothing left out. */
function onSubstrate(section: CrossSection, options: ModeOptions, mirrorUm: number | null): Placed | null {
  const floorUm = Number.NEGATIVE_INFINITY
  const found = windowOf(section, options, mirrorUm, floorUm)
  return found === null ? null : { ...found, floorUm }
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
    const placed = takenOut
      ? aboveWall(solved, section.substrateIndex, options, mirrorUm)
      : onSubstrate(section, options, mirrorUm)
    if (placed === null) {
      if (!takenOut && withoutSubstrate(section).substrateIndex < section.substrateIndex) continue
      throw noMode(solved, options)
    }
    const { window, floorUm, foundAt } = placed
    const plan = planGrid(solved, window, options.wavelengthUm, cells, DOUBLINGS, mirrorUm)
    const walled = window.bottomUm === floorUm
    const found = yield* levelsOf({ section: solved, options, plan, walled }, foundAt)
    if (found === null) {
      if (!takenOut && withoutSubstrate(section).substrateIndex < section.substrateIndex) continue
      throw noMode(solved, options)
    }
    const finest = found.levels.at(-1)
    if (finest === undefined) throw new Error('no level was solved')
    const edge = edgeLevel(finest.field, finest.axes.x.centres.length, walled)
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
      leadingShare: finest.leadingShare,
      magnetic: found.magnetic,
      levels: found.levels,
      edgeLevel: edge,
      residual: found.residual,
    }
  }
  throw noMode(section, options)
}

function refuseEdge(options: ModeOptions, window: ModeWindow, edge: number): never {
  const cells = options.cells ?? MODE_DEFAULTS.cells
  const { leftUm, rightUm, bottomUm, topUm } = window
  const size = `${fixedText(rightUm - leftUm, 1)} × ${fixedText(topUm - bottomUm, 1)} µm`
  if (options.window !== undefined) {
    throw new InputError(
      'window',
      size,
      `wide enough for the field to fall below ${EDGE_LIMIT} of its peak; it is ${fixedText(edge, 3)} at the border`,
    )
  }
  throw new NoModeError(
    'too wide',
    `The mode extends beyond ${size}: it is close to cut-off, where a real facet guides no light, or ${cells.x} × ${cells.y} cells are too few for it. Use more cells, a larger core or a higher core index.`,
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
