// As a schema: where a refractive index comes from: a material with dispersion, or an entered number.

import { z } from 'zod'
import { MATERIAL_NAMES } from '../words/indexSource'
import { open } from './openObject'
import { quantity } from './quantity'

export const indexSourceSchema = z.discriminatedUnion('kind', [
  open({ kind: z.literal('material'), material: z.enum(MATERIAL_NAMES) }),
  open({ kind: z.literal('value'), index: quantity('index') }),
])
export type IndexSource = z.infer<typeof indexSourceSchema>
