// A candidate: one complete interface from fibre to waveguide, as a chain of elements in the order of the light.
// Guides (fibre, stub, facet) stand at even places, the joins between them (splice, gap) at odd ones.

import { z } from 'zod'
import { LIMITS } from './limits'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)

export const FACE_PLANES = ['x', 'y'] as const
export const POINTINGS = ['refracted', 'parallel'] as const

export const fibreElementSchema = open({ kind: z.literal('fibre'), id, fibreId: id })

export const stubElementSchema = open({
  kind: z.literal('stub'),
  id,
  fibreId: id,
  length: quantity('length'),
})

export const spliceElementSchema = open({
  kind: z.literal('splice'),
  id,
  /** 'typed' takes `loss`; 'abrupt' computes the mode mismatch of a splice without core diffusion. */
  basis: z.enum(['typed', 'abrupt']),
  loss: quantity('loss'),
})

export const gapElementSchema = open({
  kind: z.literal('gap'),
  id,
  mediumId: id,
  gap: quantity('gap'),
  offsetX: quantity('offset'),
  offsetY: quantity('offset'),
  tiltX: quantity('tilt'),
  tiltY: quantity('tilt'),
  roll: quantity('roll'),
  nearFaceAngle: quantity('faceAngle'),
  farFaceAngle: quantity('faceAngle'),
  /** The plane in which both end faces lean. */
  facePlane: z.enum(FACE_PLANES),
  /** 'refracted' turns the emitting side so that its refracted beam meets the receiver's; 'parallel' keeps the axes parallel. */
  pointing: z.enum(POINTINGS),
})

export const facetElementSchema = open({ kind: z.literal('facet'), id, facetId: id })

export const elementSchema = z.discriminatedUnion('kind', [
  fibreElementSchema,
  stubElementSchema,
  spliceElementSchema,
  gapElementSchema,
  facetElementSchema,
])
export type ChainElement = z.infer<typeof elementSchema>
export type ElementKind = ChainElement['kind']
export type ElementOf<K extends ElementKind> = Extract<ChainElement, { kind: K }>
export type GapElement = ElementOf<'gap'>

export const USER_LINE_KINDS = [
  'connector',
  'propagation',
  'device',
  'clipping',
  'absorption',
  'user line',
] as const

export const userLineSchema = open({
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
})
export type Candidate = z.infer<typeof candidateSchema>
