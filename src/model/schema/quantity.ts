// As a schema: a number as engineers keep it: value, unit, tolerance with its distribution, and where it came from.

import { z } from 'zod'
import {
  DISTRIBUTIONS,
  PROVENANCES,
  type Quantity,
  ruleBreach,
  SHARES,
  SIDES,
  type Tolerance,
  type Uncertainty,
} from '../quantity/quantity'
import { RULES, type RuleName } from '../quantity/quantityRules'
import { type Unit, unitsOf } from '../quantity/units'
import { LIMITS } from '../words/limits'
import { open } from './openObject'

const toleranceSchema: z.ZodType<Tolerance> = open({
  plusMinus: z.number().nonnegative().max(LIMITS.plusMinus),
  distribution: z.enum(DISTRIBUTIONS),
  coverage: z.number().min(LIMITS.coverage.least).max(LIMITS.coverage.most).optional(),
  share: z.enum(SHARES).optional(),
  side: z.enum(SIDES).optional(),
})

const uncertaintySchema: z.ZodType<Uncertainty> = open({
  plusMinus: z.number().nonnegative().max(LIMITS.plusMinus),
  coverage: z.number().positive().max(10),
})
/** Schema of a quantity that must obey the named rule. */
export function quantity(ruleName: RuleName): z.ZodType<Quantity> {
  const rule = RULES[ruleName]
  return open({
    value: z.number(),
    unit: z.enum(unitsOf(rule.dimension) as [Unit, ...Unit[]]),
    provenance: z.enum(PROVENANCES),
    tolerance: toleranceSchema.optional(),
    uncertainty: uncertaintySchema.optional(),
    typed: z.string().max(200).optional(),
    note: z.string().max(4000).optional(),
  })
    .check((context) => {
      const breach = ruleBreach(context.value.value, context.value.unit, rule)
      if (breach !== null) {
        context.issues.push({ code: 'custom', message: breach, input: context.value.value, path: ['value'] })
      }
    })
    .meta({ rule: ruleName })
}
