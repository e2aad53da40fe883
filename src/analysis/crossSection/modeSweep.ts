// The mode of a cross-section over a range of one of its sizes, or of the wavelength, with the size that couples best.

import type { CrossSectionEntry } from '../../model/schema/crossSection'
import { InputError, requireInRange } from '../../numerics/inputError'
import { modeSteps, NoModeError } from '../../optics/index'
import { type FacetModeNumbers, type ModeRequest, numbersOf } from './facetMode'
import { opticsSection } from './opticsSection'
import { type SweepVariable, setVariable } from './sweepVariable'

export interface SweepRequest extends ModeRequest {
  readonly variable: SweepVariable
  /** In the core's unit. */
  readonly from: number
  readonly to: number
  readonly points: number
}

export interface SweepPoint {
  readonly value: number
  /** Null without a guided mode; `message` then gives the reason. */
  readonly numbers: FacetModeNumbers | null
  readonly message: string
}

export interface SweepResult {
  /** Rising; besides the values of the range, one more where a parabola through the best three puts the lowest loss. */
  readonly points: readonly SweepPoint[]
  /** The value of lowest loss against the fibre among them; null without a fibre or a mode. */
  readonly best: { readonly value: number; readonly lossDb: number; readonly atEnd: boolean } | null
}

const SWEEP_POINTS = [2, 100] as const

const lossOf = (point: SweepPoint | undefined) =>
  point?.numbers?.fibreLoss?.fieldDb ?? Number.POSITIVE_INFINITY

function indexOfBest(points: readonly SweepPoint[]): number {
  return points.reduce((least, point, at) => (lossOf(point) < lossOf(points[least]) ? at : least), 0)
}

/** The point of lowest loss. It is `atEnd` where one of its neighbours is missing or has no mode. */
export function bestOf(points: readonly SweepPoint[]): SweepResult['best'] {
  const at = indexOfBest(points)
  const [point, lossDb] = [points[at], lossOf(points[at])]
  if (point === undefined || !Number.isFinite(lossDb)) return null
  const between = Number.isFinite(lossOf(points[at - 1])) && Number.isFinite(lossOf(points[at + 1]))
  return { value: point.value, lossDb, atEnd: !between }
}

/**
 * Where the parabola through the best point and its neighbours, equally spaced, is least. Null where the best has not two
 * neighbours with a mode. What the loss is there has to be solved: next to a cut-off a parabola dips below any real loss.
 */
export function betweenPoints(points: readonly SweepPoint[]): number | null {
  const at = indexOfBest(points)
  const [before, least, after] = [points[at - 1], points[at], points[at + 1]].map(lossOf)
  const value = points[at]?.value
  const next = points[at + 1]?.value
  if (before === undefined || least === undefined || after === undefined) return null
  if (value === undefined || next === undefined) return null
  const curve = before - 2 * least + after
  if (!Number.isFinite(curve) || curve <= 0) return null
  const position = value + ((next - value) * (before - after)) / (2 * curve)
  return position === value ? null : position
}

function* onePoint(request: SweepRequest, value: number): Generator<number, SweepPoint, void> {
  const { section, variable, cells, fibre } = request
  const wavelengthUm = variable.kind === 'wavelength' ? value : request.wavelengthUm
  const changed: CrossSectionEntry = structuredClone(section)
  setVariable(changed, variable, value)
  try {
    const mode = yield* modeSteps(opticsSection(changed, wavelengthUm), {
      kind: section.polarisation,
      wavelengthUm,
      cells,
    })
    return { value, numbers: numbersOf(mode, fibre), message: '' }
  } catch (error) {
    if (!(error instanceof NoModeError) && !(error instanceof InputError)) throw error
    return { value, numbers: null, message: error.message }
  }
}

/** Progress from 0 to 1. A value without a mode stays in the list with its reason; a range that is none is refused. */
export function* sweepSteps(request: SweepRequest): Generator<number, SweepResult, void> {
  const { from, to, points } = request
  requireInRange('number of points', points, ...SWEEP_POINTS)
  if (!Number.isInteger(points)) throw new InputError('number of points', points, 'a whole number')
  if (!(to > from)) throw new InputError('end of the sweep', to, `above its start, ${from}`)
  const found: SweepPoint[] = []
  /** The last point of all is the one between. */
  const all = points + 1
  function* add(value: number, at: number): Generator<number, void, void> {
    const steps = onePoint(request, value)
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done) {
        found.push(step.value)
        return
      }
      yield (at + step.value) / all
    }
  }
  for (let i = 0; i < points; i++) {
    yield* add(from + ((to - from) * i) / (points - 1), i)
    yield (i + 1) / all
  }
  const between = betweenPoints(found)
  if (between !== null) yield* add(between, points)
  yield 1
  const sorted = found.toSorted((a, b) => a.value - b.value)
  return { points: sorted, best: bestOf(sorted) }
}
