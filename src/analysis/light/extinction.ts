// What turned axes leave of a linear state, join by join and in series.

import { coreHalfWidth, coreValue, type Quantity } from '../../model/quantity/quantity'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { seriesExtinction } from '../../optics/index'

/** Axes of two neighbouring guides at one join. */
export interface KeyedJoin {
  readonly elementId: string
  readonly label: string
  /** Null where nobody has stated the angle. */
  readonly angleRad: number | null
  /** The same with the tolerance used up. */
  readonly greatestRad: number | null
}

export interface Extinction {
  readonly joins: readonly KeyedJoin[]
  /** Fibres that keep no polarisation, by name; the figures below then mean nothing and are null. */
  readonly loose: readonly string[]
  /** Joins whose angle is not stated. */
  readonly unknown: readonly string[]
  /** Ratios in dB, at the stated angles and with all tolerances used up; NO_LIGHT_DB for perfect axes. */
  readonly nominal: ReturnType<typeof seriesExtinction> | null
  readonly atTolerance: ReturnType<typeof seriesExtinction> | null
}

/** Steepest angle that still has an extinction ratio. */
const MOST_RAD = Math.PI / 4

function keyOf(element: ChainElement): { readonly label: string; readonly key: Quantity | undefined } | null {
  switch (element.kind) {
    case 'splice':
      return { label: 'Splice', key: element.keyAngle }
    case 'gap':
      return { label: 'Gap', key: element.keyAngle ?? element.roll }
    case 'relay':
      return { label: 'Relay', key: element.keyAngle ?? element.roll }
    default:
      return null
  }
}

/**
 * Extinction ratio of a linear state sent in along an axis. Fibres must keep polarisation; chips do by their build. An
 * angle that is not stated at a gap or relay is its roll.
 */
export function extinction(project: Project, candidate: Candidate): Extinction {
  const loose = candidate.chain.flatMap((element) => {
    if (element.kind !== 'fibre' && element.kind !== 'stub') return []
    const fibre = project.fibres.find((each) => each.id === element.fibreId)
    return fibre === undefined || fibre.polarisationMaintaining ? [] : [fibre.name]
  })
  const joins = candidate.chain.flatMap((element, at): readonly KeyedJoin[] => {
    const found = keyOf(element)
    if (found === null) return []
    const { label, key } = found
    const number = candidate.chain.slice(0, at).filter((each) => each.kind === element.kind).length + 1
    const several = candidate.chain.filter((each) => each.kind === element.kind).length > 1
    const angleRad = key === undefined ? null : coreValue(key, 'keyAngle')
    const halfRad = key === undefined ? 0 : coreHalfWidth(key, 'keyAngle')
    return [
      {
        elementId: element.id,
        label: several ? `${label} ${number}` : label,
        angleRad,
        greatestRad: angleRad === null ? null : Math.min(MOST_RAD, Math.abs(angleRad) + halfRad),
      },
    ]
  })
  const unknown = joins.filter((join) => join.angleRad === null).map((join) => join.label)
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
