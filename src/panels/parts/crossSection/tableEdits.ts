// What a table that is brought for a core writes into it: the sizes of the core are those of the table, until they are changed.

import { quantityOf } from '../../../model/quantity/quantity'
import {
  type IndexMapEntry,
  type StepProfileEntry,
  stepOverWavelengthSchema,
  stepProfileSchema,
} from '../../../model/schema/coreTables'
import type { CoreEntry } from '../../../model/schema/crossSection'
import { unpackNumbers } from '../../../numerics/compactNumbers'
import { rounded } from '../../../numerics/numberText'
import { mapExtents, profileReachUm } from '../../../optics/index'

const DIGITS = 7
/** A table is stretched by less than this leaves open: 1e-5 of its size. */
const LENGTH_DIGITS = 5

const lengthOf = (um: number) => quantityOf(rounded(um, LENGTH_DIGITS), 'um')

const issuesOf = (issues: readonly { readonly message: string }[]) =>
  issues.map(({ message }) => message).join('; ')

/** The profile, or what is wrong with it. */
export function readStepProfile(distancesUm: number[], shares: number[]): StepProfileEntry | string {
  const read = stepProfileSchema.safeParse({ distancesUm, shares })
  return read.success ? read.data : issuesOf(read.error.issues)
}

/** The steps over wavelength, entered in nm, or what is wrong with them. */
export function readStepOverWavelength(wavelengthsNm: number[], steps: number[]) {
  const wavelengthsUm = wavelengthsNm.map((nm) => rounded(nm / 1000, DIGITS))
  const read = stepOverWavelengthSchema.safeParse({ wavelengthsUm, steps })
  return read.success ? read.data : issuesOf(read.error.issues)
}

/** A profile along the surface or in depth; null gives it up. */
export function setStepProfile(
  core: CoreEntry,
  field: 'widthProfile' | 'depthProfile',
  profile: StepProfileEntry | null,
): void {
  core[field] = profile ?? undefined
  if (profile === null) return
  const reachUm = profileReachUm(profile)
  if (field === 'widthProfile') core.width = lengthOf(2 * reachUm)
  else core.height = lengthOf(reachUm)
}

/** The map with its peak, place and sizes. */
export function setIndexMap(core: CoreEntry, map: IndexMapEntry): void {
  const own = mapExtents({ ...map, steps: unpackNumbers(map.steps) })
  core.map = map
  core.x = lengthOf(own.xUm)
  core.bottom = lengthOf(own.bottomUm)
  core.width = lengthOf(own.widthUm)
  core.height = lengthOf(own.heightUm)
  core.index = { kind: 'value', index: quantityOf(rounded(map.background + own.peakStep, DIGITS), '1') }
}
