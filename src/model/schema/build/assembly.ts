// As a schema: how a design is assembled, as steps in their order.

import { z } from 'zod'
import { ALIGN_SIGNALS, ASSEMBLY_LIMITS, STEP_KINDS } from '../../words/assembly'
import { open } from '../openObject'
import { quantity } from '../quantity'

const within = ([least, greatest]: readonly [number, number]) => z.number().min(least).max(greatest)

const stepSchema = open({
  id: z.string().min(1).max(80),
  name: z.string().min(1).max(200),
  kind: z.enum(STEP_KINDS),
  /** The gap or relay that it works on; the one at the chip where absent or gone. */
  elementId: z.string().min(1).max(80).optional(),
  /** Of an alignment. */
  signal: z.enum(ALIGN_SIGNALS).optional(),
  /**
   * What placing or aligning sets, by degree of freedom: the value aimed at, and what is left as its tolerance. Aligned ones count
   * from the optimum of each assembly.
   */
  sets: open({
    offsetX: quantity('offset').optional(),
    offsetY: quantity('offset').optional(),
    gap: quantity('gap').optional(),
    tiltX: quantity('tilt').optional(),
    tiltY: quantity('tilt').optional(),
    roll: quantity('roll').optional(),
  }).optional(),
  /** How far dispensing or curing moves the fibre side; z opens the gap. */
  moves: open({
    x: quantity('offset').optional(),
    y: quantity('offset').optional(),
    z: quantity('offset').optional(),
  }).optional(),
  /** Of a check: what is rejected, and the standard uncertainty of what is measured. */
  limit: quantity('loss').optional(),
  uncertainty: quantity('loss').optional(),
  /** Of a check: how often an assembly that it rejects goes back, to which step, and what each repeat costs in addition to the time. */
  rework: open({
    fromId: z.string().min(1).max(80),
    repeats: z.int().min(1).max(ASSEMBLY_LIMITS.repeats[1]),
    cost: within(ASSEMBLY_LIMITS.amount),
  }).optional(),
  /** Time at the station, minutes per assembly. */
  minutes: within(ASSEMBLY_LIMITS.minutes),
  /** What an assembly that fails here costs in addition to the time spent on it, in the engineer's own currency. */
  scrapCost: within(ASSEMBLY_LIMITS.amount),
  /** Share of the assemblies that the step itself spoils, %. */
  spoiledPercent: within(ASSEMBLY_LIMITS.percent),
})
export type AssemblyStep = z.infer<typeof stepSchema>

export const assemblySchema = open({
  steps: z.array(stepSchema).min(1).max(ASSEMBLY_LIMITS.steps),
  /** Of the station with its operator, in the engineer's own currency. */
  costPerHour: within(ASSEMBLY_LIMITS.amount),
})
export type AssemblySequence = z.infer<typeof assemblySchema>
