// As a schema: a candidate: one complete interface from fibre to waveguide, as a chain of elements along the path.
// Guides (fibre, stub, taper chip, facet) are at even positions, the joins between them (splice, gap, relay) at odd ones.

import { z } from 'zod'
import {
  FACE_PLANES,
  LENS_ALIGNED,
  PART_SETTINGS,
  POINTINGS,
  POSE_AXES,
  RELAY_ALIGNED,
  RELAY_MEMBERS,
  SETTINGS,
  STUB_FORMS,
  USER_LINE_KINDS,
} from '../words/candidate'
import { LIMITS } from '../words/limits'
import { assemblySchema } from './build/assembly'
import { lifetimeSchema } from './build/lifetime'
import { barrelSchema, outlineSchema } from './build/outline'
import { coatingSchema } from './coating'
import { costSchema } from './cost'
import { arraySchema } from './fibreArray'
import { mountSchema } from './mount'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)

const bondShiftSchema = open({ x: quantity('offset'), y: quantity('offset'), z: quantity('offset') })

/** The near guide against the far guide's axis, across it. */
const pose = {
  offsetX: quantity('offset'),
  offsetY: quantity('offset'),
  tiltX: quantity('tilt'),
  tiltY: quantity('tilt'),
  roll: quantity('roll'),
}

/** The two end faces of a joint; coatings are absent where they are bare. */
const endFaces = {
  nearFaceAngle: quantity('faceAngle'),
  farFaceAngle: quantity('faceAngle'),
  /** The plane in which both end faces are angled. */
  facePlane: z.enum(FACE_PLANES),
  nearCoating: coatingSchema.optional(),
  farCoating: coatingSchema.optional(),
}

/** Angle between the polarisation axes of the two guides; absent where it is not given. */
const keyed = { keyAngle: quantity('keyAngle').optional() }

/** What is brought up to the next element; absent for the bare cladding, or a chip without a holder. */
const outlined = { outline: outlineSchema.optional() }

const setting = {
  /** An entered loss of the whole joint, used instead of the computed one. */
  typedLoss: quantity('loss').optional(),
  /** What the optimum leaves as entered, and which numbers of parts it may set. */
  pinned: z.array(z.enum(SETTINGS)).max(SETTINGS.length).optional(),
  freed: z.array(z.enum(PART_SETTINGS)).max(PART_SETTINGS.length).optional(),
}

/** A lensed tip, where there is one, replaces the cleaved end face. */
const fibreElementSchema = open({
  kind: z.literal('fibre'),
  id,
  fibreId: id,
  tipId: id.optional(),
  ...outlined,
})

const stubElementSchema = open({
  kind: z.literal('stub'),
  id,
  fibreId: id,
  tipId: id.optional(),
  length: quantity('length'),
  /** How it is ordered: a stub for every channel, or one array with all of them. Absent while undecided. */
  form: z.enum(STUB_FORMS).optional(),
  ...outlined,
})

const spliceElementSchema = open({
  kind: z.literal('splice'),
  id,
  /** 'typed' takes `loss`; 'abrupt' computes the mode mismatch of a splice without core diffusion. */
  basis: z.enum(['typed', 'abrupt']),
  loss: quantity('loss'),
  ...keyed,
})

const gapElementSchema = open({
  kind: z.literal('gap'),
  id,
  mediumId: id,
  gap: quantity('gap'),
  ...pose,
  ...endFaces,
  ...keyed,
  /** 'refracted' turns the emitting side so that its refracted beam meets the receiver's; 'parallel' keeps the axes parallel. */
  pointing: z.enum(POINTINGS),
  ...setting,
  /**
   * Degrees of freedom that the station optimises on coupled power. Their value is then measured from the best position of
   * each assembly, and their tolerance is the residual misalignment. The others are placed as entered.
   */
  aligned: z.array(z.enum(POSE_AXES)).max(POSE_AXES.length).optional(),
  /** How far the near side moves after alignment, when the joint is bonded or as its holder drifts; z opens the gap. */
  bondShift: bondShiftSchema.optional(),
})

/** Two lenses with a nearly parallel beam between them, from end face to end face. Offsets and tilts are measured from the far guide's axis. */
const lensPoseSchema = open({
  offsetX: quantity('offset'),
  offsetY: quantity('offset'),
  /** Along the light, from where the distances put the lens. */
  offsetZ: quantity('offset'),
  tiltX: quantity('tilt'),
  tiltY: quantity('tilt'),
  /** Axes that the station optimises on coupled power; their values then are measured from the optimum, as in a gap. */
  aligned: z.array(z.enum(LENS_ALIGNED)).max(LENS_ALIGNED.length).optional(),
})
export type LensPose = z.infer<typeof lensPoseSchema>

/** An isolator, filter or polariser in the parallel beam. */
const deviceSchema = open({
  name: z.string().min(1).max(200),
  loss: quantity('loss'),
  length: quantity('stretch'),
  index: quantity('index'),
  clearAperture: quantity('aperture'),
  /** What it takes from light that comes back, beyond `loss`. */
  isolation: quantity('returnLoss').optional(),
  /** Turn of a linear state, from x to y for light towards the chip; absent where it is not known, or there is none. */
  rotation: quantity('polarisationTurn').optional(),
})
export type Device = z.infer<typeof deviceSchema>

const relayElementSchema = open({
  kind: z.literal('relay'),
  id,
  mediumId: id,
  lens1Id: id,
  lens2Id: id,
  /** End face to lens 1, lens 1 to lens 2, lens 2 to end face; surface to surface on the axis. */
  frontGap: quantity('gap'),
  stretch: quantity('stretch'),
  backGap: quantity('gap'),
  lens1: lensPoseSchema,
  lens2: lensPoseSchema,
  ...pose,
  /** Along the light, from where `frontGap` puts the near guide; there where it is aligned along the light. */
  offsetZ: quantity('offset').optional(),
  ...endFaces,
  ...keyed,
  device: deviceSchema.optional(),
  /** The holder of lens 2; absent where it is not looked at. */
  barrel: barrelSchema.optional(),
  ...setting,
  /** As in a gap: what the station optimises of the near guide's pose. */
  aligned: z.array(z.enum(RELAY_ALIGNED)).max(RELAY_ALIGNED.length).optional(),
  /** The order in which lenses and near guide are aligned, each with the others where they are then; absent for the usual one. */
  alignOrder: z.array(z.enum(RELAY_MEMBERS)).max(RELAY_MEMBERS.length).optional(),
  /** How far the near guide moves when it is fixed, after alignment; z opens the distance to lens 1. */
  bondShift: bondShiftSchema.optional(),
})
export type RelayElement = ElementOf<'relay'>

const taperChipElementSchema = open({
  kind: z.literal('taper chip'),
  id,
  converterId: id,
  ...outlined,
})

const facetElementSchema = open({ kind: z.literal('facet'), id, facetId: id })

const elementSchema = z.discriminatedUnion('kind', [
  fibreElementSchema,
  stubElementSchema,
  spliceElementSchema,
  gapElementSchema,
  relayElementSchema,
  taperChipElementSchema,
  facetElementSchema,
])
export type ChainElement = z.infer<typeof elementSchema>
export type ElementKind = ChainElement['kind']
export type ElementOf<K extends ElementKind> = Extract<ChainElement, { kind: K }>
export type GapElement = ElementOf<'gap'>
export type JointPose = Pick<GapElement, keyof typeof pose>
export type JointFaces = Pick<GapElement, keyof typeof endFaces>

const userLineSchema = open({
  id,
  label: z.string().min(1).max(200),
  kind: z.enum(USER_LINE_KINDS),
  loss: quantity('loss'),
})
export type UserLine = z.infer<typeof userLineSchema>

export const candidateSchema = open({
  id,
  name: z.string().min(1).max(200),
  remark: z.string().max(10_000).optional(),
  chain: z.array(elementSchema).max(LIMITS.chainElements),
  userLines: z.array(userLineSchema).max(LIMITS.userLines),
  /** What holds both sides; absent where temperature is not looked at. */
  mount: mountSchema.optional(),
  /** The fibre array in front of the chip's channels; absent where it is perfect. */
  array: arraySchema.optional(),
  cost: costSchema.optional(),
  /** How it is put together, step by step; absent until it is planned. */
  assembly: assemblySchema.optional(),
  /** The drift over its service; absent where none is looked at. */
  lifetime: lifetimeSchema.optional(),
})
export type Candidate = z.infer<typeof candidateSchema>
