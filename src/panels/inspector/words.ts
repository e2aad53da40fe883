// What the elements of a path and their fields are called.

import { jointNames } from '../../model/designs/jointNames'
import { elementReferences } from '../../model/project/references'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { Selection } from '../../store/selection'

const KIND_NAMES: Readonly<Record<ChainElement['kind'], string>> = {
  fibre: 'Fibre',
  stub: 'Spliced stub',
  splice: 'Splice',
  gap: 'Joint',
  relay: 'Two-lens relay',
  'taper chip': 'SSC chip',
  facet: 'Facet',
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

/** The name of the part that an element is, or empty where it is none. */
function partName(project: Project, element: ChainElement): string {
  const [own] = elementReferences(element)
  return project[own?.list ?? 'fibres'].find(({ id }) => id === own?.partId)?.name ?? ''
}

/** The head of the inspector: a quiet line over the title. */
export function headOf(
  project: Project,
  design: Candidate,
  selection: Selection,
): { readonly kind: string; readonly title: string } {
  if (selection.kind === 'design') return { kind: 'Design', title: design.name }
  if (selection.kind === 'user line') return { kind: 'Additional loss', title: selection.line.label }
  const { element } = selection
  const joint = jointNames(design.chain).get(element.id)
  if (joint !== undefined) {
    const kind = joint.tag === '' ? KIND_NAMES[element.kind] : capital(joint.tag)
    return {
      kind: element.kind === 'relay' && joint.tag !== '' ? `${kind}, two-lens relay` : kind,
      title: capital(joint.between),
    }
  }
  const name = partName(project, element)
  return name === ''
    ? { kind: 'Element', title: KIND_NAMES[element.kind] }
    : { kind: KIND_NAMES[element.kind], title: name }
}
