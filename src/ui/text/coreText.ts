// Core values as the screen shows them.

import type { Path } from '../../model/issue'
import { quantityAt } from '../../model/quantity/quantityAt'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import { type Unit, unitFactor, withUnit } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'
import { plainText } from '../../numerics/numberText'

/** The unit in which the quantity at the path is shown. */
export function shownUnit(project: Project, path: Path, rule: RuleName): Unit {
  return quantityAt(project, path)?.unit ?? RULES[rule].unit
}

export function perCore(unit: Unit, rule: RuleName): number {
  return 1 / (unitFactor(RULES[rule].dimension, unit) ?? 1)
}

/** A core value in the unit of the quantity at the path, to three digits. */
export function coreText(project: Project, path: Path, rule: RuleName, core: number): string {
  const unit = shownUnit(project, path, rule)
  return withUnit(plainText(core * perCore(unit, rule), 3), unit)
}
