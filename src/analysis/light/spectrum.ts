// Loss over wavelength with everything that disperses: fibre and facet modes, indices, lenses, coatings, pointing.
// Pointing and alignment stay those at the project's wavelength.

import { failure, type Result, success } from '../../model/issue'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { nmOf } from '../../numerics/numberText'
import { etalonFactor, NO_LIGHT_DB } from '../../optics/index'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/valueReaders'
import type { LineKind } from '../results/evaluation'
import { shownBand, wavelengthsUm, withinData } from './band'
import { chainReflections, totalReturns } from './chainReflections'
import { dispersionNotes } from './dispersionNotes'

const SPECTRUM_DEFAULTS = {
  points: 201,
  /** Parts and return loss have no ripple, and need fewer points. */
  coarsePoints: 41,
} as const

/** Excess losses whose bandwidth is given. */
const BANDWIDTH_DB = [0.5, 1] as const

interface Bandwidth {
  readonly excessDb: number
  readonly fromUm: number
  readonly toUm: number
  /** True where the loss has not grown that far by the edge of the spectrum. */
  readonly openBelow: boolean
  readonly openAbove: boolean
}

interface SpectrumPart {
  readonly kind: LineKind
  readonly lossesDb: Float64Array
}

export interface Spectrum {
  readonly wavelengthsUm: Float64Array
  /** Single passes only, as in the budget. */
  readonly lossesDb: Float64Array
  /** The same with the round trips between the faces of every gap. */
  readonly rippledDb: Float64Array
  /** Wavelengths of the parts and of the return loss. */
  readonly coarseUm: Float64Array
  /** Sums over the lines of one kind, those that are not 0 throughout. */
  readonly parts: readonly SpectrumPart[]
  /** Powers of all faces added, dB; NO_LIGHT_DB where nothing reflects. */
  readonly returnLossesDb: Float64Array
  readonly designUm: number
  readonly designDb: number
  /** Of the single passes, as the budget has them. */
  readonly leastDb: number
  readonly leastUm: number
  readonly worstDb: number
  readonly worstUm: number
  /** With the gaps exactly as entered: half a period further the ripple has the opposite sign. */
  readonly rippledLeastDb: number
  readonly rippledWorstDb: number
  /** Greatest difference between the rippled and the single-pass loss, dB. */
  readonly rippleDb: number
  /** Counted from the lowest loss. */
  readonly bandwidths: readonly Bandwidth[]
  /** What was held constant or extrapolated. */
  readonly notes: readonly string[]
}

/** Loss that the round trips of all gaps add; negative at a ripple maximum. */
function rippleLossDb(compiled: CompiledCandidate, v: Values): number {
  let sum = 0
  for (const join of compiled.joins) {
    const series = join.etalon?.(v) ?? null
    if (series !== null) sum -= 10 * Math.log10(etalonFactor(series, series.phaseRad))
  }
  return sum
}

/**
 * The spectrum over a band, or every reason why there is none: a material or a core outside the range of its model is
 * refused by name.
 */
export function spectrum(
  project: Project,
  candidateId: string,
  bandUm: readonly [fromUm: number, toUm: number] = shownBand(project),
  points: number = SPECTRUM_DEFAULTS.points,
): Result<Spectrum> {
  const [from, to] = bandUm
  if (!(from > 0 && to > from)) {
    return failure({
      path: ['requirements'],
      code: 'range',
      message: `the band ${from} to ${to} µm is empty`,
    })
  }
  const result = compileCandidate(project, candidateId, { modes: 'tabled', widening: 1, bandUm })
  if (!result.ok) return result
  return withinData(bandUm, () => sweep(project, result.value, bandUm, points))
}

function sweep(
  project: Project,
  compiled: CompiledCandidate,
  bandUm: readonly [number, number],
  points: number,
): Result<Spectrum> {
  const designUm = coreValue(project.requirements.wavelength, 'wavelength')
  const at = wavelengthsUm(bandUm, points)
  const v = Float64Array.from(compiled.nominal)
  const lossesDb = new Float64Array(points)
  const rippledDb = new Float64Array(points)
  for (let i = 0; i < points; i++) {
    v[compiled.slots.wavelengthShift] = (at[i] ?? designUm) - designUm
    const lossDb = compiled.lossDb(v)
    lossesDb[i] = lossDb
    rippledDb[i] = lossDb + rippleLossDb(compiled, v)
  }
  const without = lossesDb.findIndex((lossDb) => Number.isNaN(lossDb))
  if (without >= 0) {
    return failure({
      path: ['requirements', 'wavelengthMin'],
      code: 'range',
      message: `a fibre of the path has no usable mode at ${nmOf(at[without] ?? 0)} nm`,
      fix: 'Narrow the band.',
    })
  }
  const least = indexOfBest(lossesDb, (a, b) => a < b)
  const worst = indexOfBest(lossesDb, (a, b) => a > b)
  let rippleDb = 0
  for (let i = 0; i < points; i++) {
    rippleDb = Math.max(rippleDb, Math.abs((rippledDb[i] ?? 0) - (lossesDb[i] ?? 0)))
  }
  return success({
    wavelengthsUm: at,
    lossesDb,
    rippledDb,
    ...coarse(compiled, bandUm, designUm),
    designUm,
    designDb: compiled.lossDb(compiled.nominal),
    leastDb: lossesDb[least] ?? 0,
    leastUm: at[least] ?? 0,
    worstDb: lossesDb[worst] ?? 0,
    worstUm: at[worst] ?? 0,
    rippledLeastDb: Math.min(...rippledDb),
    rippledWorstDb: Math.max(...rippledDb),
    rippleDb,
    bandwidths: BANDWIDTH_DB.map((excessDb) => bandwidth(at, lossesDb, least, excessDb)),
    notes: dispersionNotes(project, compiled.candidate, bandUm),
  })
}

/** What has no ripple: the lines by their kind, and the return loss. */
function coarse(
  compiled: CompiledCandidate,
  bandUm: readonly [number, number],
  designUm: number,
): Pick<Spectrum, 'coarseUm' | 'parts' | 'returnLossesDb'> {
  const coarseUm = wavelengthsUm(bandUm, SPECTRUM_DEFAULTS.coarsePoints)
  const v = Float64Array.from(compiled.nominal)
  const returnLossesDb = new Float64Array(coarseUm.length)
  const kinds = [...new Set(compiled.lines.map((line) => line.kind))]
  const parts = kinds.map((kind) => ({ kind, lossesDb: new Float64Array(coarseUm.length) }))
  for (let i = 0; i < coarseUm.length; i++) {
    v[compiled.slots.wavelengthShift] = (coarseUm[i] ?? designUm) - designUm
    returnLossesDb[i] = totalReturns(chainReflections(compiled, v)).fibre.incoherentDb ?? NO_LIGHT_DB
    for (const { kind, lossesDb } of parts) {
      let sum = 0
      for (const line of compiled.lines) if (line.kind === kind) sum += line.lossDb(v)
      lossesDb[i] = sum
    }
  }
  const seen = parts.filter((part) => part.lossesDb.some((lossDb) => Math.abs(lossDb) > 1e-9))
  return { coarseUm, returnLossesDb, parts: seen }
}

function indexOfBest(values: Float64Array, better: (a: number, b: number) => boolean): number {
  let best = 0
  for (let i = 1; i < values.length; i++) if (better(values[i] ?? 0, values[best] ?? 0)) best = i
  return best
}

/** Where the loss first exceeds the least by `excessDb` on either side, on straight lines between the points. */
function bandwidth(at: Float64Array, lossesDb: Float64Array, least: number, excessDb: number): Bandwidth {
  const limit = (lossesDb[least] ?? 0) + excessDb
  const edge = (step: 1 | -1) => {
    for (let i = least; i + step >= 0 && i + step < at.length; i += step) {
      const [here, next] = [lossesDb[i] ?? 0, lossesDb[i + step] ?? 0]
      if (next <= limit) continue
      const share = (limit - here) / (next - here)
      return { um: (at[i] ?? 0) + share * ((at[i + step] ?? 0) - (at[i] ?? 0)), open: false }
    }
    return { um: at[step === 1 ? at.length - 1 : 0] ?? 0, open: true }
  }
  const [below, above] = [edge(-1), edge(1)]
  return {
    excessDb,
    fromUm: below.um,
    toUm: above.um,
    openBelow: below.open,
    openAbove: above.open,
  }
}
