// The body whose end face is at a gap: a fibre's glass or a chip's block.

import { coreValue } from '../../model/quantity/quantity'
import type { ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'

/** Height of a taper chip with its lid where no one states it, um; common practice, no source. */
const BLOCK_UM = 250

/** Size across of the body that an element ends in, um; null where the element has no end face of its own. */
export function endBodyUm(project: Project, element: ChainElement | undefined): number | null {
  if (element?.kind === 'taper chip') return BLOCK_UM
  if (element?.kind !== 'fibre' && element?.kind !== 'stub') return null
  const fibre = byId(project.fibres, element.fibreId)
  return fibre === undefined ? null : coreValue(fibre.claddingDiameter, 'claddingDiameter')
}
