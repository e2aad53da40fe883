// Everything that is shown of the mode of a facet's cross-section: numbers with their uncertainty, the field, warnings.

import type { CrossSectionEntry } from '../../model/schema/crossSection'
import type { FibreEntry } from '../../model/schema/parts'
import {
  coreShare,
  couplingField,
  type FibreModeKind,
  fibreOverlap,
  type GradedField,
  gradedField,
  type Leakage,
  lossDb,
  type ModeWidths,
  modeSteps,
  modeWidths,
  type SampledField,
  type SolvedMode,
  sampledMode,
  stepIndexMode,
  substrateLeakage,
} from '../../optics/index'
import { mapHostWarnings } from './mapHost'
import { modeWarnings } from './modeWarnings'
import { fibreModeKind, opticsSection } from './opticsSection'

export interface ModeRequest {
  readonly section: CrossSectionEntry
  readonly wavelengthUm: number
  /** The fibre that the facet is compared with, for the coupling. */
  readonly fibre: FibreEntry | null
  readonly cells: { readonly x: number; readonly y: number }
}

/** Loss against the fibre at the best place, faces in contact, from the field and from the two best Gaussians. */
interface FibreLoss {
  readonly fieldDb: number
  readonly gaussianDb: number
}

interface LevelRow {
  readonly nx: number
  readonly ny: number
  readonly effectiveIndex: number
  readonly mfdXUm: number
  readonly mfdYUm: number
}

export interface FacetModeNumbers {
  readonly wavelengthUm: number
  readonly effectiveIndex: number
  readonly cutOffIndex: number
  /** Approximate change if the cells were halved once more. */
  readonly indexErrorEstimate: number
  readonly widths: ModeWidths
  readonly coreShare: number
  /** Share of the leading component in |E|^2. */
  readonly leadingShare: number
  /** Null where the mode cannot leak into the substrate. */
  readonly leakage: Leakage | null
  readonly fibreLoss: FibreLoss | null
  readonly warnings: readonly string[]
}

export interface FacetMode extends FacetModeNumbers {
  readonly levels: readonly LevelRow[]
  readonly mfdErrorEstimateUm: { readonly x: number; readonly y: number }
  /** The field about the centre of its best Gaussian, for pictures. */
  readonly picture: SampledField
  /** What couples, as a joint takes it. */
  readonly coupling: SolvedField
  /** Amplitudes through the peak. */
  readonly cuts: { readonly x: Cut; readonly y: Cut }
}

export interface Cut {
  readonly positionUm: Float64Array
  readonly field: Float64Array
}

/** The solved mode of a cross-section as a joint takes it. */
export interface SolvedField {
  readonly field: SampledField
  /** See couplingField.ts. */
  readonly powerShare: number
  readonly graded?: GradedField
}

interface Square {
  /** Side in second-moment diameters of the wider axis, and cells along it. */
  readonly diameters: number
  readonly cells: number
}

const PICTURE: Square = { diameters: 2.2, cells: 160 }
/** At its edge a mode has fallen to a thousandth of its amplitude; a narrower square causes errors of tenths of a decibel. */
const JOINT: Square = { diameters: 5.5, cells: 256 }

/** Overlap of two Gaussians along one axis. */
const alongAxis = (a: number, b: number) => (2 * a * b) / (a * a + b * b)

function gaussianOf(fibre: FibreModeKind, wavelengthUm: number) {
  if (fibre.kind === 'gaussian') return { x: fibre.mfdXUm, y: fibre.mfdYUm }
  const { bestGaussianMfdUm } = stepIndexMode({ ...fibre, wavelengthUm })
  return { x: bestGaussianMfdUm, y: bestGaussianMfdUm }
}

function fibreLossOf(mode: SolvedMode, widths: ModeWidths, fibre: FibreEntry | null): FibreLoss | null {
  if (fibre === null) return null
  const kind = fibreModeKind(fibre)
  const round = gaussianOf(kind, mode.wavelengthUm)
  const { mfdUm } = widths.gaussian
  return {
    fieldDb: lossDb(fibreOverlap(mode, widths, kind).efficiency),
    gaussianDb: lossDb(alongAxis(mfdUm.x, round.x) * alongAxis(mfdUm.y, round.y)),
  }
}

/** What finer grids would still change: the last doubling divided by three, as errors fall by four. */
function settled(values: readonly number[]): number {
  return Math.abs((values.at(-1) ?? 0) - (values.at(-2) ?? 0)) / 3
}

export function numbersOf(mode: SolvedMode, fibre: FibreEntry | null): FacetModeNumbers {
  const widths = modeWidths(mode)
  const leakage = substrateLeakage(mode)
  const indexErrorEstimate = settled(mode.levels.map((level) => level.effectiveIndex))
  return {
    wavelengthUm: mode.wavelengthUm,
    effectiveIndex: mode.effectiveIndex,
    cutOffIndex: mode.cutOffIndex,
    indexErrorEstimate,
    widths,
    coreShare: coreShare(mode),
    leadingShare: mode.leadingShare,
    leakage,
    fibreLoss: fibreLossOf(mode, widths, fibre),
    warnings: modeWarnings(mode, widths, leakage, indexErrorEstimate),
  }
}

/** The field that couples as E and H do: the solver's own grid, and samples as far as the tails matter. */
function couplingOf(mode: SolvedMode, widths: ModeWidths): SolvedField {
  const { field, powerShare } = couplingField(mode)
  return {
    field: squareOf({ ...mode, field }, widths, JOINT),
    powerShare,
    graded: gradedField(mode, field, widths.gaussian.centreUm),
  }
}

function squareOf(
  mode: SolvedMode,
  { secondMomentUm, gaussian }: ModeWidths,
  { diameters, cells }: Square,
): SampledField {
  const stepUm = (diameters * Math.max(secondMomentUm.x, secondMomentUm.y)) / cells
  return sampledMode(
    mode,
    {
      nx: cells,
      ny: cells,
      dxUm: stepUm,
      dyUm: stepUm,
      centreXUm: gaussian.centreUm.x,
      centreYUm: gaussian.centreUm.y,
    },
    1,
  )
}

function cutsOf({ axes, field }: SolvedMode): FacetMode['cuts'] {
  const nx = axes.x.centres.length
  let peak = 0
  field.forEach((value, i) => {
    if (value > (field[peak] as number)) peak = i
  })
  const ix = peak % nx
  const row = peak - ix
  return {
    x: { positionUm: axes.x.centres, field: field.slice(row, row + nx) },
    y: { positionUm: axes.y.centres, field: axes.y.centres.map((_, iy) => field[iy * nx + ix] as number) },
  }
}

/** Solves a facet's cross-section. Throws InputError and NoModeError as the solver does. */
export function* facetModeSteps(request: ModeRequest): Generator<number, FacetMode, void> {
  const { section, wavelengthUm, fibre, cells } = request
  const mode = yield* modeSteps(opticsSection(section, wavelengthUm), {
    kind: section.polarisation,
    wavelengthUm,
    cells,
  })
  const numbers = numbersOf(mode, fibre)
  const levels = mode.levels.map(({ nx, ny, effectiveIndex, axes, field }) => {
    const { mfdUm } = modeWidths({ axes, field, wavelengthUm }).gaussian
    return { nx, ny, effectiveIndex, mfdXUm: mfdUm.x, mfdYUm: mfdUm.y }
  })
  return {
    ...numbers,
    warnings: [...mapHostWarnings(section, wavelengthUm), ...numbers.warnings],
    levels,
    mfdErrorEstimateUm: {
      x: settled(levels.map((level) => level.mfdXUm)),
      y: settled(levels.map((level) => level.mfdYUm)),
    },
    picture: squareOf(mode, numbers.widths, PICTURE),
    coupling: couplingOf(mode, numbers.widths),
    cuts: cutsOf(mode),
  }
}
