// As a schema: the fibre array, one fibre in front of every channel of the chip.

import { z } from 'zod'
import { ARRAY_AIMS } from '../words/fibreArray'
import { open } from './openObject'
import { quantity } from './quantity'

export const arraySchema = open({
  /** Pitch of the fibres; the chip's own is set in the requirements. */
  pitch: quantity('pitch'),
  /** Error of one core's place across the block, along x and along y: value 0, a sample for each channel. */
  coreX: quantity('offset'),
  coreY: quantity('offset'),
  /** Height of the outer cores over the middle one, a parabola between. */
  bow: quantity('offset'),
  aim: z.enum(ARRAY_AIMS),
})
export type FibreArray = z.infer<typeof arraySchema>
