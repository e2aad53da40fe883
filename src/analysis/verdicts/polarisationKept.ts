// Whether the fibres of a chain are polarisation-maintaining, and which must be made to order.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'

interface PolarisationFinding {
  readonly kept: 'yes' | 'made to order' | 'no' | 'not known'
  readonly reason: string
}

/**
 * A stub in an array keeps polarisation only where its array is made to order, because each core must be turned in its
 * groove. Common practice, no source.
 */
export function polarisationKept(project: Project, candidate: Candidate): PolarisationFinding {
  const used = candidate.chain.flatMap((element) => {
    if (element.kind !== 'fibre' && element.kind !== 'stub') return []
    const fibre = project.fibres.find(({ id }) => id === element.fibreId)
    if (fibre === undefined) return []
    const inArray =
      element.kind === 'stub' && project.requirements.channels > 1 && (element.form ?? 'array') === 'array'
    return [{ fibre, inArray }]
  })
  const names = (wanted: (each: (typeof used)[number]) => boolean) =>
    [...new Set(used.filter(wanted).map(({ fibre }) => fibre.name))].join(', ')
  const loose = names(({ fibre }) => !fibre.polarisationMaintaining)
  if (loose !== '') return { kept: 'no', reason: `not polarisation-maintaining: ${loose}` }
  const asked = names(({ fibre, inArray }) => inArray && fibre.madeToOrder !== true)
  if (asked !== '') {
    return {
      kept: 'not known',
      reason: `an array of ${asked} is polarisation-maintaining only if made to order; ask the supplier`,
    }
  }
  const ordered = names(({ fibre }) => fibre.madeToOrder === true)
  if (ordered !== '')
    return {
      kept: 'made to order',
      reason: `every fibre is polarisation-maintaining; made to order: ${ordered}`,
    }
  return { kept: 'yes', reason: 'every fibre is polarisation-maintaining' }
}
