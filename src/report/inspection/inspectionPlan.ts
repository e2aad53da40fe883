// The inspection plan of a whole order.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Project } from '../../model/schema/project'
import { excessAtLimits } from '../purchase/excessAtLimits'
import type { Specification, SpecifiedItem } from '../purchase/specification'
import { type Inspection, inspectionOf, type Sampling, samplingOf } from './plan'

export interface InspectedItem {
  /** Its number in the specification. */
  readonly number: number
  readonly item: SpecifiedItem
  readonly inspections: readonly Inspection[]
}

export interface InspectionPlan {
  readonly sampling: Sampling
  readonly items: readonly InspectedItem[]
}

export function inspectionPlanOf(
  project: Project,
  evaluation: Evaluation,
  { items }: Specification,
): InspectionPlan {
  const sampling = samplingOf(project.purchase)
  const excess = excessAtLimits(project, evaluation)
  return {
    sampling,
    items: items.map((item, i) => ({
      number: i + 1,
      item,
      // What is bought by volume comes as one batch, of which one sample is measured.
      inspections: item.characteristics.map((each) =>
        inspectionOf(each, item.perAssembly === null ? 1 : item.pieces, sampling, project.purchase, excess),
      ),
    })),
  }
}
