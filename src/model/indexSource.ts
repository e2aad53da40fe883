// Where a refractive index comes from: a material with dispersion, or a number somebody vouches for.

import { z } from 'zod'
import { open } from './openObject'
import { quantity } from './quantity'

export const MATERIAL_NAMES = [
  'air',
  'fused silica',
  'silicon',
  'silicon nitride',
  'borosilicate crown glass',
  'sapphire',
] as const
export type MaterialName = (typeof MATERIAL_NAMES)[number]

export const indexSourceSchema = z.discriminatedUnion('kind', [
  open({ kind: z.literal('material'), material: z.enum(MATERIAL_NAMES) }),
  open({ kind: z.literal('value'), index: quantity('index') }),
])
export type IndexSource = z.infer<typeof indexSourceSchema>
