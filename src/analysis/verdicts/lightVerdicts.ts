// The requirements on light: band, return loss, polarisation, irradiance.

import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { RETURN_LOSS_TRUST_DB } from '../../optics/index'
import { requiredBand } from '../light/band'
import { extinction, statesTm } from '../light/extinction'
import { tightestPlace } from '../light/power'
import type { Evaluation } from '../results/evaluation'
import { type Verdict, verdict, within } from '../results/verdict'
import { polarisationKept } from './polarisationKept'

const nm = (um: number) => Number((um * 1000).toPrecision(7))

/** Beyond the trusted range only that is said: scatter and tails that are not Gaussian rule there. */
export function returnLossText(lossDb: number | null): string {
  return lossDb === null || lossDb > RETURN_LOSS_TRUST_DB
    ? `> ${RETURN_LOSS_TRUST_DB} dB`
    : `${lossDb.toFixed(1)} dB`
}

export function returnLossVerdict({ requirements }: Project, evaluation: Evaluation): readonly Verdict[] {
  if (requirements.returnLoss === undefined) return []
  const limitDb = coreValue(requirements.returnLoss, 'returnLoss')
  const label = `Return loss ≥ ${limitDb} dB`
  const { returnLossDb, coherentReturnLossDb, band } = evaluation
  const overBand = band?.leastReturnLossDb ?? null
  const least = Math.min(returnLossDb ?? Number.MAX_VALUE, overBand ?? Number.MAX_VALUE)
  const status = least < limitDb ? 'not met' : limitDb > RETURN_LOSS_TRUST_DB ? 'not known' : 'met'
  const where = band !== null && least < (returnLossDb ?? Number.MAX_VALUE) - 0.05
  const reasons = [
    `${returnLossText(least)}${where ? ` at ${nm(band.leastReturnUm)} nm` : ''}, powers of all faces added`,
    ...(least > RETURN_LOSS_TRUST_DB || evaluation.reflections.length < 2
      ? []
      : [`${returnLossText(coherentReturnLossDb)} with all in phase`]),
  ]
  return [verdict('return-loss', label, status, reasons.join('; '))]
}

export function bandVerdict(project: Project, evaluation: Evaluation): readonly Verdict[] {
  const required = requiredBand(project)
  if (required === null) return []
  const label = `Loss over ${nm(required[0])} to ${nm(required[1])} nm`
  const { band } = evaluation
  if (band === null) {
    return [
      verdict('band', label, 'not known', 'the data of a part end within the band; the spectrum says which'),
    ]
  }
  const limitDb = coreValue(project.requirements.lossLimit, 'loss')
  const rippleDb = evaluation.ripples.reduce((sum, ripple) => sum + ripple.troughLossDb, 0)
  const ripple = rippleDb < 0.005 ? '' : `, of which ripple may add ${rippleDb.toFixed(2)} dB`
  const worstDb = band.worstDb + rippleDb
  const text = `nominal, at most ${worstDb.toFixed(2)} dB at ${nm(band.worstUm)} nm${ripple}, against ${limitDb} dB`
  return [verdict('band', label, within(worstDb <= limitDb), text)]
}

export function polarisationVerdicts(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
): readonly Verdict[] {
  const { requirements } = project
  const found = extinction(project, candidate)
  const verdicts: Verdict[] = []
  const loose = `${found.loose.join(', ')} does not keep it`
  if (requirements.polarisation !== 'any') {
    const { kept, reason } = polarisationKept(project, candidate)
    const status = kept === 'not known' ? 'not known' : within(kept !== 'no')
    verdicts.push(verdict('polarisation', 'Polarisation kept', status, reason))
  }
  if (requirements.extinctionRatio !== undefined) {
    const limitDb = coreValue(requirements.extinctionRatio, 'extinctionRatio')
    const label = `Extinction ratio ≥ ${limitDb} dB`
    const { atTolerance } = found
    if (found.loose.length > 0) verdicts.push(verdict('extinction', label, 'not met', loose))
    else if (atTolerance === null) {
      const text = `the key angle is not stated at: ${found.unknown.join(', ')}`
      verdicts.push(verdict('extinction', label, 'not known', text))
    } else {
      const worst = Number.isFinite(atTolerance.worstDb) ? atTolerance.worstDb.toFixed(1) : '> 100'
      const text = `${worst} dB with all key angles at their tolerance and in the worst phase`
      verdicts.push(verdict('extinction', label, within(atTolerance.worstDb >= limitDb), text))
    }
  }
  if (requirements.polarisationDependentLoss !== undefined) {
    const limitDb = coreValue(requirements.polarisationDependentLoss, 'loss')
    const label = `Polarisation-dependent loss ≤ ${limitDb} dB`
    const greatestDb = Math.max(
      evaluation.polarisation.dependentLossDb,
      evaluation.band?.dependentLossDb ?? 0,
    )
    const known = statesTm(project, candidate)
    const status = greatestDb > limitDb ? 'not met' : known ? 'met' : 'not known'
    const text = known
      ? `${greatestDb.toFixed(2)} dB between TE and TM`
      : `the facet states one mode for both; the faces alone make ${greatestDb.toFixed(2)} dB`
    verdicts.push(verdict('pdl', label, status, text))
  }
  return verdicts
}

/** 1 uW/um^2 is 0.1 kW/cm^2. */
export const KW_PER_CM2 = 0.1

export function irradianceVerdict(evaluation: Evaluation): readonly Verdict[] {
  const tightest = tightestPlace(evaluation.power?.places ?? [])
  if (tightest?.limit == null) return []
  const shown = (irradiance: number) => Number((irradiance * KW_PER_CM2).toPrecision(3))
  const text = `${shown(tightest.irradiance)} kW/cm² at most, ${tightest.label.toLowerCase()}, against ${shown(tightest.limit.irradiance)} kW/cm² set for ${tightest.limit.what}`
  return [
    verdict(
      'irradiance',
      'Irradiance within the limits set',
      within(tightest.irradiance <= tightest.limit.irradiance),
      text,
    ),
  ]
}
