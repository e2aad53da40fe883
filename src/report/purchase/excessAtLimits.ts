// What each toleranced number of a design adds at its worse limit.

import type { Evaluation } from '../../analysis/results/evaluation'
import type { Quantity } from '../../model/quantity/quantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import type { Project } from '../../model/schema/project'

/** Excess loss of every toleranced number at its worse limit, dB, by the number itself: the objects of this very project. */
export function excessAtLimits(project: Project, evaluation: Evaluation): ReadonlyMap<Quantity, number> {
  return new Map(
    evaluation.rootSumSquare.contributions.flatMap(({ path, addedDb }) => {
      const quantity = quantityAt(project, path)
      return quantity === undefined ? [] : [[quantity, addedDb] as const]
    }),
  )
}
