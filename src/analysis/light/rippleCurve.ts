// The ripple of one gap: loss while the gap moves about its place, and how the ripple fades as it opens.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { etalonExtremes, etalonFactor } from '../../optics/index'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { Ripple } from '../results/lightResults'

const RIPPLE_DEFAULTS = { points: 121, fringes: 3, fadePoints: 41, fadeLeastUm: 60 } as const

export interface RippleCurve {
  readonly gapUm: number
  /** Loss of the chain with the round trips of this gap, and without them. */
  readonly gapsUm: Float64Array
  readonly lossesDb: Float64Array
  readonly singleDb: Float64Array
  /** Ripple, peak to peak, over a wider range of the gap. */
  readonly fadeGapsUm: Float64Array
  readonly fadeDb: Float64Array
}

/** Curves about the nominal gap, or every reason why there are none; null where the gap has no ripple. */
export function rippleCurve(
  project: Project,
  candidateId: string,
  ripple: Ripple,
): Result<RippleCurve | null> {
  const result = compileCandidate(project, candidateId)
  return result.ok ? success(curveOf(result.value, ripple)) : result
}

function curveOf(compiled: CompiledCandidate, ripple: Ripple): RippleCurve | null {
  const join = compiled.joins.find((each) => each.view?.(compiled.nominal).elementId === ripple.elementId)
  const key = [...ripple.path, 'gap'].join('/')
  const slot = compiled.variables.findIndex((variable) => variable.path.join('/') === key)
  if (join?.etalon === undefined || slot < 0) return null
  const { etalon } = join
  const v = Float64Array.from(compiled.nominal)
  const nominal = v[slot] ?? 0
  const { points, fringes, fadePoints, fadeLeastUm } = RIPPLE_DEFAULTS
  const half = (fringes / 2) * ripple.periodGapUm
  const from = Math.max(0, nominal - half)
  const steps = (start: number, end: number, count: number) =>
    Float64Array.from({ length: count }, (_, i) => start + ((end - start) * i) / (count - 1))
  const gapsUm = steps(from, from + 2 * half, points)
  const singleDb = new Float64Array(points)
  const lossesDb = new Float64Array(points)
  for (let i = 0; i < points; i++) {
    v[slot] = gapsUm[i] ?? nominal
    const series = etalon(v)
    const single = compiled.lossDb(v)
    singleDb[i] = single
    lossesDb[i] = single - (series === null ? 0 : 10 * Math.log10(etalonFactor(series, series.phaseRad)))
  }
  const fadeGapsUm = steps(0, Math.max(fadeLeastUm, 3 * nominal), fadePoints)
  const fadeDb = fadeGapsUm.map((gapUm) => {
    v[slot] = gapUm
    const series = etalon(v)
    if (series === null) return 0
    const { crest, trough } = etalonExtremes(series)
    return 10 * Math.log10(crest / trough)
  })
  return { gapUm: nominal, gapsUm, lossesDb, singleDb, fadeGapsUm, fadeDb }
}
