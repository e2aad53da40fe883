// What a search for first light at a joint is computed from: its Gaussians, its real fields where it has any, and what the rest of the
// path loses.

import { type FieldJointSpec, type GaussianJoint, jointLossDb } from '../../optics/index'
import type { RelayFields } from '../field/fit/relayAxes'
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

export function searchSubject(evaluation: Evaluation, view: JointView): SearchSubject {
  const { joint, field, lenses, contact } = view
  const leastGapUm = Math.max(0, contact?.gapUm ?? 0)
  const driftDb = evaluation.lines.find(({ kind }) => kind === 'drift')?.lossDb ?? 0
  const without = (jointDb: number) => evaluation.nominalDb - driftDb - jointDb
  if (field !== undefined && !('refusal' in field.loss)) {
    const { fieldDb } = field.loss
    return { joint, leastGapUm, otherLossDb: without(fieldDb), fields: { spec: field.spec, relay: null } }
  }
  const gaussianDb = jointLossDb(joint)
  if (lenses === undefined) return { joint, leastGapUm, otherLossDb: without(gaussianDb), fields: null }
  return {
    joint,
    leastGapUm,
    otherLossDb: without(gaussianDb + lenses.nominalDb),
    fields: { spec: null, relay: lenses },
  }
}
