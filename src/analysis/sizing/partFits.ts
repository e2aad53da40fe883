// What a part could be to fit the far mode best: the spot of a lensed tip or taper chip, the magnification of a relay.
// By optics/matchingFactor.ts; freed, the part takes the size at which the whole chain loses least.

import { setCoreValue } from '../../model/quantity/coreQuantity'
import { coreValue } from '../../model/quantity/quantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import type { PartSettingName } from '../../model/words/candidate'
import type { Steps } from '../../numerics/steps'
import { matchingFactor } from '../../optics/index'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { type SizedDimension, sizedDimensions } from './dimensions'
import { sizeCurveSteps } from './sizeCurve'

export interface PartFit {
  readonly elementId: string
  readonly name: PartSettingName
  readonly label: string
  /** Micrometres for a spot (geometric mean of both axes), a ratio for a magnification. */
  readonly now: number
  readonly best: number
  /** Whether the search may change the part. */
  readonly free: boolean
  /** The number of the part that brings it about; null where no single one does. */
  readonly dimension: SizedDimension | null
}

const DIGITS = 4

function dimensionOf(
  compiled: CompiledCandidate,
  candidate: Candidate,
  project: Project,
  at: number,
): Pick<PartFit, 'name' | 'label' | 'dimension'> | null {
  const element = candidate.chain[at]
  const near = candidate.chain[at - 1]
  const dimensions = sizedDimensions(compiled)
  const ofConverter = (converterId: string, fields: readonly string[]) => {
    const path = ['converters', project.converters.findIndex((each) => each.id === converterId)].join('/')
    return (
      dimensions.find(({ id }) => id.startsWith(`${path}/`) && fields.some((field) => id.endsWith(field))) ??
      null
    )
  }
  const nameOf = (converterId: string) => byId(project.converters, converterId)?.name ?? converterId
  if (element?.kind === 'relay') {
    const dimension = dimensions.find(({ id }) => id === `magnification/${element.id}`) ?? null
    return { name: 'magnification', label: 'magnification', dimension }
  }
  if ((near?.kind === 'fibre' || near?.kind === 'stub') && near.tipId !== undefined) {
    const dimension = ofConverter(near.tipId, ['/spotX', '/radius'])
    return { name: 'spot', label: `spot of ${nameOf(near.tipId)}`, dimension }
  }
  if (near?.kind === 'taper chip') {
    const dimension = ofConverter(near.converterId, ['/outputMfdX'])
    return { name: 'spot', label: `output mode of ${nameOf(near.converterId)}`, dimension }
  }
  return null
}

/** One fit for every joint whose emitting side is a converter. Joints with an entered loss have none. */
export function partFits(project: Project, compiled: CompiledCandidate): readonly PartFit[] {
  const { candidate } = compiled
  return compiled.joins.flatMap((join): readonly PartFit[] => {
    const view = join.view?.(compiled.nominal)
    const at = candidate.chain.findIndex(({ id }) => id === view?.elementId)
    const element = candidate.chain[at]
    if (view === undefined || (element?.kind !== 'gap' && element?.kind !== 'relay')) return []
    if (element.typedLoss !== undefined) return []
    const found = dimensionOf(compiled, candidate, project, at)
    if (found === null) return []
    const { emitterMfdXUm, emitterMfdYUm } = view.joint
    const now =
      found.name === 'magnification'
        ? (join.relay?.(compiled.nominal).magnification ?? 1)
        : Math.sqrt(emitterMfdXUm * emitterMfdYUm)
    const free = found.dimension !== null && (element.freed?.includes(found.name) ?? false)
    return [{ elementId: element.id, ...found, now, best: now * matchingFactor(view.joint), free }]
  })
}

export interface FreedPart {
  readonly dimension: SizedDimension
  /** Core units. */
  readonly now: number
  readonly best: number
}

interface Freed {
  readonly project: Project
  readonly changed: readonly FreedPart[]
}

/** The project with every freed part at its best size, and what that changed; the project itself where none is free. */
export function* freeingSteps(project: Project, candidateId: string): Steps<Freed> {
  const compiled = compileCandidate(project, candidateId)
  if (!compiled.ok) return { project, changed: [] }
  const changed: FreedPart[] = []
  for (const { free, dimension } of partFits(project, compiled.value)) {
    if (!free || dimension === null) continue
    const { now, best } = yield* sizeCurveSteps(compiled.value, dimension, Number.POSITIVE_INFINITY)
    changed.push({ dimension, now, best })
  }
  if (changed.length === 0) return { project, changed }
  const copy = structuredClone(project)
  for (const part of changed) writeFreedPart(copy, part)
  return { project: copy, changed }
}

/** Writes the best size into the part, on a draft; numbers in step keep their ratio. */
export function writeFreedPart(draft: Project, { dimension, now, best }: FreedPart): void {
  for (const path of dimension.paths) {
    const quantity = quantityAt(draft, path)
    if (quantity === undefined) continue
    setCoreValue(quantity, dimension.rule, coreValue(quantity, dimension.rule) * (best / now), DIGITS)
  }
}
