// The block of fibres of a candidate, ready for draws: what is drawn once for the block and what for each channel, what
// the station moves, and where everything stands in the vector of values.

import type { GapElement } from '../../model/candidate'
import type { ArrayAim, FibreArray } from '../../model/fibreArray'
import { failure, type Result, success } from '../../model/issue'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import type { GaussianJoint } from '../../optics/index'
import { type AlignPose, poseAligner } from '../chain/alignPose'
import type { Values } from '../chain/readers'
import { type CompiledCandidate, compileCandidate } from '../compileCandidate'
import { requiredRises } from '../temperature/rises'
import { type Draws, drawsOf } from '../yield/draws'
import type { BlockFreedom } from './blockChannel'

export interface Block {
  readonly compiled: CompiledCandidate
  readonly channels: number
  readonly limitDb: number
  readonly free: BlockFreedom
  readonly aim: ArrayAim
  /** Draws that all channels share, and those that each has for itself. */
  readonly common: Draws
  readonly own: Draws
  /** Places of the pose in the vector of values. */
  readonly gap: number
  readonly roll: number
  readonly tiltX: number
  readonly tiltY: number
  /** Places of what the station's search does not see: its own residual, and what moves when the joint is bonded. */
  readonly unseen: readonly number[]
  readonly bondShift: readonly number[]
  /** Finds gap and tilts for the middle of the block; null where the station leaves both as placed. */
  readonly alignMiddle: AlignPose | null
  /** K above the temperature of assembly at which every block is looked at. */
  readonly rises: readonly number[]
  /** Scratch for one channel's quadratic form. */
  readonly curvature: Float64Array
}

/** A block as good as its drawing, at the chip's pitch. */
export function plainArray(project: Project): FibreArray {
  const none = { value: 0, unit: 'um', provenance: 'estimate' } as const
  const { value, unit, provenance } = project.requirements.pitch
  return { pitch: { value, unit, provenance }, coreX: none, coreY: none, bow: none, aim: 'sum of all' }
}

/** The block of a candidate, ready for draws, or every reason why there is none. */
export function blockOf(project: Project, candidateId: string): Result<Block> {
  const candidate = project.candidates.find((each) => each.id === candidateId)
  const array = candidate?.array ?? plainArray(project)
  const result = compileCandidate(project, candidateId, { modes: 'tabled', array })
  if (!result.ok) return result
  const compiled = result.value
  const gapAt = compiled.candidate.chain.length - 2
  const gap = compiled.candidate.chain[gapAt]
  if (gap?.kind !== 'gap') {
    return failure({
      path: ['candidates', candidateId, 'chain', gapAt],
      code: 'sequence',
      message: 'the light reaches the chip through lenses; a block of fibres is computed at a plain gap only',
      fix: 'The yield of one channel covers lenses too.',
    })
  }
  const { arrayPlaces, variables } = compiled
  const poseAt = (axis: keyof GapElement) =>
    variables.findIndex(({ path }) => path.at(-2) === gapAt && path.at(-1) === axis)
  const bondShift = variables.flatMap(({ path }, at) =>
    path.at(-3) === gapAt && path.at(-2) === 'bondShift' ? [at] : [],
  )
  const isOwn = variables.map(
    ({ spread }, at) => at === arrayPlaces?.coreX || at === arrayPlaces?.coreY || spread.share === 'channel',
  )
  const keeps = (own: boolean) => (variable: (typeof variables)[number]) =>
    isOwn[variables.indexOf(variable)] === own
  const aligned = new Set(gap.aligned ?? [])
  const free = { x: aligned.has('offsetX'), y: aligned.has('offsetY'), roll: aligned.has('roll') }
  const aligns = (['gap', 'tiltX', 'tiltY'] as const).some((axis) => aligned.has(axis))
  return success({
    compiled,
    channels: project.requirements.channels,
    limitDb: coreValue(project.requirements.lossLimit, 'loss'),
    free,
    aim: array.aim,
    common: drawsOf(variables, keeps(false)),
    own: drawsOf(variables, keeps(true)),
    gap: poseAt('gap'),
    roll: poseAt('roll'),
    tiltX: poseAt('tiltX'),
    tiltY: poseAt('tiltY'),
    unseen: [
      ...(free.x ? [poseAt('offsetX')] : []),
      ...(free.y ? [poseAt('offsetY')] : []),
      ...(free.roll ? [poseAt('roll')] : []),
      ...bondShift,
    ],
    bondShift,
    alignMiddle: aligns
      ? poseAligner(aligned, coreValue(project.requirements.wavelength, 'wavelength'))
      : null,
    rises: requiredRises(project, compiled),
    curvature: new Float64Array(16),
  })
}

/** Whether the station moves the block at all, so that the aim makes a difference. */
export function isPlaced({ free }: Block): boolean {
  return free.x || free.y || free.roll
}

/** The joint at the chip for values of one channel. */
export function chipJoint({ compiled }: Block, v: Values): GaussianJoint {
  const view = compiled.joins.at(-1)?.view
  if (view == null) throw new Error('the joint at the chip has no view')
  return view(v).joint
}

/** Number of coordinates that one block draws. */
export function blockDimensions({ common, own, channels }: Block): number {
  return Math.max(1, common.places.length + channels * own.places.length)
}

/** Toleranced quantities of the block in the order of their factors: the common ones, then each channel's own. */
export function blockQuantities({ common, own }: Block): readonly number[] {
  return [...common.places, ...own.places]
}
