// As a schema: what purchasing adds to the design. Everything is optional: what is not stated becomes a question on paper.

import { z } from 'zod'
import { PURCHASE_LIMITS } from '../words/purchase'
import { open } from './openObject'
import { quantity } from './quantity'

const within = ([least, greatest]: readonly [number, number]) => z.number().min(least).max(greatest)
const words = z.string().max(2000).optional()

/** What an order states of one part in addition to the numbers of the design. */
const orderedPartSchema = open({
  supplier: words,
  partNumber: words,
  connector: words,
  finish: words,
  key: words,
  note: words,
  /** Of a fibre, from its end face to the connector. */
  length: quantity('length').optional(),
})
export type OrderedPart = z.infer<typeof orderedPartSchema>

export const purchaseSchema = open({
  /** Good assemblies that are wanted. */
  assemblies: z.int().min(PURCHASE_LIMITS.assemblies[0]).max(PURCHASE_LIMITS.assemblies[1]).optional(),
  /** Further parts, of those that the build uses. */
  sparesPercent: within(PURCHASE_LIMITS.sparesPercent).optional(),
  /** Share of the assemblies that is expected to fail. */
  yieldLossPercent: within(PURCHASE_LIMITS.yieldLossPercent).optional(),
  inspection: open({
    confidencePercent: within(PURCHASE_LIMITS.confidencePercent).optional(),
    defectivePercent: within(PURCHASE_LIMITS.defectivePercent).optional(),
    allowedFailures: z
      .int()
      .min(PURCHASE_LIMITS.allowedFailures[0])
      .max(PURCHASE_LIMITS.allowedFailures[1])
      .optional(),
    guardRiskPercent: within(PURCHASE_LIMITS.guardRiskPercent).optional(),
    /** Expanded uncertainties (k = 2) by measuring method, in the method's unit; methods that a program does not know are kept. */
    uncertainties: z.record(z.string().max(80), within(PURCHASE_LIMITS.uncertainty)).optional(),
  }).optional(),
  /** By the kind of element and the id of its part; parts that are gone from the project are kept. */
  parts: z
    .record(z.string().max(200), orderedPartSchema)
    .refine((parts) => Object.keys(parts).length <= PURCHASE_LIMITS.items)
    .optional(),
})
export type Purchase = z.infer<typeof purchaseSchema>
