// Edits of the sequence of a design; the first one plans it, as it is shown.

import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'

/** Edits the sequence, which is `shown` while none is planned. */
export function editSequence(
  designId: string,
  shown: AssemblySequence,
  recipe: (own: AssemblySequence) => void,
): void {
  editProject((draft) => {
    const design = draft.candidates.find(({ id }) => id === designId)
    if (design === undefined) return
    design.assembly ??= structuredClone(shown)
    recipe(design.assembly)
  })
}

export function editStep(
  designId: string,
  shown: AssemblySequence,
  stepId: string,
  recipe: (own: AssemblyStep) => void,
): void {
  editSequence(designId, shown, (own) => {
    const step = own.steps.find(({ id }) => id === stepId)
    if (step !== undefined) recipe(step)
  })
}

/** The step in a draft, planned as it is shown where nothing was. */
export function stepIn(
  draft: Project,
  designId: string,
  shown: AssemblySequence,
  stepId: string,
): AssemblyStep | undefined {
  const design = draft.candidates.find(({ id }) => id === designId)
  if (design === undefined) return undefined
  design.assembly ??= structuredClone(shown)
  return design.assembly.steps.find(({ id }) => id === stepId)
}

/** Removes the plan: the usual sequence is shown again. */
export function removeSequence(designId: string): void {
  editProject((draft) => {
    const design = draft.candidates.find(({ id }) => id === designId)
    if (design !== undefined) design.assembly = undefined
  })
}
