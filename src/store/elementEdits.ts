// Edits of one element of a chain, found again in the project being edited.

import type { ChainElement, ElementKind, ElementOf } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { byId } from '../model/words/byId'
import { editProject } from './workbench'

/** The element of that kind, or undefined where it is gone or of another kind. */
export function findElement<K extends ElementKind>(
  draft: Project,
  candidateId: string,
  elementId: string,
  kind: K,
): ElementOf<K> | undefined {
  const chain = byId(draft.candidates, candidateId)?.chain
  const element = byId(chain, elementId)
  return element?.kind === kind ? (element as ElementOf<K>) : undefined
}

/** An edit of that element, where it is still there. */
export function editElement<K extends ElementKind>(
  candidateId: string,
  elementId: string,
  kind: K,
  recipe: (element: ElementOf<K>) => void,
): void {
  editProject((draft) => {
    const own = findElement(draft, candidateId, elementId, kind)
    if (own !== undefined) recipe(own)
  })
}

export function editChain(candidateId: string, recipe: (chain: ChainElement[]) => void): void {
  editProject((draft) => {
    const own = byId(draft.candidates, candidateId)
    if (own !== undefined) recipe(own.chain)
  })
}
