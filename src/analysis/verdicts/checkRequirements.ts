// Each requirement against a candidate: met, not met or not known, with the number and the reason.

import { costPerChannel } from '../../model/designs/cost'
import { requirementLabel } from '../../model/project/statedRequirements'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { fixedText, plainText, roundedTo } from '../../numerics/numberText'
import type { ArrayResult } from '../array/runArray'
import { staysParallel } from '../path/faces/parallelBeam'
import type { Evaluation } from '../results/evaluation'
import { metIf, type Verdict, verdict } from '../results/verdict'
import type { YieldResult } from '../yield/yieldResult'
import { clearanceVerdict } from './clearanceVerdict'
import { isolatorVerdict } from './isolatorVerdict'
import { bandVerdict, irradianceVerdict, polarisationVerdicts, returnLossVerdicts } from './lightVerdicts'
import { lossVerdicts, temperatureVerdict } from './lossVerdicts'
import { pitchFinding, unknownPitchText } from './pitch'
import { groupedVerdicts } from './verdictGroups'

function bondingVerdict(project: Project, candidate: Candidate): readonly Verdict[] {
  const wanted = project.requirements.bonding
  if (wanted === 'free choice') return []
  const bonded = candidate.chain.some(
    (element) =>
      (element.kind === 'gap' || element.kind === 'relay') &&
      project.media.some((medium) => medium.id === element.mediumId && medium.state === 'adhesive'),
  )
  const label = requirementLabel(project.requirements, 'bonding')
  const reason = bonded ? 'an adhesive fills the gap' : 'no gap is filled with adhesive'
  return [verdict('bonding', label, metIf(bonded === (wanted === 'bonded')), reason)]
}

function collimatedVerdict({ requirements }: Project, evaluation: Evaluation): readonly Verdict[] {
  if (!requirements.collimatedSection) return []
  const label = requirementLabel(requirements, 'collimated')
  const [relay] = evaluation.relays
  if (relay === undefined) {
    return [verdict('collimated', label, 'not met', 'no element of the path collimates the beam')]
  }
  const mm = (um: number) => `${fixedText(um / 1000, 1)} mm`
  const text = `${mm(relay.stretchUm)} long; beam ${fixedText(relay.collimatedMfdUm, 0)} µm, Rayleigh range ${mm(relay.collimatedRayleighUm)}`
  const parallel = staysParallel(relay)
  const spreads = parallel ? '' : '; longer than twice that, so the beam does not stay collimated'
  return [verdict('collimated', label, metIf(parallel), text + spreads)]
}

function pitchVerdict(project: Project, candidate: Candidate): readonly Verdict[] {
  const finding = pitchFinding(project, candidate)
  const { channels, mismatch, unknown } = finding
  if (channels === 1) return []
  const label = requirementLabel(project.requirements, 'pitch')
  if (mismatch !== '') return [verdict('pitch', label, 'not met', mismatch)]
  if (unknown.length > 0) {
    return [verdict('pitch', label, 'not known', unknownPitchText(finding))]
  }
  return [verdict('pitch', label, 'met', 'pitches match along the path')]
}

function costVerdict({ requirements }: Project, candidate: Candidate): readonly Verdict[] {
  const ceiling = requirements.costCeiling
  if (ceiling === undefined) return []
  const label = requirementLabel(requirements, 'cost')
  if (candidate.cost === undefined) return [verdict('cost', label, 'not known', 'no cost given')]
  const cost = costPerChannel(candidate.cost, requirements.channels)
  return [
    verdict('cost', label, metIf(cost <= ceiling), `${plainText(roundedTo(cost, 2))}; limit ${ceiling}`),
  ]
}

/**
 * One verdict for every requirement of the project, with groups as one and desirable requirements marked. A yield run that still holds, where there is one, answers
 * for the percentile of one channel, an array run for all channels together.
 */
export function checkRequirements(
  project: Project,
  evaluation: Evaluation,
  run: YieldResult | null = null,
  array: ArrayResult | null = null,
): readonly Verdict[] {
  const candidate = byId(project.candidates, evaluation.candidateId)
  if (candidate === undefined) return []
  const runs = { one: run, all: array }
  return groupedVerdicts(project.requirements, [
    ...lossVerdicts(project, evaluation, runs),
    ...bandVerdict(project, evaluation),
    ...returnLossVerdicts(project, evaluation),
    ...isolatorVerdict(project, candidate),
    ...polarisationVerdicts(project, candidate, evaluation),
    ...irradianceVerdict(evaluation),
    ...bondingVerdict(project, candidate),
    ...collimatedVerdict(project, evaluation),
    ...clearanceVerdict(project, candidate, evaluation),
    ...pitchVerdict(project, candidate),
    ...costVerdict(project, candidate),
    temperatureVerdict(project, evaluation, runs),
  ])
}
