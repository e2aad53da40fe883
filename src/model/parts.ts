// The parts a project knows: fibres, chip facets, gap media, converters and lenses.

import { z } from 'zod'
import { indexSourceSchema } from './indexSource'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)
const name = z.string().min(1).max(200)
const remark = z.string().max(10_000).optional()

/** How the mode is known: its diameters, or the core that makes it. */
export const fibreModeSchema = z.discriminatedUnion('kind', [
  open({
    kind: z.literal('mfd'),
    mfdX: quantity('mfd'),
    /** Absent for a circular mode. */
    mfdY: quantity('mfd').optional(),
  }),
  open({ kind: z.literal('core'), coreDiameter: quantity('coreDiameter'), na: quantity('na') }),
])
export type FibreMode = z.infer<typeof fibreModeSchema>

export const fibreSchema = open({
  id,
  name,
  remark,
  mode: fibreModeSchema,
  claddingDiameter: quantity('claddingDiameter'),
  /** Phase index of the mode, for reflection and refraction at the end face. */
  index: indexSourceSchema,
  polarisationMaintaining: z.boolean(),
})
export type FibreEntry = z.infer<typeof fibreSchema>

export const facetSchema = open({
  id,
  name,
  remark,
  mfdX: quantity('mfd'),
  mfdY: quantity('mfd'),
  /** Effective index of the mode at the facet. */
  index: indexSourceSchema,
  /** Loss of the on-chip taper behind the facet, down to the routing waveguide. */
  taperLoss: quantity('loss'),
  guideWidth: quantity('guideSize'),
  guideHeight: quantity('guideSize'),
  depth: quantity('depth'),
})
export type FacetEntry = z.infer<typeof facetSchema>

export const MEDIUM_STATES = ['gas', 'gel', 'adhesive'] as const

export const mediumSchema = open({
  id,
  name,
  remark,
  /** A gas leaves the joint dry, a gel can be cleaned away, an adhesive bonds. */
  state: z.enum(MEDIUM_STATES),
  index: indexSourceSchema,
  thermoOptic: quantity('thermoOptic').optional(),
})
export type MediumEntry = z.infer<typeof mediumSchema>

export const converterSchema = z.discriminatedUnion('kind', [
  open({
    kind: z.literal('taper chip'),
    id,
    name,
    remark,
    inputMfdX: quantity('mfd'),
    inputMfdY: quantity('mfd'),
    outputMfdX: quantity('mfd'),
    outputMfdY: quantity('mfd'),
    transmissionLoss: quantity('loss'),
    inputPitch: quantity('pitch'),
    outputPitch: quantity('pitch'),
    index: indexSourceSchema,
  }),
  open({
    kind: z.literal('lensed tip'),
    id,
    name,
    remark,
    tip: z.discriminatedUnion('kind', [
      open({ kind: z.literal('radius'), radius: quantity('radius') }),
      open({
        kind: z.literal('spot'),
        spotX: quantity('mfd'),
        spotY: quantity('mfd').optional(),
        workingDistance: quantity('workingDistance'),
      }),
    ]),
  }),
])
export type ConverterEntry = z.infer<typeof converterSchema>

export const lensSchema = open({
  id,
  name,
  remark,
  shape: z.discriminatedUnion('kind', [
    open({ kind: z.literal('thin'), focalLength: quantity('focalLength') }),
    open({ kind: z.literal('ball'), diameter: quantity('length') }),
    open({ kind: z.literal('plano-convex'), radius: quantity('radius'), thickness: quantity('length') }),
  ]),
  glass: indexSourceSchema,
  clearAperture: quantity('aperture'),
})
export type LensEntry = z.infer<typeof lensSchema>
