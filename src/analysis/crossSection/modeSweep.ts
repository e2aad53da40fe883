// The mode of a cross-section over a range of one of its sizes, or of the wavelength, with the size that couples best.

import type { CrossSectionEntry } from '../../model/crossSection'
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
  /** Null where there is no mode; `message` then says why. */
  readonly numbers: FacetModeNumbers | null
  readonly message: string
}

export interface SweepResult {
  readonly points: readonly SweepPoint[]
  /** The value of least loss against the fibre, between points by a parabola; null without a fibre or a mode. */
  readonly best: { readonly value: number; readonly lossDb: number; readonly atEnd: boolean } | null
}

export const SWEEP_POINTS = [2, 100] as const

/** Vertex of the parabola through three equally spaced points, in steps from the middle one, and its height. */
function vertex(
  before: number,
  at: number,
  after: number,
): { readonly shift: number; readonly value: number } {
  const curve = before - 2 * at + after
  if (!(curve > 0)) return { shift: 0, value: at }
  const shift = (before - after) / (2 * curve)
  return { shift, value: at - ((before - after) * shift) / 4 }
}

export function bestOf(points: readonly SweepPoint[]): SweepResult['best'] {
  const losses = points.map((point) => point.numbers?.fibreLoss?.fieldDb ?? Number.POSITIVE_INFINITY)
  let at = 0
  losses.forEach((loss, i) => {
    if (loss < (losses[at] ?? Number.POSITIVE_INFINITY)) at = i
  })
  const least = losses[at] ?? Number.POSITIVE_INFINITY
  const point = points[at]
  if (point === undefined || !Number.isFinite(least)) return null
  const before = losses[at - 1] ?? Number.POSITIVE_INFINITY
  const after = losses[at + 1] ?? Number.POSITIVE_INFINITY
  if (!Number.isFinite(before) || !Number.isFinite(after)) {
    return { value: point.value, lossDb: least, atEnd: true }
  }
  const { shift, value } = vertex(before, least, after)
  const step = (points[at + 1]?.value ?? point.value) - point.value
  return { value: point.value + shift * step, lossDb: value, atEnd: false }
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
  requireInRange('points', points, ...SWEEP_POINTS)
  if (!Number.isInteger(points)) throw new InputError('points', points, 'a whole number')
  if (!(to > from)) throw new InputError('to', to, `above ${from}, where the sweep begins`)
  const found: SweepPoint[] = []
  for (let i = 0; i < points; i++) {
    const steps = onePoint(request, from + ((to - from) * i) / (points - 1))
    for (;;) {
      const step = steps.next()
      if (step.done) {
        found.push(step.value)
        break
      }
      yield (i + step.value) / points
    }
    yield (i + 1) / points
  }
  return { points: found, best: bestOf(found) }
}
