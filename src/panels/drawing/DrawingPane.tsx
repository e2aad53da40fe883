// The joint or relay that is selected, to scale; for any other element the joint that is nearest behind it.

import { lazy } from 'react'
import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { jointNames } from '../../model/designs/jointNames'
import type { ChainElement } from '../../model/schema/candidate'
import { useSelection } from '../../store/selection'
import { Pane } from '../../ui/controls/Panes'
import { GapDrawing } from './GapDrawing'

const RelayDrawing = lazy(async () => ({ default: (await import('./RelayDrawing')).RelayDrawing }))

const isFreeSpace = ({ kind }: ChainElement) => kind === 'gap' || kind === 'relay'

/** The gap or relay at a place of the path, else the next behind it, else the last before it. */
function jointAt(chain: readonly ChainElement[], at: number): ChainElement | undefined {
  return chain.slice(at).find(isFreeSpace) ?? chain.slice(0, at).findLast(isFreeSpace)
}

export function DrawingPane({ project, design, evaluation }: EvaluatedDesign) {
  const selection = useSelection(design)
  const names = jointNames(design.chain)
  const shown = jointAt(design.chain, selection.kind === 'element' ? selection.at : design.chain.length - 1)
  const joint = evaluation.joints.find((view) => view.elementId === shown?.id)
  const relay = evaluation.relays.find((view) => view.elementId === shown?.id)
  return (
    <>
      {joint !== undefined && (
        <GapDrawing
          key={joint.elementId}
          project={project}
          candidateId={design.id}
          view={joint}
          name={names.get(joint.elementId)}
          reflections={evaluation.reflections}
        />
      )}
      {relay !== undefined && shown?.kind === 'relay' && (
        <RelayDrawing
          key={relay.elementId}
          relay={shown}
          view={relay}
          candidateId={design.id}
          name={names.get(relay.elementId)}
          reflections={evaluation.reflections}
        />
      )}
      {joint === undefined && relay === undefined && (
        <Pane name="Drawing">
          <p className="quiet">This path has no gap or relay to draw. Splices are shown in the path above.</p>
        </Pane>
      )}
    </>
  )
}
