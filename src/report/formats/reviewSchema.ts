// What the JSON file of the review document holds: the schema that docs/review-schema.json prints, and the type that the writer
// must meet. Every number that has a unit carries it. A change that a reader would notice raises the version.

import { z } from 'zod'

const REVIEW_FORMAT = 'modeseam-review'
const REVIEW_VERSION = 2

const quantity = z.strictObject({ value: z.number(), unit: z.string() })
const status = z.enum(['met', 'not met', 'not known'])

const verdict = z.strictObject({
  id: z.string(),
  label: z.string(),
  status,
  wish: z.boolean(),
  found: z.string(),
  limit: z.string(),
  reason: z.string(),
})

const axisWindow = z.strictObject({
  axis: z.string(),
  negative: quantity.nullable(),
  positive: quantity.nullable(),
  station: quantity,
})

const simulatedYield = z.strictObject({
  samples: z.number().int(),
  seed: z.number().int(),
  limit: quantity,
  yield: quantity,
  from: quantity,
  to: quantity,
  percentiles: z.array(z.strictObject({ share: quantity, loss: quantity, from: quantity, to: quantity })),
  tolerances: z.array(
    z.strictObject({
      label: z.string(),
      halfWidth: quantity,
      totalVarianceShare: quantity,
      yieldGainIfHalved: quantity,
    }),
  ),
})

const simulatedArray = z.strictObject({
  samples: z.number().int(),
  seed: z.number().int(),
  limit: quantity,
  strategies: z.array(
    z.strictObject({
      strategy: z.string(),
      allChannels: quantity,
      from: quantity,
      to: quantity,
      worstSingleChannel: quantity,
    }),
  ),
})

const design = z.strictObject({
  id: z.string(),
  name: z.string(),
  remark: z.string(),
  nominal: quantity,
  rss: quantity,
  worstCase: quantity,
  temperature: z
    .strictObject({
      worst: quantity,
      at: quantity,
      withinLimitFrom: quantity.nullable(),
      withinLimitTo: quantity.nullable(),
    })
    .nullable(),
  verdicts: z.array(verdict),
  lines: z.array(
    z.strictObject({
      id: z.string(),
      label: z.string(),
      kind: z.string(),
      loss: quantity,
      source: z.string(),
    }),
  ),
  inputs: z.array(
    z.strictObject({ label: z.string(), value: quantity, tolerance: z.string(), source: z.string() }),
  ),
  windows: z.array(axisWindow),
  yield: simulatedYield.nullable(),
  array: simulatedArray.nullable(),
})

const table = z.strictObject({
  caption: z.string(),
  columns: z.array(z.strictObject({ label: z.string(), unit: z.string() })),
  rows: z.array(
    z.strictObject({
      id: z.string().optional(),
      total: z.boolean().optional(),
      cells: z.array(z.union([z.number(), z.string()])),
    }),
  ),
})

export const reviewJsonSchema = z.strictObject({
  format: z.literal(REVIEW_FORMAT),
  version: z.literal(REVIEW_VERSION),
  title: z.string(),
  subject: z.string(),
  remark: z.string(),
  revision: z.string(),
  date: z.string(),
  programVersion: z.string(),
  checksum: z.string().regex(/^[0-9a-f]{64}$/),
  decision: z
    .strictObject({ designId: z.string(), name: z.string(), byEngineer: z.boolean(), reason: z.string() })
    .nullable(),
  risks: z.array(z.strictObject({ kind: z.enum(['tolerance', 'caution', 'estimate']), text: z.string() })),
  alternatives: z.array(
    z.strictObject({
      designId: z.string(),
      name: z.string(),
      nominal: quantity.nullable(),
      percentile: quantity.nullable(),
      reason: z.string(),
    }),
  ),
  missingRuns: z.array(z.strictObject({ designId: z.string(), kind: z.enum(['yield', 'array']) })),
  roles: z.array(z.string()),
  designs: z.array(design),
  refused: z.array(z.strictObject({ id: z.string(), name: z.string(), reasons: z.array(z.string()) })),
  sections: z.array(
    z.strictObject({
      id: z.string(),
      title: z.string(),
      remark: z.string(),
      texts: z.array(z.string()),
      tables: z.array(table),
      figures: z.array(table.extend({ id: z.string() })),
    }),
  ),
})
export type ReviewJson = z.infer<typeof reviewJsonSchema>
