// The numbers that a candidate was computed from, as a reviewer wants to read them.

import { compileCandidate } from '../analysis/path/compileCandidate'
import type { Provenance } from '../model/quantity/quantity'
import { quantityAt } from '../model/quantity/quantityAt'
import { unitLabel } from '../model/quantity/units'
import type { Project } from '../model/schema/project'
import type { NumberCell } from './document/blocks'
import { plainCell, toleranceWords } from './document/cells'

export interface SheetInput {
  readonly label: string
  readonly value: NumberCell
  readonly unit: string
  /** `± 0.5 µm, uniform`; empty where the number is taken as exact. */
  readonly tolerance: string
  readonly provenance: Provenance
}

/** Every quantity that the candidate's chain reads, along the path; empty where it cannot be computed. */
export function sheetInputs(project: Project, candidateId: string): readonly SheetInput[] {
  const compiled = compileCandidate(project, candidateId)
  if (!compiled.ok) return []
  return compiled.value.variables.flatMap(({ label, path }): readonly SheetInput[] => {
    const quantity = quantityAt(project, path)
    if (quantity === undefined) return []
    return [
      {
        label,
        value: plainCell(quantity.value),
        unit: unitLabel(quantity.unit),
        tolerance: toleranceWords(quantity),
        provenance: quantity.provenance,
      },
    ]
  })
}
