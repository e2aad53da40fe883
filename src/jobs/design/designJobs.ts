// Searches over one design as plain functions: its optimum, its tolerances shared out, a part dimension. Run by the worker, by tests,
// and on the page if workers are blocked.

import { answeredHere, type KnownFit, learnFits } from '../../analysis/field/fit/knownFits'
import { compileCandidate } from '../../analysis/path/compileCandidate'
import { type Allowances, allowanceSteps } from '../../analysis/sizing/allowances'
import type { SizingBasis } from '../../analysis/sizing/criteria'
import { sizedDimensions } from '../../analysis/sizing/dimensions'
import { type Optimum, optimumSteps } from '../../analysis/sizing/optimum'
import { type SizeCurve, sizeCurveSteps } from '../../analysis/sizing/sizeCurve'
import { sizedCandidate } from '../../analysis/sizing/wholeRow'
import type { Project } from '../../model/schema/project'
import type { ReportProgress } from '../jobRunner'
import { runSteps } from '../runSteps'

/** A design of a project, with the modes of its facets, and the fits of joints that are known already. */
interface OfDesign {
  readonly project: Project
  readonly designId: string
  readonly fits: readonly KnownFit[]
}

interface AllocationRequest extends OfDesign {
  readonly limitDb: number
  readonly basis: SizingBasis
  /** Weights in the allocation by the path of the quantity, its keys joined by `/`; 1 for any other that has a tolerance. */
  readonly weights: Readonly<Record<string, number>>
}

/** The curve of a dimension, and which. */
interface SizedCurve {
  readonly dimensionId: string
  readonly curve: SizeCurve
}

interface DimensionRequest extends OfDesign {
  readonly dimensionId: string
  readonly limitDb: number
}

/** Answers are null where the design cannot be computed: whoever asks says why. */
export const designJobs = {
  optimum: ({ project, designId, fits }: OfDesign, report: ReportProgress): Promise<Optimum | null> => {
    learnFits(fits)
    return runSteps(optimumSteps(project, designId), report)
  },
  allocation: async (request: AllocationRequest, report: ReportProgress): Promise<Allowances | null> => {
    learnFits(request.fits)
    const sized = answeredHere(() => sizedCandidate(request.project, request.designId))
    if (!sized.ok) return null
    const { limitDb, basis, weights } = request
    const steps = allowanceSteps(
      sized.value,
      limitDb,
      basis,
      (path, now) => weights[path.join('/')] ?? (now > 0 ? 1 : 0),
    )
    return runSteps(steps, report)
  },
  dimension: async (request: DimensionRequest, report: ReportProgress): Promise<SizedCurve | null> => {
    learnFits(request.fits)
    const compiled = answeredHere(() => compileCandidate(request.project, request.designId))
    if (!compiled.ok) return null
    const { dimensionId, limitDb } = request
    const dimension = sizedDimensions(compiled.value).find(({ id }) => id === dimensionId)
    if (dimension === undefined) return null
    return { dimensionId, curve: await runSteps(sizeCurveSteps(compiled.value, dimension, limitDb), report) }
  },
}

export type DesignJobs = typeof designJobs
