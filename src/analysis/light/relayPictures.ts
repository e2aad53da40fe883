// Wavefronts and spots of the relays of a design, at its nominal values.

import type { Project } from '../../model/schema/project'
import { compileCandidate } from '../path/compileCandidate'
import type { LensPictures } from '../results/lensPictures'
import { lensPictures } from './lensPictures'

/** One entry for every relay whose lenses are known by their faces and pass light; none for a design that does not compile. */
export function relayPictures(project: Project, candidateId: string): readonly LensPictures[] {
  const compiled = compileCandidate(project, candidateId)
  if (!compiled.ok) return []
  const { joins, nominal } = compiled.value
  return joins.flatMap((join) => {
    const lenses = join.lensesInLight?.(nominal)
    return lenses === undefined ? [] : (lensPictures(lenses) ?? [])
  })
}
