// Remedies for a gap that cannot be reached: each alone, as the smallest sufficient change of its dimension, found by search.

import type { Outline } from '../../model/schema/build/outline'
import { fixedText } from '../../numerics/numberText'
import type { Contact } from '../results/contact'
import { type BodyPose, isReached } from './contact'
import type { ClearanceSetup } from './jointClearance'
import { type EdgeSizes, ledgeTopUm, obstaclesOf } from './obstacles'
import { endSolids } from './outlines'

const BISECTIONS = 36
/** The half angle at which a tapered tip is offered, and the narrowest end that is; common practice, no source. */
const TAPER_DEG = 10
const NARROWEST_TIP_UM = 8
/** Chip thickness that a trench must leave. */
const LEAST_LEDGE_UM = 50

/** The value nearest to `bad` for which `fits` holds, `good` being one for which it does; null where it does not even there. */
function nearestFitting(bad: number, good: number, fits: (value: number) => boolean): number | null {
  if (!fits(good)) return null
  let [no, yes] = [bad, good]
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (no + yes) / 2
    if (fits(middle)) yes = middle
    else no = middle
  }
  return yes
}

/** Limits in words, rounded so that the limit itself still fits. */
const atLeast = (um: number) => `${fixedText(Math.ceil(um * 10 - 1e-4) / 10, 1)} µm`
const atMost = (um: number) => `${fixedText(Math.floor(um * 10 + 1e-4) / 10, 1)} µm`

/** Remedies for a gap, um, that is below contact, in words with their numbers; the cheapest for the chip first. */
export function remediesFor(
  setup: ClearanceSetup,
  pose: BodyPose,
  gapUm: number,
  contact: Contact,
): readonly string[] {
  const { edge, end, nearFace, farFace, solids, obstacles } = setup
  const withEdge = (change: Partial<EdgeSizes>) =>
    edge !== null && isReached(solids, obstaclesOf({ ...edge, ...change }, farFace), pose, gapUm)
  const remedies: string[] = []
  if (end?.isFibre === true && end.tipRadiusUm === undefined && end.outline?.kind !== 'block') {
    const tapered = (endDiameterUm: number): Outline => ({
      kind: 'tapered',
      endDiameter: { value: endDiameterUm, unit: 'um', provenance: 'computed' },
      coneAngle: { value: TAPER_DEG, unit: 'deg', provenance: 'computed' },
    })
    const fits = (um: number) =>
      isReached(endSolids({ ...end, outline: tapered(um) }, nearFace), obstacles, pose, gapUm)
    const found = nearestFitting(end.acrossUm, NARROWEST_TIP_UM, fits)
    if (found !== null)
      remedies.push(`a tip tapered at a half-angle of ${TAPER_DEG}° to at most ${atMost(found)}`)
  }
  if (edge !== null && contact.obstacle === 'ledge') {
    const deeper = nearestFitting(-ledgeTopUm(edge), -edge.bottomUm - LEAST_LEDGE_UM, (um) =>
      withEdge({ ledgeDepthUm: um, trench: null }),
    )
    if (deeper !== null)
      remedies.push(`a trench up to the dicing edge, at least ${atLeast(deeper)} below the waveguide`)
    const shorter = nearestFitting(edge.recessUm, 0, (um) => withEdge({ recessUm: um, trench: null }))
    if (shorter !== null) remedies.push(`a recess of at most ${atMost(shorter)}`)
  }
  if (edge?.lid != null && contact.obstacle === 'lid') {
    const { lid } = edge
    const farther = nearestFitting(lid.distanceUm, lid.distanceUm + 1e5, (um) =>
      withEdge({ lid: { ...lid, distanceUm: um } }),
    )
    if (farther !== null) remedies.push(`a lid at least ${atLeast(farther)} behind the facet`)
    const lower = nearestFitting(lid.heightUm, 0, (um) => withEdge({ lid: { ...lid, heightUm: um } }))
    if (lower !== null && lower > 0) remedies.push(`a lid at most ${atMost(lower)} high`)
  }
  if (contact.obstacle === 'end face of the chip') remedies.push('parallel end faces')
  if (contact.body === 'lens barrel') {
    remedies.push(`a lens barrel set back by ${atLeast(contact.gapUm - gapUm)}`)
  }
  remedies.push(
    end === null
      ? `lenses with a working distance above ${atLeast(contact.gapUm)}`
      : `a lens or lensed fibre with a working distance above ${atLeast(contact.gapUm)}`,
  )
  return remedies
}
