// The band of the requirements: its edges, and the chain at its worst within.

import { failure, type Result } from '../../model/issue'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { InputError } from '../../numerics/inputError'
import { nmOf } from '../../numerics/numberText'
import { refusalText } from '../../numerics/refusalText'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { Evaluation } from '../results/evaluation'
import { PATH_PORTS, type PathPort } from '../results/lightResults'
import { chainReflections, totalReturns } from './chainReflections'
import { polarisationLoss } from './polarisationLoss'

/** Wavelengths at which the budget looks; the parts' dispersion has no narrow peak between them. */
const BUDGET_POINTS = 5

/** The edges of the required band, um; null where only one wavelength matters. */
export function requiredBand({ requirements }: Project): readonly [fromUm: number, toUm: number] | null {
  const { wavelength, wavelengthMin, wavelengthMax } = requirements
  if (wavelengthMin === undefined && wavelengthMax === undefined) return null
  const from = coreValue(wavelengthMin ?? wavelength, 'wavelength')
  const to = coreValue(wavelengthMax ?? wavelength, 'wavelength')
  return to > from ? [from, to] : null
}

/** Half width of a spectrum where no band is required, as a share of the wavelength. */
const SHOWN_HALF_SHARE = 0.02

/** The band of the requirements, or a few per cent about the wavelength where none is required. */
export function shownBand(project: Project): readonly [fromUm: number, toUm: number] {
  const design = coreValue(project.requirements.wavelength, 'wavelength')
  const half = SHOWN_HALF_SHARE * design
  return requiredBand(project) ?? [design - half, design + half]
}

/** Evenly spaced, both ends included. */
export function wavelengthsUm([from, to]: readonly [number, number], count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
}

/** A part without data gives NaN to what is computed from it, such as the pose of a joint aligned at the project's wavelength. */
const NO_MODE =
  'a waveguide has no usable mode at some wavelength of the band or at the wavelength of the project'

/** Work over a band, refused by name where the data of a part end within it. */
export function withinData<T>(
  [from, to]: readonly [fromUm: number, toUm: number],
  work: () => Result<T>,
): Result<T> {
  try {
    return work()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    const why = Number.isNaN(error.value) ? NO_MODE : refusalText(error)
    return failure({
      path: ['requirements', 'wavelengthMin'],
      code: 'range',
      message: `the spectrum from ${nmOf(from)} to ${nmOf(to)} nm extends beyond the data of a part: ${why}`,
      fix: 'Narrow the band, or enter the index as a number.',
    })
  }
}

/**
 * The nominal chain over the required band, as single passes without ripple; null where no band is required, or where
 * a part's data end within it (the spectrum says which).
 */
export function bandFinding(project: Project, compiled: CompiledCandidate): Evaluation['band'] {
  const band = requiredBand(project)
  if (band === null) return null
  const designUm = coreValue(project.requirements.wavelength, 'wavelength')
  const v = Float64Array.from(compiled.nominal)
  const found = {
    worstDb: Number.NEGATIVE_INFINITY,
    worstUm: band[0],
    least: { fibre: null, chip: null } as Record<PathPort, { lossDb: number; atUm: number } | null>,
  }
  let dependentLossDb = 0
  try {
    for (const wavelengthUm of wavelengthsUm(band, BUDGET_POINTS)) {
      v[compiled.slots.wavelengthShift] = wavelengthUm - designUm
      const lossDb = compiled.lossDb(v)
      if (!(lossDb <= found.worstDb)) [found.worstDb, found.worstUm] = [lossDb, wavelengthUm]
      dependentLossDb = Math.max(dependentLossDb, polarisationLoss(compiled, v).dependentLossDb)
      const returns = totalReturns(chainReflections(compiled, v))
      for (const port of PATH_PORTS) {
        const back = returns[port].incoherentDb
        if (back !== null && back < (found.least[port]?.lossDb ?? Number.POSITIVE_INFINITY)) {
          found.least[port] = { lossDb: back, atUm: wavelengthUm }
        }
      }
    }
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
  if (Number.isNaN(found.worstDb)) return null
  return {
    fromUm: band[0],
    toUm: band[1],
    worstDb: found.worstDb,
    worstUm: found.worstUm,
    leastReturn: found.least,
    dependentLossDb,
  }
}
