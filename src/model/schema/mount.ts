// As a schema: what holds the two sides of the chip joint: stacks of material from one common anchor to either end face.

import { z } from 'zod'
import { SOLID_NAMES } from '../../optics/materials/thermalExpansion'
import { MOUNT_AXES } from '../words/mount'
import { open } from './openObject'
import { quantity } from './quantity'

const mountLayerSchema = open({
  expansion: z.discriminatedUnion('kind', [
    open({ kind: z.literal('material'), material: z.enum(SOLID_NAMES) }),
    open({ kind: z.literal('value'), expansion: quantity('expansion') }),
  ]),
  axis: z.enum(MOUNT_AXES),
  /** From the anchor's end to the joint's end, counted along the axis: negative where the layer runs against it. */
  length: quantity('mountLength'),
})
export type MountLayer = z.infer<typeof mountLayerSchema>

export const mountSchema = open({
  /** Where the joint was aligned: nothing has moved at this temperature. */
  assemblyTemperature: quantity('temperature'),
  fibreSide: z.array(mountLayerSchema).max(40),
  chipSide: z.array(mountLayerSchema).max(40),
})
export type Mount = z.infer<typeof mountSchema>
