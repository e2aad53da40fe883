// The bodies on the two sides of a gap, as its drawing needs them.

import type { JointView } from '../../analysis/evaluation'
import type { Candidate, ChainElement } from '../../model/candidate'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'

export interface SectionParts {
  readonly claddingDiameterUm: number
  readonly guideWidthUm: number
  readonly guideHeightUm: number
  readonly depthUm: number
  /** Both positive when the faces are parallel; a positive face leans downstream on the positive side. */
  readonly nearFaceAngleRad: number
  readonly farFaceAngleRad: number
  /** The plane in which the faces lean. */
  readonly facePlane: 'x' | 'y'
}

/** A chip on the emitting side is drawn as a block of this height. */
const BLOCK_UM = 250
const CHIP_DEPTH_UM = 60

/** Height of the body whose end face emits; null where the element has none. */
function nearBodyUm(project: Project, element: ChainElement | undefined): number | null {
  if (element?.kind === 'taper chip') return BLOCK_UM
  if (element?.kind !== 'fibre' && element?.kind !== 'stub') return null
  const fibre = project.fibres.find((each) => each.id === element.fibreId)
  return fibre === undefined ? null : coreValue(fibre.claddingDiameter, 'claddingDiameter')
}

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
  const claddingDiameterUm = nearBodyUm(project, chain[at - 1])
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
