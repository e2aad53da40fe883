// What a search for first light at a joint is computed from: its Gaussians, its real fields where it has any, and what the rest of the
// path loses.

import type { Project } from '../../model/schema/project'
import { type FieldJointSpec, type GaussianJoint, jointLossDb } from '../../optics/index'
import type { RelayFields } from '../field/fit/relayAxes'
import { compileCandidate } from '../path/compileCandidate'
import type { Evaluation, JointView } from '../results/evaluation'

export interface SearchSubject {
  readonly joint: GaussianJoint
  /** All losses but that of the joint, dB; without drift over service, which a new part does not have. */
  readonly otherLossDb: number
  /** Where glass touches chip, um; 0 where nothing is stated. */
  readonly leastGapUm: number
  /** Null where the joint is modelled by Gaussians. */
  readonly fields: { readonly spec: FieldJointSpec | null; readonly relay: RelayFields | null } | null
}

/** The real lenses of a relay; null for none. */
function relayFieldsOf(project: Project, candidateId: string, elementId: string): RelayFields | null {
  const compiled = compileCandidate(project, candidateId)
  if (!compiled.ok) return null
  const { joins, nominal } = compiled.value
  const join = joins.find(({ view }) => view?.(nominal).elementId === elementId)
  return join?.relayFields?.() ?? null
}

export function searchSubject(project: Project, evaluation: Evaluation, view: JointView): SearchSubject {
  const { joint, field, contact } = view
  const leastGapUm = Math.max(0, contact?.gapUm ?? 0)
  const driftDb = evaluation.lines.find(({ kind }) => kind === 'drift')?.lossDb ?? 0
  const without = (jointDb: number) => evaluation.nominalDb - driftDb - jointDb
  if (field !== undefined && !('refusal' in field.loss)) {
    const { fieldDb } = field.loss
    return { joint, leastGapUm, otherLossDb: without(fieldDb), fields: { spec: field.spec, relay: null } }
  }
  const gaussianDb = jointLossDb(joint)
  const relay = view.isImage === true ? relayFieldsOf(project, evaluation.candidateId, view.elementId) : null
  if (relay === null) return { joint, leastGapUm, otherLossDb: without(gaussianDb), fields: null }
  return {
    joint,
    leastGapUm,
    otherLossDb: without(gaussianDb + relay.nominalDb),
    fields: { spec: null, relay },
  }
}
