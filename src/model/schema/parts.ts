// As a schema: the parts a project knows: fibres, chip facets, gap media, converters and lenses.

import { z } from 'zod'
import { MEDIUM_STATES, TAPER_PROFILES } from '../words/parts'
import { chipEdgeSchema } from './build/chipEdge'
import { filmsSchema } from './coating'
import { crossSectionSchema } from './crossSection'
import { indexSourceSchema } from './indexSource'
import { modeOverWavelengthSchema } from './modeOverWavelength'
import { facetShapeSchema, fibreShapeSchema } from './modeShape'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)
const name = z.string().min(1).max(200)
const remark = z.string().max(10_000).optional()

/** How the mode is known: its diameters, or the core that makes it. */
const fibreModeSchema = z.discriminatedUnion('kind', [
  open({
    kind: z.literal('mfd'),
    mfdX: quantity('mfd'),
    /** Absent for a circular mode. */
    mfdY: quantity('mfd').optional(),
    /** Absent where the diameter is taken as the same over the band. */
    overWavelength: modeOverWavelengthSchema.optional(),
  }),
  open({ kind: z.literal('core'), coreDiameter: quantity('coreDiameter'), na: quantity('na') }),
])
export type FibreMode = z.infer<typeof fibreModeSchema>

export const fibreSchema = open({
  id,
  name,
  remark,
  mode: fibreModeSchema,
  /** Absent for a Gaussian. */
  modeShape: fibreShapeSchema.optional(),
  claddingDiameter: quantity('claddingDiameter'),
  /** Distance of the core from the middle of the cladding; absent where it is not looked at. */
  concentricity: quantity('concentricity').optional(),
  /** Phase index of the mode, for reflection and refraction at the end face. */
  index: indexSourceSchema,
  polarisationMaintaining: z.boolean(),
  /** Not held in stock: ordered to a drawing, with the delivery that goes with it. */
  madeToOrder: z.boolean().optional(),
})
export type FibreEntry = z.infer<typeof fibreSchema>

/** What differs for TM: index and losses are those of TE where they are absent. */
const tmModeSchema = open({
  mfdX: quantity('mfd'),
  mfdY: quantity('mfd'),
  index: quantity('index').optional(),
  taperLoss: quantity('loss').optional(),
})
export type TmMode = z.infer<typeof tmModeSchema>

export const facetSchema = open({
  id,
  name,
  remark,
  /** Of the TE mode, or of the only one. */
  mfdX: quantity('mfd'),
  mfdY: quantity('mfd'),
  /** True where one width, such as that of the taper's tip, lies behind both diameters: their deviations are one. */
  oneWidth: z.boolean().optional(),
  overWavelength: modeOverWavelengthSchema.optional(),
  /** The TM mode, where it differs; the field of TE lies along the chip's surface. */
  tm: tmModeSchema.optional(),
  /** Effective index of the mode at the facet. */
  index: indexSourceSchema,
  /** Loss of the on-chip taper behind the facet, down to the routing waveguide. */
  taperLoss: quantity('loss'),
  /** What leaks into the substrate below the narrow end of the taper; absent where it is not known. */
  substrateLeakage: quantity('loss').optional(),
  /** Widths of the inverse taper at its narrow end and at the routing waveguide, as drawn on the mask. */
  tipWidth: quantity('guideSize').optional(),
  routingWidth: quantity('guideSize').optional(),
  /** From the narrow end to the routing waveguide. */
  taperLength: quantity('taperLength').optional(),
  /** Linear where absent. */
  taperProfile: z.enum(TAPER_PROFILES).optional(),
  guideWidth: quantity('guideSize'),
  guideHeight: quantity('guideSize'),
  depth: quantity('depth'),
  /** The guide at the facet as it is built, from which its mode can be solved; absent where only the mode is known. */
  crossSection: crossSectionSchema.optional(),
  /** What glass may touch before it reaches the facet; absent where the chip ends in the plane of the facet. */
  chipEdge: chipEdgeSchema.optional(),
  /** What the mode is taken to be; absent for a Gaussian. */
  modeShape: facetShapeSchema.optional(),
})
export type FacetEntry = z.infer<typeof facetSchema>

export const mediumSchema = open({
  id,
  name,
  remark,
  /** A gas leaves the joint dry, a gel can be cleaned away, an adhesive bonds. */
  state: z.enum(MEDIUM_STATES),
  index: indexSourceSchema,
  thermoOptic: quantity('thermoOptic').optional(),
  /** The limit that the engineer sets, by the supplier's or own tests. */
  irradianceLimit: quantity('irradiance').optional(),
})
export type MediumEntry = z.infer<typeof mediumSchema>

/** One end of an SSC chip by more than its diameters: as a facet, it may have a cross-section and the mode that it makes. */
const chipEndSchema = open({
  crossSection: crossSectionSchema.optional(),
  modeShape: facetShapeSchema.optional(),
  /** Effective index of the mode at this end; that of the chip where absent. */
  index: indexSourceSchema.optional(),
})
export type ChipEnd = z.infer<typeof chipEndSchema>

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
    /** Absent where the end is defined by its diameters alone. */
    inputEnd: chipEndSchema.optional(),
    outputEnd: chipEndSchema.optional(),
    transmissionLoss: quantity('loss'),
    inputPitch: quantity('pitch'),
    outputPitch: quantity('pitch'),
    /** What the chip sits in, in words for the order. */
    holder: z.string().max(200).optional(),
    index: indexSourceSchema,
  }),
  /** Takes the place of a fibre's cleaved end face. */
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
        /** Range of the tip's radius, for its echo only; absent where it is not known. */
        radius: quantity('radius').optional(),
      }),
    ]),
  }),
])
export type ConverterEntry = z.infer<typeof converterSchema>
export type ConverterKind = ConverterEntry['kind']
export type TaperChipEntry = Extract<ConverterEntry, { kind: 'taper chip' }>
export type LensedTipEntry = Extract<ConverterEntry, { kind: 'lensed tip' }>

/**
 * The shape of a lens, described from its collimated side: `front` is the face that looks into the parallel beam.
 * Radii of a thick lens are positive when the face bulges outwards.
 */
/** Conic constant of a curved face, 0 for a sphere, and its even aspheric terms A4, A6, ... in mm^-3, mm^-5, ... */
const conic = z.number().min(-50).max(50).optional()
const aspheric = z.array(z.number().min(-1e9).max(1e9)).max(7).optional()

const lensShapeSchema = z.discriminatedUnion('kind', [
  open({ kind: z.literal('thin'), focalLength: quantity('focalLength') }),
  open({ kind: z.literal('ball'), diameter: quantity('lensSize') }),
  open({
    kind: z.literal('plano-convex'),
    radius: quantity('radius'),
    thickness: quantity('lensSize'),
    conic,
    aspheric,
  }),
  open({
    kind: z.literal('biconvex'),
    frontRadius: quantity('radius'),
    backRadius: quantity('radius'),
    thickness: quantity('lensSize'),
    frontConic: conic,
    frontAspheric: aspheric,
    backConic: conic,
    backAspheric: aspheric,
  }),
  /** A rod with flat faces; its pitch is the share of one full period of the ray's path. */
  open({
    kind: z.literal('gradient index'),
    rodPitch: quantity('rodPitch'),
    length: quantity('lensSize'),
    /** h4 of n0 (1 - (g r)^2 / 2 + h4 (g r)^4); 0 where not given. */
    fourthOrder: z.number().min(-10).max(10).optional(),
  }),
])
export type LensShapeEntry = z.infer<typeof lensShapeSchema>

export const lensSchema = open({
  id,
  name,
  remark,
  shape: lensShapeSchema,
  /** Index of the glass; on the axis for a gradient-index rod. */
  glass: indexSourceSchema,
  /** Diameter that the light may use. */
  clearAperture: quantity('aperture'),
  /** Reflectance of each coated face; absent where the faces are bare. */
  coating: quantity('reflectance').optional(),
  /** Films of each coated face, from the glass outwards; they go before `coating`. */
  films: filmsSchema.optional(),
  /** Pitch where the lens is one of an array. */
  pitch: quantity('pitch').optional(),
})
export type LensEntry = z.infer<typeof lensSchema>
