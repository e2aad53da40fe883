// The fibre array of a design, prepared for sampling: what is sampled once per array and what per channel, and
// the joins at which rows of channels face each other.

import { type Result, success } from '../../model/issue'
import { leadingLimitDb, leadingLoss } from '../../model/project/lossCriteria'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { FibreArray } from '../../model/schema/fibreArray'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import type { ArrayAim } from '../../model/words/fibreArray'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { ChainContext, PoseForm } from '../path/vector/elementModels'
import { requiredRises } from '../temperature/rises'
import { type Draws, drawsOf } from '../tolerance/draws'
import { fitsMiss } from '../tolerance/exactCorner'
import { type BlockJoin, blockJoins, isMoved } from './blockJoin'

export interface ArrayBlock {
  readonly compiled: CompiledCandidate
  readonly channels: number
  readonly limitDb: number
  /** Share of assemblies of the leading criterion, 0 to 1. */
  readonly percentile: number
  readonly aim: ArrayAim
  /** In the order of the light; the first one holds the fibres. */
  readonly joins: readonly BlockJoin[]
  /** Random variables that all channels share, and those of each channel. */
  readonly common: Draws
  readonly own: Draws
  /** Temperatures at which every array is evaluated, K above the assembly temperature. */
  readonly rises: readonly number[]
}

/** The pitch that a fibre array faces: that of a taper chip's input, or of the chip. */
function facedPitch({ converters, requirements }: Project, { chain }: Candidate): Quantity {
  const element = chain.find(({ kind }) => kind === 'taper chip')
  const chip = converters.find(({ id }) => element?.kind === 'taper chip' && element.converterId === id)
  return chip?.kind === 'taper chip' ? chip.inputPitch : requirements.pitch
}

/** A perfect array, at the pitch that it faces. */
export function plainArray(project: Project, candidate: Candidate): FibreArray {
  const none = { value: 0, unit: 'um', provenance: 'estimate' } as const
  const { value, unit, provenance } = facedPitch(project, candidate)
  return { pitch: { value, unit, provenance }, coreX: none, coreY: none, bow: none, aim: 'sum of all' }
}

/** The array of a design, prepared for sampling, or every reason why there is none. */
export function blockOf(
  project: Project,
  candidateId: string,
  widening?: number,
  sums: ChainContext['sums'] = 'fitted',
): Result<ArrayBlock> {
  const candidate = byId(project.candidates, candidateId)
  const array = candidate && (candidate.array ?? plainArray(project, candidate))
  const result = compileCandidate(project, candidateId, {
    modes: 'tabled',
    sums,
    ...(array && { array }),
    ...(widening !== undefined && { widening }),
  })
  if (!result.ok) return result
  const compiled = result.value
  const { arraySlots, variables } = compiled
  const isOwn = variables.map(
    ({ spread }, at) => at === arraySlots?.coreX || at === arraySlots?.coreY || spread.share === 'channel',
  )
  const keeps = (own: boolean) => (variable: (typeof variables)[number]) =>
    isOwn[variables.indexOf(variable)] === own
  return success({
    compiled,
    channels: project.requirements.channels,
    limitDb: leadingLimitDb(project.requirements),
    percentile: leadingLoss(project.requirements).percentile / 100,
    aim: array?.aim ?? 'sum of all',
    joins: blockJoins(compiled, coreValue(project.requirements.wavelength, 'wavelength')),
    common: drawsOf(variables, keeps(false)),
    own: drawsOf(variables, keeps(true)),
    rises: requiredRises(project, compiled),
  })
}

/** The same with the real fields summed for every channel, where their fit misses its target; the block itself where no fit does. */
export function blockByDirectSums(block: ArrayBlock, project: Project): ArrayBlock {
  if (!fitsMiss(block.compiled)) return block
  const direct = blockOf(project, block.compiled.candidate.id, undefined, 'direct')
  return direct.ok ? direct.value : block
}

/** Whether the station moves anything at all; otherwise the alignment strategy makes no difference. */
export function isPlaced({ joins }: ArrayBlock): boolean {
  return joins.some(isMoved)
}

/** A joint of the row with the form of a channel's pose there, in a block without errors. */
export interface JointForm {
  readonly elementId: string
  readonly form: PoseForm
}

/** The free-space joints along the path, that of the fibres first; none where the candidate has no block. */
export function jointForms(project: Project, candidateId: string): readonly JointForm[] {
  const block = blockOf(project, candidateId)
  if (!block.ok) return []
  const { compiled, joins } = block.value
  return joins.flatMap(({ elementId, model }): readonly JointForm[] => {
    const form = model.poseForm?.(compiled.nominal)
    return form === undefined ? [] : [{ elementId, form }]
  })
}

/** Number of coordinates that one array needs. */
export function blockDimensions({ common, own, channels }: ArrayBlock): number {
  return Math.max(1, common.slots.length + channels * own.slots.length)
}

/** Toleranced quantities of the block in the order of their factors: the common ones, then each channel's own. */
export function blockQuantities({ common, own }: ArrayBlock): readonly number[] {
  return [...common.slots, ...own.slots]
}
