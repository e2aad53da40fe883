// Turns a candidate into functions of one vector of values: its lines, its total, its joints.

import { jointNames, ofJoint } from '../../model/designs/jointNames'
import { failure, type Issue, type Path, type Result, success } from '../../model/issue'
import { chainReferenceIssues } from '../../model/project/references'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { FibreArray } from '../../model/schema/fibreArray'
import type { Project } from '../../model/schema/project'
import { serviceDrift } from '../lifetime/serviceDrift'
import type { ValidityNote, Variable } from '../results/evaluation'
import { guideOf, joinOf } from './chainModels'
import { driftLine, driftNotes } from './driftLine'
import { leastGapsUm } from './leastGaps'
import type { ChainContext, GuideModel, JoinModel, LineModel, Movement } from './vector/elementModels'
import {
  type ArraySlots,
  arraySlots,
  channelMovement,
  mountMovement,
  type OperatingSlots,
  operatingSlots,
  rowShift,
} from './vector/operatingSlots'
import { sequenceIssues } from './vector/sequence'
import { toleranceEndIssues } from './vector/toleranceEnds'
import { type Reader, readerAt, readerOf, readerTable, type Values } from './vector/valueReaders'

interface CompileOptions {
  /** How fibre modes are found: 'solved' (the default) exactly, 'tabled' fast, for many samples. */
  readonly modes?: ChainContext['modes']
  /** How joints by fields are moved whose fit misses its target: 'fitted' (the default) fast, 'direct' as exactly as the others. */
  readonly sums?: ChainContext['sums']
  /** How much wider than entered the tolerances may be sampled, 1 by default; matters for tabled modes. */
  readonly widening?: number
  /** Wavelengths that will be asked for, um, where the vector's wavelength is to be moved. */
  readonly bandUm?: ChainContext['bandUm']
  /** The fibre array whose quantities are registered too; its position is then the caller's to optimise. */
  readonly array?: FibreArray
  /** Whether each joint aligns itself for one channel; by default only without an array. */
  readonly alignsEachChannel?: boolean
}

/** A summand of the loss, with the slots of the vector that it may read: moving any other leaves it as it is. */
interface LossTerm {
  readonly lossDb: Reader
  readonly reads: ReadonlySet<number>
  /** As for a join. */
  readonly gapJoint?: JoinModel['gapJoint']
}

export interface CompiledCandidate {
  readonly candidate: Candidate
  readonly variables: readonly Variable[]
  readonly nominal: Values
  readonly lines: readonly LineModel[]
  readonly lossDb: Reader
  /** What the loss is the sum of, in the order of the addition. */
  readonly terms: readonly LossTerm[]
  /** The same with a slope where no light arrives: for searches only, never shown. */
  readonly searchDb: Reader
  /** The guides along the path. */
  readonly guides: readonly { readonly elementId: string; readonly model: GuideModel }[]
  readonly joins: readonly JoinModel[]
  /** Gaps at which glass touches chip, um, by the slot of the gap's own value; 0 where nothing is stated. */
  readonly leastGapsUm: ReadonlyMap<number, number>
  /** For every join, what the guide in front of it loses, dB. */
  readonly guideLossesDb: readonly Reader[]
  /** What the guide behind the last join loses, dB. */
  readonly lastGuideLossDb: Reader
  readonly slots: OperatingSlots
  /** What the mount does to the joint at the chip; null without one. */
  readonly mount: Movement | null
  /** Null unless an array was compiled with the chain. */
  readonly arraySlots: ArraySlots | null
  readonly notes: readonly ValidityNote[]
}

function userLine(context: ChainContext, line: Candidate['userLines'][number], path: Path): LineModel {
  return {
    id: `user/${line.id}`,
    label: line.label,
    kind: line.kind,
    provenance: line.loss.provenance,
    elementId: line.id,
    lossDb: context.readers.quantity(line.loss, 'loss', line.label, [...path, 'loss']),
  }
}

/** Where a chain has several free-space joints, their quantities say to which one they belong. */
function namedByJoint(variables: readonly Variable[], { chain }: Candidate): readonly Variable[] {
  const names = jointNames(chain)
  return variables.map((variable) => {
    const element = variable.path[2] === 'chain' ? chain[Number(variable.path[3])] : undefined
    return { ...variable, label: ofJoint(variable.label, names.get(element?.id ?? '')) }
  })
}

function sumOf(parts: readonly Reader[]): Reader {
  return (v) => {
    let sum = 0
    for (let i = 0; i < parts.length; i++) sum += parts[i]?.(v) ?? 0
    return sum
  }
}

/** The compiled candidate, or every reason why it cannot be computed. */
export function compileCandidate(
  project: Project,
  candidateId: string,
  options: CompileOptions = {},
): Result<CompiledCandidate> {
  const candidateAt = project.candidates.findIndex((candidate) => candidate.id === candidateId)
  const candidate = project.candidates[candidateAt]
  if (candidate === undefined) {
    const known = project.candidates.map((each) => each.id).join(', ') || 'none'
    return failure({
      path: ['candidates'],
      code: 'reference',
      message: `design is "${candidateId}"; the project has ${known}`,
    })
  }
  const path: Path = ['candidates', candidateAt, 'chain']
  const broken = [
    ...chainReferenceIssues(project, candidate.chain, path),
    ...sequenceIssues(candidate.chain, project, path),
  ]
  if (broken.length > 0) return failure(...broken)

  const issues: Issue[] = []
  const readers = readerTable()
  /** Places of the vector that every element may read. */
  const common = new Set<number>()
  const slots = operatingSlots(readers, candidate)
  const temperatureRise = readerAt(slots.temperatureRise)
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  const shift = readerAt(slots.wavelengthShift)
  const mount = mountMovement(readers, candidate, candidateAt, temperatureRise)
  // The mount holds the joint at the chip; earlier joints of the chain ride along with the fibre.
  const chipJoinId = candidate.chain.at(-2)?.id
  const block = options.array === undefined ? null : arraySlots(readers, project, candidateAt, options.array)
  const context: ChainContext = {
    project,
    wavelengthUm,
    wavelength: readerOf([shift], (v) => wavelengthUm + shift(v)),
    polarisation: readerAt(slots.polarisation),
    bandUm: options.bandUm ?? [wavelengthUm, wavelengthUm],
    readers,
    modes: options.modes ?? 'solved',
    sums: options.sums ?? 'fitted',
    widening: options.widening ?? 1,
    alignsEachChannel: options.alignsEachChannel ?? options.array === undefined,
    temperatureRise,
    operating: [slots.temperatureRise, slots.wavelengthShift, slots.polarisation],
    rowShift: block && rowShift(readers, slots, block),
    movements: (elementId) => {
      const displaced = slots.displaced.get(elementId)
      return [
        ...(displaced === undefined ? [] : [channelMovement(displaced)]),
        ...(mount !== null && elementId === chipJoinId ? [mount] : []),
      ]
    },
    report: (issue) => issues.push(issue),
  }
  for (let slot = 0; slot < readers.variables.length; slot++) common.add(slot)
  const reads = candidate.chain.map(() => new Set(common))
  const readsAt = (at: number) => reads[at] ?? common
  const guides = candidate.chain.map((_, at) =>
    readers.noting(readsAt(at), () => guideOf(context, candidate, path, at)),
  )
  const joins: JoinModel[] = []
  const joinTerms: LossTerm[] = []
  const guideLossesDb: Reader[] = []
  const lines: LineModel[] = []
  for (const [at, guide] of guides.entries()) {
    const [near, far] = [guides[at - 1], guides[at + 1]]
    if (guide !== null) {
      lines.push(...guide.lines)
    } else if (near && far) {
      const join = readers.noting(readsAt(at), () => joinOf(context, candidate, path, at, near, far))
      if (join === null) continue
      joins.push(join)
      // A join reads the ports of the guides on both of its sides.
      const between = new Set([...readsAt(at - 1), ...readsAt(at), ...readsAt(at + 1)])
      joinTerms.push({ lossDb: join.lossDb, reads: between, gapJoint: join.gapJoint })
      guideLossesDb.push((v) => near.lines.reduce((sum, line) => sum + line.lossDb(v), 0))
      lines.push(...join.lines)
    }
  }
  const guideTerms = guides.flatMap((guide, at) =>
    (guide?.lines ?? []).map(({ lossDb }): LossTerm => ({ lossDb, reads: readsAt(at) })),
  )
  const own: LineModel[] = []
  const ownTerms = candidate.userLines.map((each, at): LossTerm => {
    const asked = new Set<number>()
    const line = readers.noting(asked, () =>
      userLine(context, each, ['candidates', candidateAt, 'userLines', at]),
    )
    own.push(line)
    return { lossDb: line.lossDb, reads: asked }
  })
  const ageing = serviceDrift(project, candidate)
  if (ageing?.ok) {
    const asked = new Set<number>()
    const line = readers.noting(asked, () =>
      driftLine(readers, ageing.value, ['candidates', candidateAt, 'lifetime']),
    )
    own.push(line)
    ownTerms.push({ lossDb: line.lossDb, reads: asked })
  }
  issues.push(...toleranceEndIssues(readers.variables))
  if (issues.length > 0) return failure(...issues)
  const variables = namedByJoint(readers.variables, candidate)
  const names = jointNames(candidate.chain)
  const besides = [...guideTerms, ...ownTerms]
  const terms = [...joinTerms, ...besides]
  return success({
    candidate,
    variables,
    nominal: Float64Array.from(variables, (variable) => variable.nominal),
    lines: [
      ...lines.map((line) => ({ ...line, label: ofJoint(line.label, names.get(line.elementId)) })),
      ...own,
    ],
    lossDb: sumOf(terms.map((term) => term.lossDb)),
    terms,
    searchDb: sumOf([
      ...joins.map((join) => join.searchDb ?? join.lossDb),
      ...besides.map((term) => term.lossDb),
    ]),
    guides: candidate.chain.flatMap(({ id }, at) => {
      const model = guides[at]
      return model == null ? [] : [{ elementId: id, model }]
    }),
    joins,
    leastGapsUm: leastGapsUm(variables, candidate, joins),
    guideLossesDb,
    lastGuideLossDb: (v) => (guides.at(-1)?.lines ?? []).reduce((sum, line) => sum + line.lossDb(v), 0),
    slots,
    mount,
    arraySlots: block,
    notes: [...guides.flatMap((guide) => guide?.notes ?? []), ...driftNotes(ageing)],
  })
}
