// Each requirement against a candidate: met, not met or not known, with the number and the reason.

import type { Candidate } from '../model/candidate'
import { costPerChannel } from '../model/cost'
import type { Project } from '../model/project'
import { coreValue } from '../model/quantity'
import { COLLIMATED_RANGES } from './chain/relayChecks'
import type { Evaluation } from './evaluation'
import {
  bandVerdict,
  irradianceVerdict,
  polarisationVerdicts,
  returnLossVerdict,
} from './light/lightVerdicts'
import { pitchFinding, unknownPitchText } from './pitch'
import { type Verdict, verdict, within } from './verdict'
import type { YieldResult } from './yield/yieldResult'

/** Two decimals, or as many more as it takes to tell the figure from the limit. */
function besides(lossDb: number, limitDb: number): string {
  const digits =
    [2, 3, 4, 6].find((each) => lossDb === limitDb || Number(lossDb.toFixed(each)) !== limitDb) ?? 9
  return lossDb.toFixed(digits)
}

/** The percentile that the requirements name, from a yield run that still holds. */
function percentileVerdict(label: string, limitDb: number, share: number, run: YieldResult): Verdict {
  const found = run.percentiles.find((each) => Math.abs(each.share - share) < 1e-9)
  if (found === undefined)
    return verdict('loss', label, 'not known', 'the yield run looked at other percentiles')
  const text = (lossDb: number) => (Number.isFinite(lossDb) ? lossDb.toFixed(2) : '> 64')
  return verdict(
    'loss',
    label,
    within(found.lossDb <= limitDb),
    `${text(found.lossDb)} dB, ${text(found.lowDb)} to ${text(found.highDb)} at 95 % confidence, from ${run.samples} samples`,
  )
}

function lossVerdict({ requirements }: Project, evaluation: Evaluation, run: YieldResult | null): Verdict {
  const limitDb = coreValue(requirements.lossLimit, 'loss')
  const basis =
    requirements.lossBasis === 'percentile'
      ? `${requirements.lossPercentile} % of assemblies`
      : requirements.lossBasis
  const label = `Loss ≤ ${limitDb} dB, ${basis}`
  const figures = {
    nominal: evaluation.nominalDb,
    'root sum square': evaluation.rootSumSquare.lossDb,
    'worst corner': evaluation.worstCorner.lossDb,
    percentile: null,
  }
  const lossDb = figures[requirements.lossBasis]
  if (lossDb === null) {
    return run === null
      ? verdict('loss', label, 'not known', 'a percentile needs a yield run of the numbers as they are now')
      : percentileVerdict(label, limitDb, requirements.lossPercentile / 100, run)
  }
  return verdict(
    'loss',
    label,
    within(lossDb <= limitDb),
    `${besides(lossDb, limitDb)} dB against ${limitDb} dB`,
  )
}

function bondingVerdict(project: Project, candidate: Candidate): readonly Verdict[] {
  const wanted = project.requirements.bonding
  if (wanted === 'free choice') return []
  const bonded = candidate.chain.some(
    (element) =>
      (element.kind === 'gap' || element.kind === 'relay') &&
      project.media.some((medium) => medium.id === element.mediumId && medium.state === 'adhesive'),
  )
  const label = wanted === 'bonded' ? 'Bonded' : 'Not bonded'
  const reason = bonded ? 'an adhesive fills the gap' : 'no gap holds an adhesive'
  return [verdict('bonding', label, within(bonded === (wanted === 'bonded')), reason)]
}

function collimatedVerdict({ requirements }: Project, evaluation: Evaluation): readonly Verdict[] {
  if (!requirements.collimatedSection) return []
  const label = 'Collimated section'
  const [relay] = evaluation.relays
  if (relay === undefined) {
    return [verdict('collimated', label, 'not met', 'no element of the chain collimates the beam')]
  }
  const mm = (um: number) => `${(um / 1000).toFixed(1)} mm`
  const text = `stretch of ${mm(relay.stretchUm)}, beam of ${relay.collimatedMfdUm.toFixed(0)} µm with a Rayleigh range of ${mm(relay.collimatedRayleighUm)}`
  const spreads =
    relay.stretchUm > COLLIMATED_RANGES * relay.collimatedRayleighUm
      ? '; longer than twice that, so the beam is not parallel over all of it'
      : ''
  return [verdict('collimated', label, 'met', text + spreads)]
}

function pitchVerdict(project: Project, candidate: Candidate): readonly Verdict[] {
  const finding = pitchFinding(project, candidate)
  const { channels, wantedUm, mismatch, unknown } = finding
  if (channels === 1) return []
  const label = `${channels} channels at ${wantedUm} µm`
  if (mismatch !== '') return [verdict('pitch', label, 'not met', mismatch)]
  if (unknown.length > 0) {
    return [verdict('pitch', label, 'not known', unknownPitchText(finding))]
  }
  return [verdict('pitch', label, 'met', 'every part has the pitch of its neighbour')]
}

function costVerdict({ requirements }: Project, candidate: Candidate): readonly Verdict[] {
  const ceiling = requirements.costCeiling
  if (ceiling === undefined) return []
  const label = `Cost ≤ ${ceiling} a channel`
  if (candidate.cost === undefined) return [verdict('cost', label, 'not known', 'no cost is stated')]
  const cost = costPerChannel(candidate.cost, requirements.channels)
  return [verdict('cost', label, within(cost <= ceiling), `${Number(cost.toFixed(2))} against ${ceiling}`)]
}

function temperatureVerdict({ requirements }: Project, evaluation: Evaluation): Verdict {
  const [from, to] = [requirements.temperatureMin, requirements.temperatureMax].map((each) => each.value)
  const label = `Loss at ${from} to ${to} °C`.replaceAll('-', '−')
  const { temperature } = evaluation
  if (temperature === null) return verdict('temperature', label, 'not known', 'no mount is described')
  const limitDb = coreValue(requirements.lossLimit, 'loss')
  return verdict(
    'temperature',
    label,
    within(temperature.worstDb <= limitDb),
    `nominal ${temperature.worstDb.toFixed(2)} dB at ${Number(temperature.worstC.toFixed(1))} °C against ${limitDb} dB`.replace(
      '-',
      '−',
    ),
  )
}

/**
 * One verdict for every requirement that the project states. A yield run that still holds, where there is one, answers
 * for the percentile.
 */
export function checkRequirements(
  project: Project,
  evaluation: Evaluation,
  run: YieldResult | null = null,
): readonly Verdict[] {
  const candidate = project.candidates.find((each) => each.id === evaluation.candidateId)
  if (candidate === undefined) return []
  return [
    lossVerdict(project, evaluation, run),
    ...bandVerdict(project, evaluation),
    ...returnLossVerdict(project, evaluation),
    ...polarisationVerdicts(project, candidate, evaluation),
    ...irradianceVerdict(evaluation),
    ...bondingVerdict(project, candidate),
    ...collimatedVerdict(project, evaluation),
    ...pitchVerdict(project, candidate),
    ...costVerdict(project, candidate),
    temperatureVerdict(project, evaluation),
  ]
}
