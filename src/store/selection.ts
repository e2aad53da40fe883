// The design and the element that the screen is about, as the project has them now. Undo may have taken either away.

import type { Candidate, ChainElement, UserLine } from '../model/schema/candidate'
import { byId } from '../model/words/byId'
import { useView, type View, WHOLE_DESIGN } from './view'
import { useWorkbench } from './workbench'

/** The chosen design; where that one is gone the one before it, else the first. Undefined where the project has none. */
export function chosenDesign(
  candidates: readonly Candidate[],
  { designId, designBeforeId }: Pick<View, 'designId' | 'designBeforeId'>,
): Candidate | undefined {
  return byId(candidates, designId) ?? byId(candidates, designBeforeId) ?? candidates[0]
}

export function useDesign(): Candidate | undefined {
  const designId = useView((state) => state.designId)
  const designBeforeId = useView((state) => state.designBeforeId)
  return useWorkbench((state) => chosenDesign(state.project.candidates, { designId, designBeforeId }))
}

export type Selection =
  | { readonly kind: 'element'; readonly id: string; readonly element: ChainElement; readonly at: number }
  | { readonly kind: 'user line'; readonly id: string; readonly line: UserLine }
  | { readonly kind: 'design'; readonly id: string }

/**
 * What an element id selects in a design: an element of its path, a user line, or the whole design. An id that is empty
 * or gone selects the last gap or relay, which is the joint at the chip.
 */
function selectionIn(design: Candidate, elementId: string): Selection {
  const line = design.userLines.find(({ id }) => id === elementId)
  if (line !== undefined) return { kind: 'user line', id: line.id, line }
  const own = design.chain.findIndex(({ id }) => id === elementId)
  const at = own >= 0 ? own : design.chain.findLastIndex(({ kind }) => kind === 'gap' || kind === 'relay')
  const element = design.chain[at]
  return elementId === WHOLE_DESIGN || element === undefined
    ? { kind: 'design', id: WHOLE_DESIGN }
    : { kind: 'element', id: element.id, element, at }
}

/** What is selected in the chosen design. */
export function useSelection(design: Candidate): Selection {
  return selectionIn(
    design,
    useView((state) => state.elementId),
  )
}
