// A tolerance must end where its quantity is still physical; a worst case or a sample would otherwise compute nonsense.

import type { Issue } from '../../../model/issue'
import { ruleBreach } from '../../../model/quantity/quantity'
import { RULES } from '../../../model/quantity/quantityRules'
import { spreadEnds } from '../../../model/quantity/spread'
import { unitFactor } from '../../../model/quantity/units'
import { rounded } from '../../../numerics/numberText'
import type { Variable } from '../../results/evaluation'

/** Faces that touch cannot come closer: a gap's tolerance may reach below zero and then means contact. */
const MAY_REACH_BELOW: ReadonlySet<Variable['rule']> = new Set(['gap'])

/** One issue for every toleranced quantity whose lower or upper end breaks the rule of the quantity. */
export function toleranceEndIssues(variables: readonly Variable[]): readonly Issue[] {
  return variables.flatMap(({ rule: ruleName, nominal, spread, label, path }): readonly Issue[] => {
    if (spread.halfWidth === 0) return []
    const [below, above] = spreadEnds(spread)
    const rule = RULES[ruleName]
    const shown = (core: number) => rounded(core / (unitFactor(rule.dimension, rule.unit) ?? 1), 6)
    const ends = [nominal + above, ...(MAY_REACH_BELOW.has(ruleName) ? [] : [nominal + below])]
    const breach = ends.map((end) => ruleBreach(shown(end), rule.unit, rule)).find((each) => each !== null)
    if (breach === undefined) return []
    return [
      {
        path: [...path, 'tolerance'],
        code: 'range',
        message: `the tolerance of ${label} is too wide: ${breach}`,
        fix: 'Enter a smaller ±.',
      },
    ]
  })
}
