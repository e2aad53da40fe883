// Edits of what purchasing adds to the design. What is emptied is not stated any more.

import type { Project } from '../../model/schema/project'
import type { OrderedPart, Purchase } from '../../model/schema/purchase'
import type { OrderText } from '../../model/words/purchase'
import { editProject } from '../../store/workbench'

type BuildField = 'assemblies' | 'sparesPercent' | 'yieldLossPercent'
export type InspectionField =
  | 'confidencePercent'
  | 'defectivePercent'
  | 'allowedFailures'
  | 'guardRiskPercent'

function edit(change: (purchase: Purchase) => void): void {
  editProject((draft) => {
    draft.purchase ??= {}
    change(draft.purchase)
  })
}

export function setBuild(field: BuildField, value: number | null): void {
  edit((purchase) => {
    if (value === null) delete purchase[field]
    else purchase[field] = value
  })
}

export function setInspection(field: InspectionField, value: number | null): void {
  edit((purchase) => {
    purchase.inspection ??= {}
    if (value === null) delete purchase.inspection[field]
    else purchase.inspection[field] = value
  })
}

export function setUncertainty(method: string, value: number | null): void {
  edit((purchase) => {
    purchase.inspection ??= {}
    const { [method]: _, ...others } = purchase.inspection.uncertainties ?? {}
    purchase.inspection.uncertainties = value === null ? others : { ...others, [method]: value }
  })
}

/** What is entered for a part, in the project being edited; made where there is nothing yet. */
export function orderedPart(draft: Project, key: string): OrderedPart {
  draft.purchase ??= {}
  draft.purchase.parts ??= {}
  const found = draft.purchase.parts[key] ?? {}
  draft.purchase.parts[key] = found
  return found
}

export function setPartText(key: string, field: OrderText, text: string): void {
  editProject((draft) => {
    const part = orderedPart(draft, key)
    if (text === '') delete part[field]
    else part[field] = text
  })
}
