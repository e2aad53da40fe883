// Losses of a joint over displacements, for whoever draws them without waiting: through the real lenses of a relay, else of Gaussians.

import { axisSample, fillLossMap, type GaussianJoint, jointLossDb } from '../../optics/index'
import { MAP_CEILING_DB } from '../tolerance/toleranceMap'
import { type Displacements, relayLossesOf } from './fit/knownFits'
import type { RelayFields } from './fit/relayAxes'
import { relayHereDb } from './relayLoss'

export interface DisplacedLosses {
  /** Over each of the displacements, dB; planes row by row. */
  readonly lossesDb: readonly Float64Array[]
  /** At the working point, dB. */
  readonly hereDb: number
  /** Whether the paraxial image holds the place of the real lenses, which are traced elsewhere. */
  readonly isProvisional: boolean
}

function gaussianDb(joint: GaussianJoint, [x, y]: Displacements): Float64Array {
  if (y !== undefined) return fillLossMap(joint, x, y, MAP_CEILING_DB, new Float64Array(x.count * y.count))
  return Float64Array.from({ length: x.count }, (_, i) =>
    jointLossDb({ ...joint, [x.axis]: axisSample(x, i) }),
  )
}

const sizeOf = ([x, y]: Displacements): number => x.count * (y?.count ?? 1)

/** Losses of a joint, as it is displaced, over each of the displacements; `lenses` of a relay. Throws InputError for a bad joint. */
export function displacedLosses(
  joint: GaussianJoint,
  lenses: RelayFields | undefined,
  over: readonly Displacements[],
): DisplacedLosses {
  const found =
    lenses === undefined ? null : relayLossesOf({ kind: 'relay losses', lenses, nominal: joint, over })
  if (lenses === undefined || found === null || found === 'pending')
    return {
      lossesDb: over.map((each) => gaussianDb(joint, each)),
      hereDb: jointLossDb(joint),
      isProvisional: found === 'pending',
    }
  let next = 0
  const lossesDb = over.map((each) => {
    const from = next
    next += sizeOf(each)
    return Float64Array.from(found.slice(from, next))
  })
  return { lossesDb, hereDb: relayHereDb(lenses, joint), isProvisional: false }
}
