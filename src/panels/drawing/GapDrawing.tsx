// Connects the drawing of one gap to the project: a move becomes an edit, a gesture one undo step.

import { endBodyUm } from '../../analysis/endBody'
import type { JointView } from '../../analysis/evaluation'
import type { FaceReflection } from '../../analysis/light/lightResults'
import type { ChainElement, GapElement } from '../../model/candidate'
import { setCoreValue } from '../../model/coreQuantity'
import { type JointName, ofJoint } from '../../model/jointNames'
import type { FacetEntry } from '../../model/parts'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import { rewriteQuantity } from '../../model/rewriteQuantity'
import { beginGesture, editProject, endGesture } from '../../store/workbench'
import { CrossSection } from './CrossSection'
import { DimensionInput } from './DimensionInput'
import type { FibreMove } from './fibreMove'
import type { SectionParts } from './SectionView'

const DIMENSIONS = {
  gapUm: { field: 'gap', label: 'Gap', rule: 'gap' },
  offsetXUm: { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  offsetYUm: { field: 'offsetY', label: 'Offset y', rule: 'offset' },
} as const

const CHIP_DEPTH_UM = 60

type FarBody = Pick<SectionParts, 'guideWidthUm' | 'guideHeightUm' | 'depthUm' | 'taper'>

function taperOf({ tipWidth, routingWidth, taperLength }: FacetEntry): SectionParts['taper'] {
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
  const facet = project.facets.find((each) => each.id === element.facetId)
  if (facet === undefined) return null
  return {
    guideWidthUm: coreValue(facet.guideWidth, 'guideSize'),
    guideHeightUm: coreValue(facet.guideHeight, 'guideSize'),
    depthUm: coreValue(facet.depth, 'depth'),
    taper: taperOf(facet),
  }
}

export function GapDrawing({
  project,
  candidateId,
  view,
  name,
  reflections,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly view: JointView
  readonly name: JointName | undefined
  readonly reflections: readonly FaceReflection[]
}) {
  const chain = project.candidates.find((each) => each.id === candidateId)?.chain ?? []
  const at = chain.findIndex((each) => each.id === view.elementId)
  const gap = chain[at]
  const claddingDiameterUm = endBodyUm(project, chain[at - 1])
  const far = farBody(project, chain[at + 1])
  if (gap?.kind !== 'gap' || claddingDiameterUm === null || far === null) return null

  const editGap = (change: (element: GapElement) => void) =>
    editProject((draft) => {
      const element = draft.candidates
        .find((each) => each.id === candidateId)
        ?.chain.find((each) => each.id === view.elementId)
      if (element?.kind === 'gap') change(element)
    })
  const move = (to: FibreMove) =>
    editGap((element) => {
      setCoreValue(element.gap, 'gap', to.gapUm)
      setCoreValue(element.offsetX, 'offset', to.offsetXUm)
      setCoreValue(element.offsetY, 'offset', to.offsetYUm)
    })
  const renderDimension = (of: keyof FibreMove, axis: 'x' | 'y') => {
    const { field, label, rule } = DIMENSIONS[of]
    return (
      <DimensionInput
        label={`${ofJoint(label, name)}, on the ${axis === 'y' ? 'side' : 'top'} view`}
        quantity={gap[field]}
        ruleName={rule}
        onWrite={(read) => editGap((element) => rewriteQuantity(element[field], read))}
      />
    )
  }

  return (
    <CrossSection
      view={view}
      title={ofJoint('Cross-section, to scale', name)}
      near={name?.near ?? ''}
      far={name?.far ?? ''}
      reflections={reflections}
      parts={{
        claddingDiameterUm,
        ...far,
        nearFaceAngleRad: coreValue(gap.nearFaceAngle, 'faceAngle'),
        farFaceAngleRad: coreValue(gap.farFaceAngle, 'faceAngle'),
        facePlane: gap.facePlane,
      }}
      onMove={move}
      onMoveStart={beginGesture}
      onMoveEnd={endGesture}
      renderDimension={renderDimension}
    />
  )
}
