// The rows of a comparison: what each reads from a candidate, and which way is better.

import { costPerChannel } from '../../model/designs/cost'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText, signedText } from '../../numerics/numberText'
import { RETURN_LOSS_TRUST_DB } from '../../optics/index'
import type { ArrayResult } from '../array/runArray'
import { requiredBand } from '../light/band'
import type { Evaluation } from '../results/evaluation'
import type { PathPort } from '../results/lightResults'
import type { Verdict } from '../results/verdict'
import { REACH_LOOKED_AT_C } from '../temperature/temperatureReach'
import { pitchesText, pitchFinding, unknownPitchText } from '../verdicts/pitch'
import { polarisationKept } from '../verdicts/polarisationKept'
import { aboveWorstCase } from '../yield/aboveWorstCase'
import type { YieldResult } from '../yield/yieldResult'
import type { CandidateFacts } from './candidateFacts'
import { type ChipAxis, viewChipWindow } from './chipWindows'
import type { ComparisonCell, ComparisonRow, RowGroup } from './comparison'
import { SINGLE_CHANNEL, yieldRows } from './yieldRows'

export interface Subject {
  readonly candidate: Candidate
  readonly evaluation: Evaluation
  readonly facts: CandidateFacts
  readonly project: Project
  readonly run: YieldResult | null
  readonly array: ArrayResult | null
  readonly verdicts: readonly Verdict[]
}

export interface RowSpec {
  readonly id: string
  readonly group: RowGroup
  readonly label: string
  readonly unit: string
  readonly digits: number
  readonly better: ComparisonRow['better']
  readonly read: (subject: Subject) => number | string | null | ComparisonCell
}

const NOT_KNOWN: ComparisonCell = { value: null, text: 'not known' }
const NO_MOUNT: ComparisonCell = { value: null, text: 'not evaluated', reason: 'no mount defined' }
export const NONE: ComparisonCell = { value: null, text: 'none' }
const DEG = 180 / Math.PI

const number = (
  id: string,
  group: RowGroup,
  label: string,
  unit: string,
  digits: number,
  better: ComparisonRow['better'],
  read: RowSpec['read'],
): RowSpec => ({ id, group, label, unit, digits, better, read })

const window = (axis: ChipAxis, perCore: number, digits: number): RowSpec['read'] => {
  return ({ evaluation }) => {
    const view = evaluation.joints.at(-1)
    if (view === undefined) return null
    const found = viewChipWindow(view, axis)
    if (found === 'pending') return { value: null, text: 'pending' }
    if (found === null) return { value: null, text: 'never' }
    const value = found.distance * perCore
    if (found.only === null) return value
    return {
      value,
      text: signedText(found.only === 'above' ? value : -value, digits),
      reason: 'reached on one side only',
    }
  }
}

/** The nominal loss; where an entered value replaces a joint, it is marked. */
function nominal({ evaluation, facts }: Subject): ComparisonCell {
  const { nominalDb } = evaluation
  const cell = { value: nominalDb, text: fixedText(nominalDb, 2) }
  return facts.typedJoints === 0
    ? cell
    : {
        ...cell,
        reason: `${facts.typedJoints === 1 ? 'one joint is' : `${facts.typedJoints} joints are`} an entered value`,
      }
}

/** Towards one end of the path; where the shape of a face is not known, the least that it can be. */
const returnLoss =
  (port: PathPort) =>
  ({ evaluation }: Subject): number | ComparisonCell => {
    const { incoherentDb: found, atLeast } = evaluation.returnLoss[port]
    if (found === null || found > RETURN_LOSS_TRUST_DB)
      return { value: RETURN_LOSS_TRUST_DB, text: `> ${RETURN_LOSS_TRUST_DB}` }
    return atLeast
      ? { value: found, text: `≥ ${fixedText(found, 1)}`, reason: 'tip radius not given' }
      : found
  }

/** Gaps whose two flat faces interfere; a lensed tip or a relay has none. */
function rippleDb({ evaluation: { ripples } }: Subject): number | ComparisonCell {
  return ripples.length === 0 ? NONE : ripples.reduce((sum, ripple) => sum + ripple.peakToPeakDb, 0)
}

function workingDistance({ candidate, evaluation }: Subject): number | null {
  const element = candidate.chain.at(-2)
  if (element?.kind === 'relay') return coreValue(element.backGap, 'gap')
  return evaluation.joints.at(-1)?.joint.gapUm ?? null
}

function temperatureReach({ evaluation }: Subject): ComparisonCell | number {
  const { temperature } = evaluation
  if (temperature === null) return NO_MOUNT
  return {
    value: temperature.worstDb,
    text: `${fixedText(temperature.worstDb, 2)} at ${degrees(temperature.worstC)} °C`,
  }
}

/** With the reason where a percentile of the run lies above it. */
function worstCase({ evaluation, run }: Subject): ComparisonCell {
  const { lossDb } = evaluation.worstCorner
  if (evaluation.awaitsFit) return provisional(lossDb)
  const reason = aboveWorstCase(evaluation, run)
  return { value: lossDb, text: fixedText(lossDb, 2), ...(reason !== null && { reason }) }
}

const provisional = (lossDb: number): ComparisonCell => ({
  value: lossDb,
  text: fixedText(lossDb, 2),
  reason: 'provisional: real fields and lens aberration are being computed',
  provisional: true,
})

function rss({ evaluation }: Subject): number | ComparisonCell {
  const { lossDb } = evaluation.rootSumSquare
  return evaluation.awaitsFit ? provisional(lossDb) : lossDb
}

const degrees = (value: number) => fixedText(value, 0)

/** Temperatures at which the nominal loss meets the limit; sorts by how wide they are. */
function temperatureSpan({ evaluation, project }: Subject): ComparisonCell {
  const { temperature } = evaluation
  if (temperature === null) return NO_MOUNT
  const { reachC } = temperature
  if (reachC === null)
    return { value: 0, text: 'none', reason: 'above the limit at the assembly temperature' }
  const [from, to] = reachC
  const [least, most] = REACH_LOOKED_AT_C
  const text = `${from <= least ? 'below ' : ''}${degrees(from)} to ${to >= most ? 'above ' : ''}${degrees(to)}`
  return {
    value: to - from,
    text,
    reason: `nominal loss, ${leadingLimitDb(project.requirements)} dB limit`,
  }
}

export const rowSpecs = (project: Project): readonly RowSpec[] => [
  number('nominal', 'Loss', 'Nominal', 'dB', 2, 'lower', nominal),
  number('rss', 'Loss', 'RSS', 'dB', 2, 'lower', rss),
  number('worst', 'Loss', 'Worst case', 'dB', 2, 'lower', worstCase),
  ...yieldRows(project),
  number(
    'x',
    'Alignment tolerance at the chip, 1 dB excess loss',
    'Offset x',
    '± µm',
    2,
    'higher',
    window('offsetXUm', 1, 2),
  ),
  number(
    'y',
    'Alignment tolerance at the chip, 1 dB excess loss',
    'Offset y',
    '± µm',
    2,
    'higher',
    window('offsetYUm', 1, 2),
  ),
  number(
    'z',
    'Alignment tolerance at the chip, 1 dB excess loss',
    'Gap',
    '± µm',
    1,
    'higher',
    window('gapUm', 1, 1),
  ),
  number(
    'tilt-x',
    'Alignment tolerance at the chip, 1 dB excess loss',
    'Tilt x about the facet',
    '± °',
    2,
    'higher',
    window('tiltXRad', DEG, 2),
  ),
  number(
    'tilt-y',
    'Alignment tolerance at the chip, 1 dB excess loss',
    'Tilt y about the facet',
    '± °',
    2,
    'higher',
    window('tiltYRad', DEG, 2),
  ),
  number(
    'return-loss',
    'Back-reflection',
    'Return loss towards the fibre',
    'dB',
    1,
    'higher',
    returnLoss('fibre'),
  ),
  number(
    'return-loss-chip',
    'Back-reflection',
    'Return loss towards the chip',
    'dB',
    1,
    'higher',
    returnLoss('chip'),
  ),
  number('ripple', 'Back-reflection', 'Ripple between faces, peak to peak', 'dB', 2, 'lower', rippleDb),
  number('working-distance', 'Build', 'Gap or working distance at the chip', 'µm', 1, null, workingDistance),
  number('medium', 'Build', 'Gap medium', '', 0, null, ({ facts }) => facts.media.join('; ')),
  number('splices', 'Build', 'Splices', '', 0, 'lower', ({ facts }) => facts.splices),
  number('joints', 'Build', 'Joints other than splices', '', 0, 'lower', ({ facts }) => facts.joints),
  number(
    'steps',
    'Build',
    'Alignment or placement steps',
    '',
    0,
    'lower',
    ({ facts }) => facts.alignmentSteps,
  ),
  number('parts', 'Build', 'Part types to procure', '', 0, 'lower', ({ facts }) => ({
    value: facts.partsToBuy.length,
    text: String(facts.partsToBuy.length),
    reason: facts.partsToBuy.join('; '),
  })),
  number('cost', 'Build', 'Cost per channel (user input)', '', 2, 'lower', ({ candidate, project }) =>
    candidate.cost === undefined
      ? { ...NOT_KNOWN, reason: 'no cost given' }
      : costPerChannel(candidate.cost, project.requirements.channels),
  ),
  number('pitches', 'Array', 'Channels', '', 0, null, ({ project, candidate }) => {
    const finding = pitchFinding(project, candidate)
    return { value: null, text: String(finding.channels), reason: pitchesText(finding) }
  }),
  number(
    'pitch',
    'Array',
    'Maximum pitch error, outer channels',
    'µm',
    1,
    'lower',
    ({ project, candidate }) => {
      const finding = pitchFinding(project, candidate)
      const { channels, outerErrorUm, mismatch, unknown } = finding
      if (channels === 1) return SINGLE_CHANNEL
      if (mismatch === '' && unknown.length > 0) {
        return { ...NOT_KNOWN, reason: unknownPitchText(finding) }
      }
      return { value: outerErrorUm, text: fixedText(outerErrorUm, 1), reason: mismatch }
    },
  ),
  number('polarisation', 'Operation', 'Polarisation maintained', '', 0, null, ({ project, candidate }) => {
    const { kept, reason } = polarisationKept(project, candidate)
    return { value: null, text: kept, reason: kept === 'yes' ? '' : reason }
  }),
  number(
    'pdl',
    'Operation',
    'Polarisation-dependent loss',
    'dB',
    2,
    'lower',
    ({ evaluation }) => evaluation.polarisation.dependentLossDb,
  ),
  number('band', 'Operation', 'Nominal, worst wavelength', 'dB', 2, 'lower', ({ project, evaluation }) =>
    evaluation.band === null
      ? requiredBand(project) === null
        ? { ...NONE, text: 'no band' }
        : { ...NOT_KNOWN, reason: 'part data do not cover the band; see Spectrum' }
      : evaluation.band.worstDb,
  ),
  number('stretch', 'Operation', 'Collimated section', 'mm', 1, null, ({ evaluation }) => {
    const [relay] = evaluation.relays
    return relay === undefined ? NONE : relay.stretchUm / 1000
  }),
  number('temperature', 'Operation', 'Nominal, worst temperature', 'dB', 2, 'lower', temperatureReach),
  number('reach', 'Operation', 'Usable temperature range', '°C', 0, 'higher', temperatureSpan),
  number('cautions', 'Operation', 'Cautions', '', 0, 'lower', ({ evaluation }) => {
    const cautions = evaluation.validity.filter((note) => note.caution === true)
    return {
      value: cautions.length,
      text: String(cautions.length),
      reason: cautions.map(({ message }) => message).join(' '),
    }
  }),
]
