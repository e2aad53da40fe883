// Whether the fibre side fits the chip's edge: contact, tilt and roll before contact, adhesive path, passive placement.

import { useLayoutEffect, useMemo, useRef } from 'react'
import { clearanceFindings } from '../../analysis/clearance/findings'
import { facetAt } from '../../analysis/clearance/jointClearance'
import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { clearanceFigure, clearanceSentence } from '../../figures/drawing/clearanceDrawing'
import { jointBodies } from '../../figures/drawing/jointBodies'
import { useSelection } from '../../store/selection'
import { Views } from '../../ui/controls/Views'
import { FigureView } from '../../ui/figures/FigureView'
import { useRoom } from '../../ui/figures/useRoom'
import { ChipEdgeFields } from '../../ui/outlines/ChipEdgeFields'
import { BarrelFields, isOutlined, OutlineFields } from '../../ui/outlines/OutlineFields'
import { ClearanceAdvice, ClearanceTables } from './ClearanceTables'
import { GroovePlacementView } from './GroovePlacementView'
import './clearance.css'

const FIGURE_PX = 200
/** From this height on the tab has space for a large drawing. */
const TALL_PX = 760
const LARGE = { widthPx: 880, heightPx: 500 }

/** Adding or removing the chip edge replaces the button that was pressed: the focus goes to the first one of the section. */
function useFocusKept(isBare: boolean) {
  const section = useRef<HTMLElement>(null)
  const before = useRef(isBare)
  useLayoutEffect(() => {
    if (before.current === isBare) return
    before.current = isBare
    if (document.activeElement === document.body) section.current?.querySelector('button')?.focus()
  }, [isBare])
  return section
}

export function ClearancePanel({ project, design, evaluation }: EvaluatedDesign) {
  const selection = useSelection(design)
  const { chain } = design
  const findings = useMemo(
    () => clearanceFindings(project, design, evaluation),
    [project, design, evaluation],
  )
  const isFree = (at: number) => chain[at]?.kind === 'gap' || chain[at]?.kind === 'relay'
  const selected = selection.kind === 'element' && isFree(selection.at) ? selection.at : -1
  const at = selected >= 0 ? selected : chain.findLastIndex((_, position) => isFree(position))
  const joint = chain[at]
  const finding = findings.find(({ elementId }) => elementId === joint?.id)
  const section = useFocusKept(finding === undefined)
  const [room, roomPx] = useRoom()
  const isTall = roomPx !== null && roomPx > TALL_PX
  if (joint?.kind !== 'gap' && joint?.kind !== 'relay') {
    return <p className="quiet">This path has no gap or relay, so nothing can touch.</p>
  }
  const view = evaluation.joints.find(({ elementId }) => elementId === joint.id)
  const facet = facetAt(project, chain[at + 1])
  const near = chain[at - 1]
  const parts = view === undefined ? null : jointBodies(project, design, view)
  const fields = (
    <div className="depth-columns">
      <div>
        {facet === null ? (
          <p className="quiet">This joint does not end at a facet.</p>
        ) : (
          <ChipEdgeFields facet={facet} />
        )}
      </div>
      <div>
        {joint.kind === 'relay' ? (
          <BarrelFields relay={joint} designId={design.id} />
        ) : (
          isOutlined(near) && <OutlineFields element={near} designId={design.id} />
        )}
      </div>
    </div>
  )
  const result =
    finding === undefined ? (
      <>
        <p className="quiet">
          Neither the edge of the chip nor the outline of the fibre side is given, so contact is not checked.
        </p>
        {fields}
      </>
    ) : (
      <div className="depth-columns clearance-result">
        <div>
          {view !== undefined && parts !== null ? (
            <FigureView
              figure={clearanceFigure(finding, view, parts, isTall ? LARGE : undefined)}
              heightPx={FIGURE_PX}
            />
          ) : (
            <p>{clearanceSentence(finding)}</p>
          )}
          <ClearanceAdvice finding={finding} isGap={joint.kind === 'gap'} />
        </div>
        <ClearanceTables project={project} designId={design.id} joint={joint} finding={finding} />
      </div>
    )
  const groove = facet?.chipEdge?.groove
  const fibre =
    near?.kind === 'fibre' || near?.kind === 'stub'
      ? project.fibres.find(({ id }) => id === near.fibreId)
      : undefined
  return (
    <section ref={section} aria-label="Clearance" className="clearance views-below">
      {room}
      <Views
        label="Views of clearance"
        views={[
          { id: 'result', label: 'Result', view: () => result },
          ...(finding === undefined
            ? []
            : [{ id: 'outlines', label: 'Chip edge and outline', view: () => fields }]),
          ...(groove === undefined || fibre === undefined || joint.kind !== 'gap'
            ? []
            : [
                {
                  id: 'groove',
                  label: 'V-groove placement',
                  view: () => (
                    <GroovePlacementView
                      groove={groove}
                      fibre={fibre}
                      designId={design.id}
                      gapId={joint.id}
                    />
                  ),
                },
              ]),
        ]}
      />
    </section>
  )
}
