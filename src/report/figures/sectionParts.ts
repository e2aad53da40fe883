// The bodies on the two sides of a gap, as its drawing needs them.

import { endBodyUm } from '../../analysis/endBody'
import type { JointView } from '../../analysis/evaluation'
import type { Candidate, ChainElement } from '../../model/candidate'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import type { LeaningFaces } from './sectionPlane'

export interface SectionParts extends LeaningFaces {
  readonly claddingDiameterUm: number
  readonly guideWidthUm: number
  readonly guideHeightUm: number
  readonly depthUm: number
}

const CHIP_DEPTH_UM = 60

type FarBody = Pick<SectionParts, 'guideWidthUm' | 'guideHeightUm' | 'depthUm'>

/** The guide behind the receiving face; null where the element has none. */
function farBody(project: Project, element: ChainElement | undefined, view: JointView): FarBody | null {
  if (element?.kind === 'taper chip' || element?.kind === 'stub') {
    return { guideWidthUm: view.far.mfdXUm, guideHeightUm: view.far.mfdYUm, depthUm: CHIP_DEPTH_UM }
  }
  if (element?.kind !== 'facet') return null
  const facet = project.facets.find((each) => each.id === element.facetId)
  if (facet === undefined) return null
  return {
    guideWidthUm: coreValue(facet.guideWidth, 'guideSize'),
    guideHeightUm: coreValue(facet.guideHeight, 'guideSize'),
    depthUm: coreValue(facet.depth, 'depth'),
  }
}

/** The parts of a gap; null where the view is of another kind of join. */
export function sectionParts(
  project: Project,
  { chain }: Pick<Candidate, 'chain'>,
  view: JointView,
): SectionParts | null {
  const at = chain.findIndex((each) => each.id === view.elementId)
  const gap = chain[at]
  const claddingDiameterUm = endBodyUm(project, chain[at - 1])
  const far = farBody(project, chain[at + 1], view)
  if (gap?.kind !== 'gap' || claddingDiameterUm === null || far === null) return null
  return {
    claddingDiameterUm,
    ...far,
    nearFaceAngleRad: coreValue(gap.nearFaceAngle, 'faceAngle'),
    farFaceAngleRad: coreValue(gap.farFaceAngle, 'faceAngle'),
    facePlane: gap.facePlane,
  }
}
