// What the JSON files of the order documents hold: the schemas that docs/ prints, and the types that the writers must meet. Limits are
// numbers in the unit of their row, null where there is none. A change that a reader would notice raises the version.

import { z } from 'zod'
import { PROVENANCES } from '../../model/quantity/quantity'

const PAPER_FORMAT_VERSION = 1

const bound = z.number().nullable()

const head = {
  version: z.literal(PAPER_FORMAT_VERSION),
  title: z.string(),
  design: z.string(),
  revision: z.string(),
  date: z.string(),
  programVersion: z.string(),
  checksum: z.string().regex(/^[0-9a-f]{64}$/),
}

const part = {
  number: z.number().int(),
  key: z.string(),
  name: z.string(),
  kind: z.string(),
  supplier: z.string(),
  partNumber: z.string(),
  piece: z.string(),
  perAssembly: z.number().nullable(),
  pieces: z.number().int().nullable(),
}

const characteristic = z.strictObject({
  id: z.string(),
  label: z.string(),
  requirement: z.string(),
  sense: z.enum(['within', 'at most', 'at least']),
  nominal: z.number(),
  lower: bound,
  upper: bound,
  unit: z.string(),
  source: z.enum(PROVENANCES),
  spread: z.string(),
  testMethod: z.string(),
})

export const specificationSchema = z.strictObject({
  format: z.literal('modeseam-purchase-specification'),
  ...head,
  build: z
    .strictObject({
      wanted: z.number().int(),
      begun: z.number().int(),
      yieldLoss: z.number(),
      spares: z.number(),
      enough: z.number(),
      enoughWithSpares: z.number(),
    })
    .nullable(),
  parts: z.array(
    z.strictObject({
      ...part,
      connector: z.string(),
      endFaceFinish: z.string(),
      keyOrientation: z.string(),
      furtherTerms: z.string(),
      fibreLength: z.strictObject({ value: z.number(), unit: z.string() }).nullable(),
      facts: z.record(z.string(), z.string()),
      characteristics: z.array(characteristic),
      openQuestions: z.array(z.string()),
    }),
  ),
})
export type SpecificationJson = z.infer<typeof specificationSchema>

export const inspectionSchema = z.strictObject({
  format: z.literal('modeseam-inspection-plan'),
  ...head,
  sampling: z.strictObject({
    confidence: z.number(),
    defective: z.number(),
    allowed: z.number().int(),
    size: z.number().int(),
    goodRejected: z.number(),
    guardFactor: z.number(),
    guardRisk: z.number(),
  }),
  parts: z.array(
    z.strictObject({
      ...part,
      inspections: z.array(
        characteristic.extend({
          expandedUncertainty: z.number(),
          expandedUncertaintyUnit: z.string(),
          uncertaintyIsEntered: z.boolean(),
          guardBand: z.number(),
          acceptFrom: bound,
          acceptTo: bound,
          sample: z.number().int().nullable(),
          rejectRule: z.string(),
          excessLossDb: z.number().nullable(),
        }),
      ),
    }),
  ),
})
export type InspectionJson = z.infer<typeof inspectionSchema>
