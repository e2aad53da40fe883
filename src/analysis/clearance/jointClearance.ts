// What can touch at a joint of a design: the bodies of its fibre side and the parts of the chip, from the project.

import { coreValue } from '../../model/quantity/quantity'
import type { Candidate, ChainElement, GapElement } from '../../model/schema/candidate'
import type { FacetEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { endBodyUm } from './endBody'
import { type EdgeSizes, edgeSizes, type Obstacle, obstaclesOf } from './obstacles'
import { ASSUMED_TIP_RADIUS_UM, barrelSolids, type EndBody, endSolids } from './outlines'
import type { FaceSlopes, Solid } from './solids'

export interface ClearanceSetup {
  readonly solids: readonly Solid[]
  readonly obstacles: readonly Obstacle[]
  /** Null where the facet has no chip edge: its face is then assumed to extend as far as the body. */
  readonly edge: EdgeSizes | null
  /** Null for the last lens of a relay. */
  readonly end: EndBody | null
  readonly nearFace: FaceSlopes
  readonly farFace: FaceSlopes
}

/** A chip without a described edge: its face extends without limit. */
const ENDLESS_UM = 1e6

function faceSlopes(angleRad: number, plane: 'x' | 'y'): FaceSlopes {
  const slope = Math.tan(angleRad)
  return plane === 'x' ? { x: slope, y: 0 } : { x: 0, y: slope }
}

/** The facet that an element of the path is, if it is one. */
export function facetAt(project: Project, element: ChainElement | undefined): FacetEntry | null {
  if (element?.kind !== 'facet') return null
  return project.facets.find(({ id }) => id === element.facetId) ?? null
}

/** Radius of a tip, um; undefined for an end without one. */
function tipRadiusUm(project: Project, element: ChainElement): number | undefined {
  if ((element.kind !== 'fibre' && element.kind !== 'stub') || element.tipId === undefined) return undefined
  const tip = project.converters.find(({ id }) => id === element.tipId)
  if (tip?.kind !== 'lensed tip') return undefined
  const radius = tip.tip.radius
  return radius === undefined ? ASSUMED_TIP_RADIUS_UM : coreValue(radius, 'radius')
}

/** The body that a guide ends in; null where it has no end of its own. */
function endBodyOf(project: Project, element: ChainElement | undefined): EndBody | null {
  const acrossUm = endBodyUm(project, element)
  if (acrossUm === null || element === undefined) return null
  return {
    acrossUm,
    isFibre: element.kind === 'fibre' || element.kind === 'stub',
    tipRadiusUm: tipRadiusUm(project, element),
    outline: 'outline' in element ? element.outline : undefined,
  }
}

/** What can touch at the joint at a place of the path; null where neither chip edge nor outline is stated. */
export function clearanceSetup(
  project: Project,
  { chain }: Pick<Candidate, 'chain'>,
  at: number,
): ClearanceSetup | null {
  const joint = chain[at]
  if (joint?.kind !== 'gap' && joint?.kind !== 'relay') return null
  const facet = facetAt(project, chain[at + 1])
  const edge = facet?.chipEdge === undefined ? null : edgeSizes(facet, facet.chipEdge)
  const farFace = faceSlopes(coreValue(joint.farFaceAngle, 'faceAngle'), joint.facePlane)
  const obstacles =
    edge === null
      ? [
          {
            name: 'end face of the chip',
            fromYUm: -ENDLESS_UM,
            toYUm: ENDLESS_UM,
            frontZUm: 0,
            face: farFace,
          },
        ]
      : obstaclesOf(edge, farFace)
  if (joint.kind === 'relay') {
    const lens = project.lenses.find(({ id }) => id === joint.lens2Id)
    if (lens === undefined || (edge === null && joint.barrel === undefined)) return null
    const solids = barrelSolids(coreValue(lens.clearAperture, 'aperture'), joint.barrel)
    return {
      solids,
      obstacles,
      edge,
      end: null,
      nearFace: { x: 0, y: 0 },
      farFace,
    }
  }
  const end = endBodyOf(project, chain[at - 1])
  if (end === null || (edge === null && end.outline === undefined)) return null
  const nearFace = nearFaceOf(joint)
  return {
    solids: endSolids(end, nearFace),
    obstacles,
    edge,
    end,
    nearFace,
    farFace,
  }
}

function nearFaceOf(gap: GapElement): FaceSlopes {
  return faceSlopes(coreValue(gap.nearFaceAngle, 'faceAngle'), gap.facePlane)
}
