// Connects the drawing of one gap to the project: a move becomes an edit, a gesture one undo step.

import type { JointView } from '../../analysis/results/evaluation'
import type { FaceReflection } from '../../analysis/results/lightResults'
import { jointBodies } from '../../figures/drawing/jointBodies'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import { setCoreValue } from '../../model/quantity/coreQuantity'
import { rewriteQuantity } from '../../model/quantity/rewriteQuantity'
import type { GapElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { beginGesture, editProject, endGesture } from '../../store/workbench'
import { DimensionInput } from './DimensionInput'
import type { FibreMove } from './fibreMove'
import { JointDrawing } from './JointDrawing'

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

const DIMENSIONS = {
  gapUm: { field: 'gap', label: 'Gap', rule: 'gap' },
  offsetXUm: { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  offsetYUm: { field: 'offsetY', label: 'Offset y', rule: 'offset' },
} as const

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
  const candidate = byId(project.candidates, candidateId)
  const gap = byId(candidate?.chain, view.elementId)
  const parts = candidate === undefined ? null : jointBodies(project, candidate, view)
  if (gap?.kind !== 'gap' || parts === null) return null

  const editGap = (change: (element: GapElement) => void) =>
    editProject((draft) => {
      const element = byId(byId(draft.candidates, candidateId)?.chain, view.elementId)
      if (element?.kind === 'gap') change(element)
    })
  /** Contact, on the next hundredth of a micrometre. */
  const leastGapUm = Math.max(0, Math.ceil((view.contact?.gapUm ?? 0) * 100) / 100)
  const move = (to: FibreMove) =>
    editGap((element) => {
      // A gap below contact is drawn at contact; what is entered stays until the gap itself is moved.
      if (to.gapUm !== view.joint.gapUm) setCoreValue(element.gap, 'gap', Math.max(to.gapUm, leastGapUm))
      setCoreValue(element.offsetX, 'offset', to.offsetXUm)
      setCoreValue(element.offsetY, 'offset', to.offsetYUm)
    })
  const renderDimension = (of: keyof FibreMove, axis: 'x' | 'y') => {
    const { field, label, rule } = DIMENSIONS[of]
    return (
      <DimensionInput
        label={`${ofJoint(label, name)}, in the ${axis === 'y' ? 'side' : 'top'} view`}
        quantity={gap[field]}
        ruleName={rule}
        onWrite={(read) => editGap((element) => rewriteQuantity(element[field], read))}
      />
    )
  }

  return (
    <JointDrawing
      view={view}
      title={`${name?.tag === '' || name === undefined ? 'Joint' : capital(name.tag)} ${name?.between ?? ''}, to scale`}
      near={name?.near ?? ''}
      far={name?.far ?? ''}
      reflections={reflections}
      parts={parts}
      onMove={move}
      onMoveStart={beginGesture}
      onMoveEnd={endGesture}
      renderDimension={renderDimension}
    />
  )
}
