// As a schema: the whole project: what a file holds and what undo restores.

import { z } from 'zod'
import { LIMITS } from '../words/limits'
import { PROJECT_FORMAT, PROJECT_VERSION } from '../words/projectFile'
import { searchStationSchema } from './build/searchStation'
import { candidateSchema } from './candidate'
import { measurementSchema } from './measurement'
import { open } from './openObject'
import { converterSchema, facetSchema, fibreSchema, lensSchema, mediumSchema } from './parts'
import { purchaseSchema } from './purchase'
import { requirementsSchema } from './requirements'
import { reviewSchema } from './review'

/** What is designed: all but the readings and the past. */
const design = {
  name: z.string().min(1).max(200),
  remark: z.string().max(20_000).optional(),
  /** Seed of every random sample, kept so that a result can be repeated. */
  seed: z.int().min(0).max(4_294_967_295),
  requirements: requirementsSchema,
  fibres: z.array(fibreSchema).max(LIMITS.parts),
  facets: z.array(facetSchema).max(LIMITS.parts),
  media: z.array(mediumSchema).max(LIMITS.parts),
  converters: z.array(converterSchema).max(LIMITS.parts),
  lenses: z.array(lensSchema).max(LIMITS.parts),
  candidates: z.array(candidateSchema).max(LIMITS.candidates),
  review: reviewSchema.optional(),
  purchase: purchaseSchema.optional(),
  /** The station that first light is searched with; the usual numbers where absent. */
  searchStation: searchStationSchema.optional(),
}

/** A named state of the design. Readings are none of it: restoring one leaves them as they are. */
export const revisionSchema = open({
  id: z.string().min(1).max(80),
  name: z.string().min(1).max(200),
  /** Day on which it was kept, ISO: 2026-03-14. */
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  remark: z.string().max(10_000).optional(),
  design: open(design),
})
export type Revision = z.infer<typeof revisionSchema>
export type Design = Revision['design']

export const projectSchema = open({
  format: z.literal(PROJECT_FORMAT),
  version: z.literal(PROJECT_VERSION),
  ...design,
  /** Files written before there were measurements have none. */
  measurements: z.array(measurementSchema).max(LIMITS.measurements).default([]),
  revisions: z.array(revisionSchema).max(LIMITS.revisions).optional(),
})
export type Project = z.infer<typeof projectSchema>
