// The requirements on light: band, return loss, polarisation, irradiance.

import { leadingLimitDb } from '../../model/project/lossCriteria'
import { requirementLabel } from '../../model/project/statedRequirements'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText, nmOf, rounded } from '../../numerics/numberText'
import { RETURN_LOSS_TRUST_DB } from '../../optics/index'
import { requiredBand } from '../light/band'
import { extinction, statesTm } from '../light/extinction'
import { tightestLocation } from '../light/power'
import type { Evaluation } from '../results/evaluation'
import { PATH_PORTS, type PathPort, type PortReturn } from '../results/lightResults'
import { metIf, type Verdict, verdict } from '../results/verdict'
import { polarisationKept } from './polarisationKept'

/** Beyond the trusted range only that is said: scatter and tails that are not Gaussian rule there. */
export function returnLossText(lossDb: number | null): string {
  return lossDb === null || lossDb > RETURN_LOSS_TRUST_DB
    ? `> ${RETURN_LOSS_TRUST_DB} dB`
    : `${fixedText(lossDb, 1)} dB`
}

/** The total at one end of the path; where the shape of a face is not known, the least that it can be. */
export function totalReturnText(total: PortReturn, of: 'incoherentDb' | 'coherentDb'): string {
  return `${total.atLeast ? '≥ ' : ''}${returnLossText(total[of])}`
}

const FAR_ABOVE_DB = Number.MAX_VALUE

/** Light that returns into one end of the path, with every face counted. */
function returnLossVerdict(
  { requirements }: Project,
  evaluation: Evaluation,
  port: PathPort,
): readonly Verdict[] {
  const asked = port === 'fibre' ? requirements.returnLossFibre : requirements.returnLossChip
  if (asked === undefined) return []
  const id = `return-loss-${port}`
  const limitDb = coreValue(asked, 'returnLoss')
  const { incoherentDb, coherentDb, atLeast, atMostDb } = evaluation.returnLoss[port]
  const overBand = evaluation.band?.leastReturn[port] ?? null
  const least = Math.min(incoherentDb ?? FAR_ABOVE_DB, overBand?.lossDb ?? FAR_ABOVE_DB)
  const beyondTrust = limitDb > RETURN_LOSS_TRUST_DB
  /** A face of unknown shape only adds to what the others return, which can be too much by itself. */
  const othersDb = atLeast && atMostDb !== null && atMostDb < limitDb ? fixedText(atMostDb, 1) : null
  const missed = atLeast && othersDb === null ? 'not known' : 'not met'
  const leastText = returnLossText(least)
  const status = least < limitDb ? missed : beyondTrust ? 'not known' : 'met'
  const where = overBand !== null && returnLossText(least) !== returnLossText(incoherentDb ?? FAR_ABOVE_DB)
  const at = where ? ` at ${nmOf(overBand.atUm)} nm` : ''
  const reasons = [
    `${atLeast ? 'at least ' : ''}${leastText}${at} (incoherent sum)`,
    ...(least > RETURN_LOSS_TRUST_DB || evaluation.reflections.length < 2
      ? []
      : [`${returnLossText(coherentDb)} coherent worst case`]),
    ...(atLeast ? ['tip radius not given'] : []),
    ...(othersDb === null ? [] : [`the other faces alone give ${othersDb} dB`]),
  ]
  return [
    {
      ...verdict(id, requirementLabel(requirements, id), status, reasons.join('; ')),
      value:
        othersDb === null
          ? `${atLeast ? '≥ ' : ''}${leastText.replace(' dB', '')}`
          : `${fixedText(least, 1)} to ${othersDb}`,
      limit: `≥ ${limitDb} dB`,
    },
  ]
}

export function returnLossVerdicts(project: Project, evaluation: Evaluation): readonly Verdict[] {
  return PATH_PORTS.flatMap((port) => returnLossVerdict(project, evaluation, port))
}

export function bandVerdict(project: Project, evaluation: Evaluation): readonly Verdict[] {
  const required = requiredBand(project)
  if (required === null) return []
  const label = requirementLabel(project.requirements, 'band')
  const { band } = evaluation
  if (band === null) {
    return [verdict('band', label, 'not known', 'part data do not cover the band; see Spectrum')]
  }
  const limitDb = leadingLimitDb(project.requirements)
  const rippleDb = evaluation.ripples.reduce((sum, ripple) => sum + ripple.troughLossDb, 0)
  const ripple = rippleDb < 0.005 ? '' : `, including up to ${fixedText(rippleDb, 2)} dB ripple`
  const worstDb = band.worstDb + rippleDb
  const text = `nominal maximum ${fixedText(worstDb, 2)} dB at ${nmOf(band.worstUm)} nm${ripple}; limit ${limitDb} dB`
  return [
    {
      ...verdict('band', label, metIf(worstDb <= limitDb), text),
      value: fixedText(worstDb, 2),
      limit: `≤ ${limitDb} dB`,
    },
  ]
}

export function polarisationVerdicts(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
): readonly Verdict[] {
  const { requirements } = project
  const found = extinction(project, candidate)
  const verdicts: Verdict[] = []
  const loose = `not polarisation-maintaining: ${found.loose.join(', ')}`
  if (requirements.polarisation !== 'any') {
    const { kept, reason } = polarisationKept(project, candidate)
    const status = kept === 'not known' ? 'not known' : metIf(kept !== 'no')
    verdicts.push(verdict('polarisation', requirementLabel(requirements, 'polarisation'), status, reason))
  }
  if (requirements.extinctionRatio !== undefined) {
    const limitDb = coreValue(requirements.extinctionRatio, 'extinctionRatio')
    const label = requirementLabel(requirements, 'extinction')
    const { atTolerance } = found
    if (found.loose.length > 0) verdicts.push(verdict('extinction', label, 'not met', loose))
    else if (atTolerance === null) {
      const text = `key angle not known: ${found.unknown.join(', ')}`
      verdicts.push(verdict('extinction', label, 'not known', text))
    } else {
      const worst = Number.isFinite(atTolerance.worstDb) ? fixedText(atTolerance.worstDb, 1) : '> 100'
      const text = `${worst} dB with all key angles at their limits, worst-case phase`
      verdicts.push(verdict('extinction', label, metIf(atTolerance.worstDb >= limitDb), text))
    }
  }
  if (requirements.polarisationDependentLoss !== undefined) {
    const limitDb = coreValue(requirements.polarisationDependentLoss, 'loss')
    const label = requirementLabel(requirements, 'pdl')
    const greatestDb = Math.max(
      evaluation.polarisation.dependentLossDb,
      evaluation.band?.dependentLossDb ?? 0,
    )
    const known = statesTm(project, candidate)
    const status = greatestDb > limitDb ? 'not met' : known ? 'met' : 'not known'
    const text = known
      ? `${fixedText(greatestDb, 2)} dB between TE and TM`
      : `one mode given for TE and TM; end faces alone give ${fixedText(greatestDb, 2)} dB`
    verdicts.push(verdict('pdl', label, status, text))
  }
  return verdicts
}

/** 1 uW/um^2 is 0.1 kW/cm^2. */
export const KW_PER_CM2 = 0.1

export function irradianceVerdict(evaluation: Evaluation): readonly Verdict[] {
  const tightest = tightestLocation(evaluation.power?.locations ?? [])
  if (tightest?.limit == null) return []
  const shown = (irradiance: number) => rounded(irradiance * KW_PER_CM2, 3)
  const text = `${shown(tightest.irradiance)} kW/cm² at the most critical point (${tightest.label.toLowerCase()}); limit ${shown(tightest.limit.irradiance)} kW/cm² for ${tightest.limit.what}`
  return [
    verdict(
      'irradiance',
      'Irradiance within its limits',
      metIf(tightest.irradiance <= tightest.limit.irradiance),
      text,
    ),
  ]
}
