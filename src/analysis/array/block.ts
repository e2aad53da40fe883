// The block of fibres of a candidate, ready for draws: what is drawn once for the block and what for each channel, what
// the station moves, and where everything stands in the vector of values.

import type { PoseAxis } from '../../model/candidate'
import type { ArrayAim, FibreArray } from '../../model/fibreArray'
import { failure, type Result, success } from '../../model/issue'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import type { PoseForm } from '../chain/models'
import type { Values } from '../chain/readers'
import { type CompiledCandidate, compileCandidate } from '../compileCandidate'
import { requiredRises } from '../temperature/rises'
import { type Draws, drawsOf } from '../yield/draws'
import type { BlockFreedom } from './blockChannel'
import { gapMiddle, type MiddlePose, type PosePlaces, relayMiddle } from './middlePose'

export interface Block {
  readonly compiled: CompiledCandidate
  readonly channels: number
  readonly limitDb: number
  readonly free: BlockFreedom
  readonly aim: ArrayAim
  /** Draws that all channels share, and those that each has for itself. */
  readonly common: Draws
  readonly own: Draws
  readonly pose: PosePlaces
  /** Places of what the station's search does not see: its own residual, and what moves when the joint is bonded. */
  readonly unseen: readonly number[]
  readonly bondShift: readonly number[]
  /** Finds gap and tilts for the middle of the block; null where the station leaves both as placed. */
  readonly alignMiddle: MiddlePose | null
  /** The join at the chip: a gap, or lenses that stand in rows of the chip's pitch. */
  readonly join: 'gap' | 'relay'
  /** K above the temperature of assembly at which every block is looked at. */
  readonly rises: readonly number[]
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
  const joinAt = compiled.candidate.chain.length - 2
  const join = compiled.candidate.chain[joinAt]
  const model = compiled.joins.at(-1)
  if (model?.poseForm === undefined || (join?.kind !== 'gap' && join?.kind !== 'relay')) {
    return failure({
      path: ['candidates', candidateId, 'chain', joinAt],
      code: 'sequence',
      message: 'the light reaches the chip through no joint whose pose is known',
      fix: 'A block of fibres needs a gap or a relay at the chip.',
    })
  }
  const { arrayPlaces, variables } = compiled
  const poseAt = (axis: string) =>
    variables.findIndex(({ path }) => path.at(-2) === joinAt && path.at(-1) === axis)
  const pose: PosePlaces = {
    gap: poseAt(join.kind === 'gap' ? 'gap' : 'frontGap'),
    roll: poseAt('roll'),
    tiltX: poseAt('tiltX'),
    tiltY: poseAt('tiltY'),
  }
  const bondShift = variables.flatMap(({ path }, at) =>
    path.at(-3) === joinAt && path.at(-2) === 'bondShift' ? [at] : [],
  )
  const isOwn = variables.map(
    ({ spread }, at) => at === arrayPlaces?.coreX || at === arrayPlaces?.coreY || spread.share === 'channel',
  )
  const keeps = (own: boolean) => (variable: (typeof variables)[number]) =>
    isOwn[variables.indexOf(variable)] === own
  const aligned: ReadonlySet<PoseAxis> = new Set(join.aligned ?? [])
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
    pose,
    join: join.kind,
    unseen: [
      ...(free.x ? [poseAt('offsetX')] : []),
      ...(free.y ? [poseAt('offsetY')] : []),
      ...(free.roll ? [pose.roll] : []),
      ...bondShift,
    ],
    bondShift,
    alignMiddle: !aligns
      ? null
      : join.kind === 'relay'
        ? relayMiddle(model, pose, aligned)
        : gapMiddle(model, pose, aligned, coreValue(project.requirements.wavelength, 'wavelength')),
    rises: requiredRises(project, compiled),
  })
}

/** Whether the station moves the block at all, so that the aim makes a difference. */
export function isPlaced({ free }: Block): boolean {
  return free.x || free.y || free.roll
}

/** The loss of one channel as a form of its fibre's pose. */
export function poseForm({ compiled }: Pick<Block, 'compiled'>, v: Values): PoseForm {
  const form = compiled.joins.at(-1)?.poseForm?.(v)
  if (form === undefined) throw new Error('the joint at the chip has no form')
  return form
}

/** The form of a channel without errors; null where the candidate has no block. */
export function nominalForm(project: Project, candidateId: string): PoseForm | null {
  const block = blockOf(project, candidateId)
  return block.ok ? poseForm(block.value, block.value.compiled.nominal) : null
}

/** Number of coordinates that one block draws. */
export function blockDimensions({ common, own, channels }: Block): number {
  return Math.max(1, common.places.length + channels * own.places.length)
}

/** Toleranced quantities of the block in the order of their factors: the common ones, then each channel's own. */
export function blockQuantities({ common, own }: Block): readonly number[] {
  return [...common.places, ...own.places]
}
