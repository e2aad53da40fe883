// The whole project: what a file holds and what undo restores.

import { z } from 'zod'
import { candidateSchema } from './candidate'
import { measurementSchema } from './measurement'
import { open } from './openObject'
import { converterSchema, facetSchema, fibreSchema, lensSchema, mediumSchema } from './parts'
import { requirementsSchema } from './requirements'

export const PROJECT_FORMAT = 'modeseam-project'
export const PROJECT_VERSION = 1

export const projectSchema = open({
  format: z.literal(PROJECT_FORMAT),
  version: z.literal(PROJECT_VERSION),
  name: z.string().min(1).max(200),
  remark: z.string().max(20_000).optional(),
  /** Seed of every random draw, kept so that a result can be repeated. */
  seed: z.int().min(0).max(4_294_967_295),
  requirements: requirementsSchema,
  fibres: z.array(fibreSchema).max(500),
  facets: z.array(facetSchema).max(500),
  media: z.array(mediumSchema).max(500),
  converters: z.array(converterSchema).max(500),
  lenses: z.array(lensSchema).max(500),
  candidates: z.array(candidateSchema).max(100),
  /** Files written before there was a bench have none. */
  measurements: z.array(measurementSchema).max(200).default([]),
})
export type Project = z.infer<typeof projectSchema>
