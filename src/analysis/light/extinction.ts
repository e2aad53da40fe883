// How misaligned axes reduce the extinction ratio of a linear state, joint by joint and in series.

import { jointNames } from '../../model/designs/jointNames'
import { coreHalfWidth, coreValue } from '../../model/quantity/quantity'
import type { Candidate, ChainElement, Device } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import type { LightDirection } from '../../model/words/requirements'
import { seriesExtinction } from '../../optics/index'

/** Axes of two neighbouring guides at one join. */
interface KeyedJoin {
  readonly elementId: string
  readonly label: string
  /** Null where the angle is not given. */
  readonly angleRad: number | null
  /** The same at the tolerance limit. */
  readonly greatestRad: number | null
  /** What is not known, where it is not the key angle. */
  readonly missing?: string
}

export interface Extinction {
  readonly joins: readonly KeyedJoin[]
  /** Names of fibres that are not polarisation-maintaining; the values below are then meaningless and null. */
  readonly loose: readonly string[]
  /** Joins whose angle is not stated. */
  readonly unknown: readonly string[]
  /** Ratios in dB, at the stated angles and at the tolerance limits; NO_LIGHT_DB for perfect axes. */
  readonly nominal: ReturnType<typeof seriesExtinction> | null
  readonly atTolerance: ReturnType<typeof seriesExtinction> | null
}

/** Steepest angle that still has an extinction ratio. */
const MOST_RAD = Math.PI / 4

const DEVICE_NOT_KNOWN = 'rotation not known'

interface Key {
  readonly label: string
  /** Turn of the state against the axis of the guide that it enters, as stated; null where any part of it is not known. */
  readonly angleRad: number | null
  readonly halfRad: number
  /** What is not known, where it is not the key angle. */
  readonly missing?: string
}

/** A turn between two axes, both of which are lines: -90 to 90 degrees. */
const asLine = (rad: number): number => rad - Math.PI * Math.round(rad / Math.PI)

/**
 * What a rotator adds, by direction of light. A Faraday rotator turns by the same sense in space whichever way the light goes; a wave
 * plate undoes on the way back what it did, so that both ways see one difference.
 */
function turnRad(device: Device, direction: LightDirection, keyRad: number): number {
  const rotation = device.rotation === undefined ? 0 : coreValue(device.rotation, 'polarisationTurn')
  const there = asLine(keyRad - rotation)
  if (device.isolation === undefined || direction === 'fibre to chip') return there
  const back = asLine(keyRad + rotation)
  return direction === 'both' && Math.abs(there) > Math.abs(back) ? there : back
}

function keyOf(element: ChainElement, direction: LightDirection): Key | null {
  if (element.kind !== 'splice' && element.kind !== 'gap' && element.kind !== 'relay') return null
  const label = { splice: 'Splice', gap: 'Gap', relay: 'Relay' }[element.kind]
  const { keyAngle } = element
  if (keyAngle === undefined) return { label, angleRad: null, halfRad: 0 }
  const keyRad = coreValue(keyAngle, 'keyAngle')
  const halfRad = coreHalfWidth(keyAngle, 'keyAngle')
  const device = element.kind === 'relay' ? element.device : undefined
  if (device === undefined) return { label, angleRad: keyRad, halfRad }
  if (device.isolation !== undefined && device.rotation === undefined) {
    return { label, angleRad: null, halfRad, missing: `${device.name} (${DEVICE_NOT_KNOWN})` }
  }
  const ownHalf = device.rotation === undefined ? 0 : coreHalfWidth(device.rotation, 'polarisationTurn')
  return { label, angleRad: turnRad(device, direction, keyRad), halfRad: halfRad + ownHalf }
}

/**
 * Extinction ratio of a linear state sent in along an axis. Fibres must keep polarisation; chips do by their build. A key angle
 * that is not given is not known; the roll of a joint is its residual error, not its setting.
 */
export function extinction(project: Project, candidate: Candidate): Extinction {
  const loose = candidate.chain.flatMap((element) => {
    if (element.kind !== 'fibre' && element.kind !== 'stub') return []
    const fibre = byId(project.fibres, element.fibreId)
    return fibre === undefined || fibre.polarisationMaintaining ? [] : [fibre.name]
  })
  const names = jointNames(candidate.chain)
  const splices = candidate.chain.filter(({ kind }) => kind === 'splice')
  const joins = candidate.chain.flatMap((element): readonly KeyedJoin[] => {
    const found = keyOf(element, project.requirements.direction)
    if (found === null) return []
    const { label, angleRad, halfRad, missing } = found
    const joint = names.get(element.id)?.tag.replace('joint', 'Joint')
    const splice = splices.length > 1 ? splices.indexOf(element) + 1 : 0
    return [
      {
        elementId: element.id,
        label: joint || (splice > 0 ? `${label} ${splice}` : label),
        ...(missing !== undefined && { missing }),
        angleRad,
        greatestRad: angleRad === null ? null : Math.min(MOST_RAD, Math.abs(angleRad) + halfRad),
      },
    ]
  })
  const unknown = joins.filter((join) => join.angleRad === null).map((join) => join.missing ?? join.label)
  const known = loose.length === 0 && unknown.length === 0
  const within = (rad: number | null) => Math.min(MOST_RAD, Math.abs(rad ?? 0))
  return {
    joins,
    loose: [...new Set(loose)],
    unknown,
    nominal: known ? seriesExtinction(joins.map((join) => within(join.angleRad))) : null,
    atTolerance: known ? seriesExtinction(joins.map((join) => within(join.greatestRad))) : null,
  }
}

/** Whether the facet of a candidate states a mode of its own for TM. */
export function statesTm(project: Project, candidate: Candidate): boolean {
  const last = candidate.chain.at(-1)
  return (
    last?.kind === 'facet' && project.facets.some((each) => each.id === last.facetId && each.tm !== undefined)
  )
}
