// Connects the drawing of one gap to the project: a move becomes an edit, a gesture one undo step.

import type { JointView } from '../../analysis/evaluation'
import type { GapElement } from '../../model/candidate'
import type { Project } from '../../model/project'
import { coreValue, type Quantity } from '../../model/quantity'
import { RULES, type RuleName } from '../../model/quantityRules'
import { rewriteQuantity } from '../../model/rewriteQuantity'
import { unitFactor } from '../../model/units'
import { beginGesture, editProject, endGesture } from '../../store/workbench'
import { CrossSection } from './CrossSection'
import { DimensionInput } from './DimensionInput'
import type { FibreMove } from './fibreMove'

const DIMENSIONS = {
  gapUm: { field: 'gap', label: 'Gap', rule: 'gap' },
  offsetXUm: { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  offsetYUm: { field: 'offsetY', label: 'Offset y', rule: 'offset' },
} as const

/** Writes a core value in the unit that the quantity is shown in. */
function setCore(quantity: Quantity, ruleName: RuleName, core: number): void {
  if (coreValue(quantity, ruleName) === core) return
  const factor = unitFactor(RULES[ruleName].dimension, quantity.unit) ?? 1
  quantity.value = Number((core / factor).toPrecision(12))
  quantity.typed = undefined
}

export function GapDrawing({
  project,
  candidateId,
  view,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly view: JointView
}) {
  const chain = project.candidates.find((each) => each.id === candidateId)?.chain ?? []
  const at = chain.findIndex((each) => each.id === view.elementId)
  const gap = chain[at]
  const before = chain[at - 1]
  const after = chain[at + 1]
  const fibre =
    before?.kind === 'fibre' || before?.kind === 'stub'
      ? project.fibres.find((each) => each.id === before.fibreId)
      : undefined
  const facet = after?.kind === 'facet' ? project.facets.find((each) => each.id === after.facetId) : undefined
  if (gap?.kind !== 'gap' || fibre === undefined || facet === undefined) return null

  const editGap = (change: (element: GapElement) => void) =>
    editProject((draft) => {
      const element = draft.candidates
        .find((each) => each.id === candidateId)
        ?.chain.find((each) => each.id === view.elementId)
      if (element?.kind === 'gap') change(element)
    })
  const move = (to: FibreMove) =>
    editGap((element) => {
      setCore(element.gap, 'gap', to.gapUm)
      setCore(element.offsetX, 'offset', to.offsetXUm)
      setCore(element.offsetY, 'offset', to.offsetYUm)
    })
  const renderDimension = (of: keyof FibreMove, axis: 'x' | 'y') => {
    const { field, label, rule } = DIMENSIONS[of]
    return (
      <DimensionInput
        label={`${label}, on the ${axis === 'y' ? 'side' : 'top'} view`}
        quantity={gap[field]}
        ruleName={rule}
        onWrite={(read) => editGap((element) => rewriteQuantity(element[field], read))}
      />
    )
  }

  return (
    <CrossSection
      view={view}
      parts={{
        claddingDiameterUm: coreValue(fibre.claddingDiameter, 'claddingDiameter'),
        guideWidthUm: coreValue(facet.guideWidth, 'guideSize'),
        guideHeightUm: coreValue(facet.guideHeight, 'guideSize'),
        depthUm: coreValue(facet.depth, 'depth'),
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
