// As a schema: the outline of what is brought up to the chip. Without one a fibre is its cladding, to the end face.

import { z } from 'zod'
import { open } from '../openObject'
import { quantity } from '../quantity'

/** A fibre or stub ground or drawn to a cone; of a lensed tip, `endDiameter` is where the cap meets the cone. */
const taperedSchema = open({
  kind: z.literal('tapered'),
  endDiameter: quantity('bodySize'),
  /** Between the axis and the side of the cone. */
  coneAngle: quantity('coneAngle'),
})

/** Guides in a block of glass with a lid, polished together; heights are measured from the axis of the guides. */
const blockSchema = open({
  kind: z.literal('block'),
  width: quantity('bodySize'),
  below: quantity('bodySize'),
  above: quantity('bodySize'),
  /** How far the guides reach out of the block; 0 where they are polished flush. */
  protrusion: quantity('overhang').optional(),
  /** How far the lid, above the guides, reaches beyond the end face; negative where it is set back. */
  lidOverhang: quantity('overhang').optional(),
})

export const outlineSchema = z.discriminatedUnion('kind', [taperedSchema, blockSchema])
export type Outline = z.infer<typeof outlineSchema>
export type OutlineKind = Outline['kind']

/** The holder of the lens that is nearest to the chip. */
export const barrelSchema = open({
  diameter: quantity('bodySize'),
  /** How far it reaches beyond the last surface of the lens; negative where the lens protrudes. */
  barrelOverhang: quantity('overhang'),
})
export type Barrel = z.infer<typeof barrelSchema>
