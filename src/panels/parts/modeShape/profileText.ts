// An index profile as lines of text: radius in um and index, from the axis outwards.

import { coreValue } from '../../../model/quantity/quantity'
import type { IndexProfile } from '../../../model/schema/modeShape'
import { indexProfileSchema } from '../../../model/schema/modeShape'
import type { FibreEntry } from '../../../model/schema/parts'
import { rounded, roundedTo } from '../../../numerics/numberText'
import { pairsText, readPairs } from './pairsText'

/** Index of silica near 1.55 um, to start with (I. H. Malitson, J. Opt. Soc. Am. 55 (1965) 1205). */
const CLADDING = 1.444
const FIRST_RADIUS_UM = 4.1
const FIRST_NA = 0.12

/** A step of the fibre's own core, to be replaced. */
export function firstProfile({ mode }: FibreEntry): IndexProfile {
  const radius = mode.kind === 'core' ? coreValue(mode.coreDiameter, 'coreDiameter') / 2 : FIRST_RADIUS_UM
  const na = mode.kind === 'core' ? coreValue(mode.na, 'na') : FIRST_NA
  const core = roundedTo(Math.hypot(CLADDING, na), 5)
  const edge = rounded(4 * radius, 4)
  return {
    kind: 'index profile',
    radiiUm: [0, radius, radius, edge],
    indices: [core, core, CLADDING, CLADDING],
  }
}

export function profileText({ radiiUm, indices }: IndexProfile): string {
  return pairsText(radiiUm, indices)
}

/** The profile, or what is wrong with the text. */
export function readProfile(text: string): IndexProfile | string {
  const pairs = readPairs(text, { first: 'a radius in µm', second: 'an index' })
  if (typeof pairs === 'string') return pairs
  const { first: radiiUm, second: indices } = pairs
  const read = indexProfileSchema.safeParse({ kind: 'index profile', radiiUm, indices })
  return read.success ? read.data : read.error.issues.map((issue) => issue.message).join('; ')
}
