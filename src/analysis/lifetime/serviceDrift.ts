// The drift of a design over its service: the stress test that it names, the stated law, and every warning that belongs to both.

import { type StressTest, stressTest } from '../../model/measurements/stressSeries'
import { stressTestOf } from '../../model/measurements/stressTestOf'
import type { Lifetime } from '../../model/schema/build/lifetime'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import {
  DRIFT_LAWS,
  exposureText,
  HOURS_PER_YEAR,
  LAW_TEXTS,
  USUAL_SERVICE,
} from '../../model/words/lifetime'
import { fixedText, plainText } from '../../numerics/numberText'
import { attempted, type Outcome } from '../../numerics/outcome'
import { NO_LIGHT_DB } from '../../optics/index'
import { type DriftAt, type DriftFit, driftAt, fitDrift } from './fitDrift'
import { accelerationOf } from './laws'

interface LawDrift extends DriftAt {
  readonly fit: DriftFit
}

export interface ServiceDrift extends LawDrift {
  readonly test: StressTest
  readonly testName: string
  /** Service in the unit of the test, and the exposure of the test that does as much. */
  readonly service: number
  readonly acceleration: number
  readonly exposure: number
  /** Exposure over the last one measured: above 1 it is extrapolated. */
  readonly beyond: number
  /** By every law, that of the design among them. */
  readonly byLaw: readonly LawDrift[]
  readonly warnings: readonly string[]
}

const EXTRAPOLATED = 1 + 1e-9
/** A law whose residuals are this much smaller fits better: common practice, no source. */
const BETTER = 0.8

const capped = (db: number) => Math.min(NO_LIGHT_DB, Math.max(-NO_LIGHT_DB, db))

/** Null where no lifetime is stated; else the drift, or why there is none. */
export function serviceDrift(project: Project, candidate: Candidate): Outcome<ServiceDrift> | null {
  const { lifetime } = candidate
  if (lifetime === undefined) return null
  const measurement = stressTestOf(project, candidate)
  if (measurement === undefined)
    return {
      ok: false,
      message: 'The stress test of this design has been deleted from the project: choose another one.',
    }
  return attempted(() => driftOf(stressTest(measurement.rows), measurement.name, lifetime))
}

function driftOf(test: StressTest, testName: string, lifetime: Lifetime): ServiceDrift {
  const service =
    test.unit === 'h'
      ? HOURS_PER_YEAR * (lifetime.serviceYears ?? USUAL_SERVICE.years)
      : (lifetime.serviceCycles ?? USUAL_SERVICE.cycles)
  const acceleration = accelerationOf(lifetime, test.unit)
  const exposure = service / acceleration
  const byLaw = DRIFT_LAWS.map((law): LawDrift => {
    const fit = fitDrift(test, law)
    const { meanDb, meanPlusMinusDb, onePlusMinusDb } = driftAt(fit, exposure, test.firstStep)
    return {
      fit,
      meanDb: capped(meanDb),
      meanPlusMinusDb: capped(meanPlusMinusDb),
      onePlusMinusDb: capped(onePlusMinusDb),
    }
  })
  const own = byLaw.find(({ fit }) => fit.law === lifetime.law) ?? byLaw[0]
  if (own === undefined) throw new Error('no law')
  const found = {
    ...own,
    test,
    testName,
    service,
    acceleration,
    exposure,
    beyond: exposure / test.last,
    byLaw,
  }
  return { ...found, warnings: warningsOf(found, lifetime) }
}

/** The law whose readings scatter clearly less about it; undefined where none does. */
function betterLaw({ fit, byLaw }: Omit<ServiceDrift, 'warnings'>): DriftFit | undefined {
  const { residualDb } = fit
  if (residualDb === null) return undefined
  return byLaw
    .map((each) => each.fit)
    .filter((each) => (each.residualDb ?? residualDb) < BETTER * residualDb)
    .toSorted((a, b) => (a.residualDb ?? 0) - (b.residualDb ?? 0))[0]
}

function warningsOf(drift: Omit<ServiceDrift, 'warnings'>, lifetime: Lifetime): readonly string[] {
  const { fit, test, exposure, beyond, byLaw, meanDb } = drift
  const { arrhenius, coffinManson } = lifetime
  const warnings: string[] = []
  if (beyond > EXTRAPOLATED) {
    const others = byLaw.filter((each) => each.fit.law !== fit.law)
    warnings.push(
      `Extrapolated by the ${LAW_TEXTS[fit.law].name} to the equivalent of ${exposureText(exposure, test.unit)} of testing, ${plainText(beyond, 2)} times the ${exposureText(test.last, test.unit)} measured. The other laws give: ${others.map((each) => `${LAW_TEXTS[each.fit.law].name} ${fixedText(each.meanDb, 2)} dB`).join(', ')}.`,
    )
  }
  if (test.unit === 'h' && arrhenius !== undefined && arrhenius.serviceC > arrhenius.testC)
    warnings.push(
      `Service at ${plainText(arrhenius.serviceC)} °C is hotter than the test at ${plainText(arrhenius.testC)} °C, so it is outside the tested range.`,
    )
  if (
    test.unit === 'cycles' &&
    coffinManson !== undefined &&
    coffinManson.serviceSwingC > coffinManson.testSwingC
  )
    warnings.push(
      `The swing in service, ${plainText(coffinManson.serviceSwingC)} °C, is larger than the ${plainText(coffinManson.testSwingC)} °C of the test, so it is outside the tested range.`,
    )
  const better = betterLaw(drift)
  if (better !== undefined)
    warnings.push(
      `The ${LAW_TEXTS[better.law].name} fits these readings better: residuals ${fixedText(better.residualDb ?? 0, 3)} dB compared with ${fixedText(fit.residualDb ?? 0, 3)} dB.`,
    )
  if (fit.assemblies < 2)
    warnings.push(
      'Only one assembly was tested: the spread between assemblies is unknown and not included in the interval.',
    )
  if (meanDb < 0)
    warnings.push(
      `The mean loss falls by ${fixedText(-meanDb, 2)} dB by the end of service life; a falling loss is not credited in the budget.`,
    )
  return warnings
}
