// The block that holds one fibre in front of every channel of the chip.

import { z } from 'zod'
import { open } from './openObject'
import { quantity } from './quantity'

/** What the position of the whole block is optimised for, on power. */
export const ARRAY_AIMS = ['sum of all', 'worst channel', 'outer two'] as const
export type ArrayAim = (typeof ARRAY_AIMS)[number]

export const arraySchema = open({
  /** Pitch of the fibres; the chip's own stands in the requirements. */
  pitch: quantity('pitch'),
  /** Error of one core's place across the block, along x and along y: value 0, a draw for each channel. */
  coreX: quantity('offset'),
  coreY: quantity('offset'),
  /** Height of the outer cores over the middle one, a parabola between. */
  bow: quantity('offset'),
  aim: z.enum(ARRAY_AIMS),
})
export type FibreArray = z.infer<typeof arraySchema>
