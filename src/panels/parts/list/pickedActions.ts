// What is done with the picked parts, each as one undo step; what came of it in words.

import { copyParts, deleteParts } from '../../../model/parts/partEdits'
import { listedParts, type PartRef, refKey } from '../../../model/parts/partKinds'
import type { Project } from '../../../model/schema/project'
import { choosePart, partsView, pickParts } from '../../../store/partsView'
import { editProject } from '../../../store/workbench'

const partsText = (count: number) => (count === 1 ? '1 part' : `${count} parts`)

/** The parts of these keys that the project still has, in its order. */
export function refsOf(project: Project, keys: readonly string[]): readonly PartRef[] {
  return listedParts(project).filter((each) => keys.includes(refKey(each)))
}

export function copyPicked(project: Project, keys: readonly string[]): string {
  let copies: readonly PartRef[] = []
  editProject((draft) => {
    copies = copyParts(draft, refsOf(project, keys))
  })
  pickParts(copies.length > 1 ? copies.map(refKey) : [])
  const [first] = copies
  if (first !== undefined) choosePart(refKey(first))
  return `${partsText(copies.length)} copied`
}

export function deletePicked(project: Project, keys: readonly string[]): string {
  const refs = refsOf(project, keys)
  let deleted = 0
  editProject((draft) => {
    deleted = deleteParts(draft, refs)
  })
  pickParts(partsView.getState().picked.filter((key) => !keys.includes(key)))
  const kept = refs.length - deleted
  const keptText =
    kept === 0 ? '' : `; ${partsText(kept)} kept because designs use ${kept === 1 ? 'it' : 'them'}`
  return `${partsText(deleted)} deleted${keptText}`
}
