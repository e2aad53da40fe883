// The bodies on the two sides of a gap, as its drawing needs them.

import { endBodyUm } from '../../analysis/clearance/endBody'
import { clearanceSetup } from '../../analysis/clearance/jointClearance'
import type { EdgeSizes } from '../../analysis/clearance/obstacles'
import type { Solid } from '../../analysis/clearance/solids'
import type { JointView } from '../../analysis/results/evaluation'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { FacetEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import type { LeaningFaces } from './jointPlane'

export interface JointBodies extends LeaningFaces {
  readonly claddingDiameterUm: number
  readonly guideWidthUm: number
  readonly guideHeightUm: number
  readonly depthUm: number
  /** An inverse taper widens the guide to its routing width over its length, along the chip; null without one. */
  readonly taper: {
    readonly lengthUm: number
    readonly tipWidthUm: number
    readonly routingWidthUm: number
  } | null
  /** Null where the facet states no chip edge. */
  readonly edge: EdgeSizes | null
  /** Bodies of the fibre side where their outline is stated; null for the bare cladding. */
  readonly solids: readonly Solid[] | null
}

const CHIP_DEPTH_UM = 60

type FarBody = Pick<JointBodies, 'guideWidthUm' | 'guideHeightUm' | 'depthUm' | 'taper'>

function taperOf({ tipWidth, routingWidth, taperLength }: FacetEntry): JointBodies['taper'] {
  if (tipWidth === undefined || routingWidth === undefined || taperLength === undefined) return null
  return {
    lengthUm: coreValue(taperLength, 'taperLength'),
    tipWidthUm: coreValue(tipWidth, 'guideSize'),
    routingWidthUm: coreValue(routingWidth, 'guideSize'),
  }
}

/** The guide behind the receiving face; null where the element has none. Of a chip known by its mode only, the axis. */
function farBody(project: Project, element: ChainElement | undefined): FarBody | null {
  if (element?.kind === 'taper chip' || element?.kind === 'stub') {
    return {
      guideWidthUm: 0,
      guideHeightUm: 0,
      depthUm: CHIP_DEPTH_UM,
      taper: null,
    }
  }
  if (element?.kind !== 'facet') return null
  const facet = byId(project.facets, element.facetId)
  if (facet === undefined) return null
  return {
    guideWidthUm: coreValue(facet.guideWidth, 'guideSize'),
    guideHeightUm: coreValue(facet.guideHeight, 'guideSize'),
    depthUm: coreValue(facet.depth, 'depth'),
    taper: taperOf(facet),
  }
}

/** The parts of a gap; null where the view is of another kind of join. */
export function jointBodies(
  project: Project,
  candidate: Pick<Candidate, 'chain'>,
  view: JointView,
): JointBodies | null {
  const { chain } = candidate
  const at = chain.findIndex((each) => each.id === view.elementId)
  const gap = chain[at]
  const claddingDiameterUm = endBodyUm(project, chain[at - 1])
  const far = farBody(project, chain[at + 1])
  if (gap?.kind !== 'gap' || claddingDiameterUm === null || far === null) return null
  const setup = clearanceSetup(project, candidate, at)
  return {
    claddingDiameterUm,
    ...far,
    edge: setup?.edge ?? null,
    solids: setup?.end?.outline === undefined ? null : setup.solids,
    nearFaceAngleRad: coreValue(gap.nearFaceAngle, 'faceAngle'),
    farFaceAngleRad: coreValue(gap.farFaceAngle, 'faceAngle'),
    facePlane: gap.facePlane,
  }
}
