// As a schema: the edge of the chip in front of a facet: what glass may touch before it reaches the waveguide.

import type { z } from 'zod'
import { open } from '../openObject'
import { quantity } from '../quantity'

/** An etched groove that holds a bare fibre in front of the facet. */
const vGrooveSchema = open({
  /** Opening at the surface that the groove is etched into. */
  grooveWidth: quantity('bodySize'),
  /** Side wall against that surface; both walls alike. */
  wallAngle: quantity('wallAngle'),
  /** From the waveguide's axis down to that surface. */
  grooveSurface: quantity('edgeDepth'),
  /** Middle of the groove across the waveguide. */
  groovePosition: quantity('offset'),
})
export type VGroove = z.infer<typeof vGrooveSchema>

/** Lengths along z are measured from the facet. Where the waveguide lies below the chip's surface is the facet's own `depth`. */
export const chipEdgeSchema = open({
  /** From the facet to the dicing edge in front of it. */
  recess: quantity('recess'),
  /** From the waveguide's axis down to the ledge that the recess leaves. */
  ledgeDepth: quantity('edgeDepth'),
  /** A deeper etch between facet and ledge; as long as the recess or longer, it leaves no ledge. */
  trenchLength: quantity('recess').optional(),
  trenchDepth: quantity('edgeDepth').optional(),
  chipThickness: quantity('chipThickness'),
  /** A lid, or whatever rises above the chip's surface, and how far behind the facet it begins; negative in front of it. */
  lidHeight: quantity('lidHeight').optional(),
  lidDistance: quantity('overhang').optional(),
  groove: vGrooveSchema.optional(),
})
export type ChipEdge = z.infer<typeof chipEdgeSchema>
