// As a schema: the cross-section of the guide at a chip facet: a substrate, layers upwards, a cover, and cores. x runs along the chip
// surface from the middle of the guide; heights are measured from the substrate's surface. Of overlapping cores the later one takes precedence.

import { z } from 'zod'
import { CORE_PROFILES, SECTION_LIMITS } from '../words/crossSection'
import { indexMapSchema, stepOverWavelengthSchema, stepProfileSchema } from './coreTables'
import { indexSourceSchema } from './indexSource'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)
const name = z.string().min(1).max(200)

const layerSchema = open({
  id,
  name,
  thickness: quantity('layerThickness'),
  index: indexSourceSchema,
})
export type LayerEntry = z.infer<typeof layerSchema>

/** A trapezoid; its width is that at half height, its sidewalls rise at 90 degrees where they are vertical. */
const coreSchema = open({
  id,
  name,
  width: quantity('guideSize'),
  height: quantity('guideSize'),
  sidewall: quantity('sidewallAngle'),
  /** Middle of the core along the chip surface. */
  x: quantity('corePosition'),
  /** Underside of the core above the substrate. */
  bottom: quantity('corePosition'),
  /** At the peak of a profile that is not uniform. */
  index: indexSourceSchema,
  /**
   * Uniform where absent. Else width is the full 1/e width of the index step, Gaussian along the surface; height is the full 1/e
   * height about the middle of a buried profile, and the diffusion depth below the upper edge, the surface, of the others.
   */
  profile: z.enum(CORE_PROFILES).optional(),
  /** Of 'user profiles': along the surface about the core centre, and in depth below the upper edge; Gaussian where absent. */
  widthProfile: stepProfileSchema.optional(),
  depthProfile: stepProfileSchema.optional(),
  /** Of 'index map'; width and height are its 1/e extents through the peak, and stretch it. */
  map: indexMapSchema.optional(),
  /** Peak index step of a profile that is not uniform, above the glass around it; takes the place of `index`. */
  stepOverWavelength: stepOverWavelengthSchema.optional(),
})
export type CoreEntry = z.infer<typeof coreSchema>

export const crossSectionSchema = open({
  polarisation: z.enum(['TE', 'TM']),
  substrate: open({ index: indexSourceSchema }),
  layers: z.array(layerSchema).max(SECTION_LIMITS.layers),
  cover: open({ index: indexSourceSchema }),
  cores: z.array(coreSchema).min(1).max(SECTION_LIMITS.cores),
})
export type CrossSectionEntry = z.infer<typeof crossSectionSchema>
