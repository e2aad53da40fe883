// As a schema: what the engineer decides about the review sheet: the choice, what the sheet holds, and remarks.

import { z } from 'zod'
import { LIMITS } from '../words/limits'
import { PAPERS } from '../words/review'
import { open } from './openObject'

export const reviewSchema = open({
  /** The chosen candidate; absent while none is chosen. */
  chosenId: z.string().min(1).max(80).optional(),
  reason: z.string().max(10_000).optional(),
  paper: z.enum(PAPERS).optional(),
  /** Sections left out of the sheet, by id; ids of sections that a program does not know are kept. */
  left: z.array(z.string().min(1).max(80)).max(LIMITS.sections).optional(),
  /** Remarks by section id. */
  remarks: z.record(z.string().max(80), z.string().max(20_000)).optional(),
  openQuestions: z.array(z.string().min(1).max(2000)).max(200).optional(),
  /** Signatories by role; no names. */
  roles: z.array(z.string().min(1).max(200)).max(20).optional(),
})
export type Review = z.infer<typeof reviewSchema>
