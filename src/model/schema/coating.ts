// As a schema: the coating of a face: what it reflects at the project's wavelength, or the thin films it is made of.

import { z } from 'zod'
import { LIMITS } from '../words/limits'
import { indexSourceSchema } from './indexSource'
import { open } from './openObject'
import { quantity } from './quantity'

const filmSchema = open({
  index: indexSourceSchema,
  thickness: quantity('filmThickness'),
  /** Imaginary part of the index; absent for a film that takes no light. */
  extinction: quantity('extinction').optional(),
})
export type Film = z.infer<typeof filmSchema>

/** In the order from the glass or guide outwards to the medium. */
export const filmsSchema = z.array(filmSchema).min(1).max(LIMITS.films)

export const coatingSchema = z.discriminatedUnion('kind', [
  /** A figure for every wavelength, angle and polarisation. */
  open({ kind: z.literal('reflectance'), reflectance: quantity('reflectance') }),
  open({ kind: z.literal('films'), films: filmsSchema }),
])
export type Coating = z.infer<typeof coatingSchema>
