// What may explain a loss that was measured and not predicted: the misalignments of the last gap and the mode sizes
// on its sides, each within its tolerance, and the loss of the whole chain as a function of them.

import { failure, type Result, success } from '../../model/issue'
import { quantityAt } from '../../model/quantity/quantityAt'
import type { RuleName } from '../../model/quantity/quantityRules'
import { coreStandard } from '../../model/quantity/standardUncertainty'
import type { Project } from '../../model/schema/project'
import { compileCandidate } from '../path/compileCandidate'

export interface LossCause {
  /** Also its name on screen: "offset x", "MFD y of Silicon-nitride facet". */
  readonly id: string
  /** Of the gap or of a mode: `offsetX`, `mfdY`. The name on screen has the joint too where the path has several. */
  readonly field: string
  readonly rule: RuleName
  /** Core unit: um or rad. */
  readonly nominal: number
  readonly standard: number
  /** Five standard deviations below nominal, or the physical limit. */
  readonly lower: number
}

export interface LossCauses {
  readonly causes: readonly LossCause[]
  /** Names of quantities that could be causes but have no tolerance, and are therefore held. */
  readonly held: readonly string[]
  /** Loss of the chain in dB at the causes' values, for each stage position along `axis` added to the offset. */
  readonly lossesDb: (
    values: Readonly<Record<string, number>>,
    axis: 'x' | 'y',
    positionsUm: readonly number[],
  ) => Float64Array
}

const CAUSE_FIELDS: ReadonlySet<string> = new Set([
  'offsetX',
  'offsetY',
  'gap',
  'tiltX',
  'tiltY',
  'mfdX',
  'mfdY',
])
/** No mode can be narrower; the rule's own lower limit. */
const LEAST_MFD_UM = 0.1
/** Range in which a cause is searched on either side. */
const WIDEST_STANDARDS = 5

/** The causes of one candidate, or every reason why it cannot be computed. */
export function lossCauses(project: Project, candidateId: string): Result<LossCauses> {
  const compiled = compileCandidate(project, candidateId)
  if (!compiled.ok) return compiled
  const { candidate, variables, nominal, lossDb } = compiled.value
  const lastGap = candidate.chain.findLastIndex((element) => element.kind === 'gap')
  const possible = variables.flatMap((variable, slot) => {
    const field = String(variable.path.at(-1))
    const ofOtherGap = variable.path[2] === 'chain' && variable.path[3] !== lastGap
    return CAUSE_FIELDS.has(field) && !ofOtherGap ? [{ variable, slot, field }] : []
  })
  const slotOf = (field: string) => possible.find((each) => each.field === field)?.slot
  const offsets = { x: slotOf('offsetX'), y: slotOf('offsetY') }
  if (offsets.x === undefined || offsets.y === undefined) {
    return failure({
      path: ['candidates'],
      code: 'sequence',
      message: `"${candidate.name}" has no gap; the causes of a measured loss can only be analysed at a gap`,
    })
  }
  const free = possible.filter(({ variable }) => variable.spread.halfWidth > 0)
  const causes = free.map(({ variable, field }): LossCause => {
    const quantity = quantityAt(project, variable.path)
    const standard =
      quantity === undefined ? variable.spread.halfWidth : coreStandard(quantity, variable.rule)
    const least = field === 'gap' ? 0 : field.startsWith('mfd') ? LEAST_MFD_UM : -Infinity
    return {
      id: variable.label,
      field,
      rule: variable.rule,
      nominal: variable.nominal,
      standard,
      lower: Math.max(least, variable.nominal - WIDEST_STANDARDS * standard),
    }
  })
  return success({
    causes,
    held: possible.filter((each) => !free.includes(each)).map(({ variable }) => variable.label),
    lossesDb: (values, axis, positionsUm) => {
      const draft = Float64Array.from(nominal)
      for (const { variable, slot: at } of free) draft[at] = values[variable.label] ?? variable.nominal
      const moved = offsets[axis] ?? 0
      const start = draft[moved] as number
      return Float64Array.from(positionsUm, (position) => {
        draft[moved] = start + position
        return lossDb(draft)
      })
    },
  })
}
