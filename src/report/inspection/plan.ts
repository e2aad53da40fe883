// The incoming inspection plan: for each ordered characteristic the method, the guarded limits, the sample and the reject rule.

import type { Quantity } from '../../model/quantity/quantity'
import type { Purchase } from '../../model/schema/purchase'
import { INSPECTION_DEFAULTS } from '../../model/words/purchase'
import { atMostFailing, sampleSize } from '../../numerics/acceptanceSampling'
import { type Characteristic, isOpen, limitsOf } from '../characteristics/characteristic'
import { acceptanceLimits, type Bounds, guardFactor, usefulUncertainty } from '../characteristics/guardBand'
import { METHODS, type MethodId, standardUncertainty } from '../characteristics/methods'

export interface Sampling {
  readonly confidence: number
  /** Share of a lot outside its limits that must be found with that confidence. */
  readonly defective: number
  readonly allowed: number
  /** Sample of a large lot; smaller lots are inspected whole. */
  readonly size: number
  /** Probability that a lot with a tenth of that share is rejected all the same. */
  readonly goodRejected: number
  /** Standard uncertainties in a guard band, and the probability of accepting a part exactly at its limit. */
  readonly guardFactor: number
  readonly guardRisk: number
}

export function samplingOf(purchase: Purchase | undefined): Sampling {
  const { confidencePercent, defectivePercent, allowedFailures, guardRiskPercent } = {
    ...INSPECTION_DEFAULTS,
    ...stated(purchase?.inspection),
  }
  const [confidence, defective, guardRisk] = [
    confidencePercent / 100,
    defectivePercent / 100,
    guardRiskPercent / 100,
  ]
  const size = sampleSize(allowedFailures, defective, confidence)
  return {
    confidence,
    defective,
    allowed: allowedFailures,
    size,
    goodRejected: 1 - atMostFailing(allowedFailures, size, defective / 10),
    guardFactor: guardFactor(guardRisk),
    guardRisk,
  }
}

type Terms = Omit<NonNullable<Purchase['inspection']>, 'uncertainties'>

/** Without the fields that are there but not stated. */
function stated({ uncertainties: _, ...terms }: Terms & { uncertainties?: unknown } = {}) {
  return Object.fromEntries(
    Object.entries(terms).filter(([, value]) => typeof value === 'number'),
  ) as Partial<Record<keyof typeof INSPECTION_DEFAULTS, number>>
}

export interface Inspection {
  readonly characteristic: Characteristic
  readonly limits: Bounds
  /** Expanded uncertainty (k = 2) in the unit of the method. */
  readonly expanded: number
  /** Standard uncertainty in the unit of the characteristic. */
  readonly standard: number
  /** Whether the uncertainty was entered; else it is the one that is usual for the method. */
  readonly isEntered: boolean
  readonly guard: number
  /** Limits for the measured value; null where the guard bands leave nothing, or where there are no limits yet. */
  readonly accept: Bounds | null
  /** Largest expanded uncertainty that leaves half of the tolerance; null where it does not matter. */
  readonly neededExpanded: number | null
  /** Parts to inspect: all of a lot that is smaller than the sample; null while the lot is not known. */
  readonly sample: number | null
  readonly whole: boolean
  /** Excess loss of the design with this number at its worse limit, dB; null where it adds none of its own. */
  readonly excessDb: number | null
}

function expandedOf(purchase: Purchase | undefined, method: MethodId): number {
  return purchase?.inspection?.uncertainties?.[method] ?? METHODS[method].expanded
}

export function inspectionOf(
  characteristic: Characteristic,
  lot: number | null,
  sampling: Sampling,
  purchase: Purchase | undefined,
  excess: ReadonlyMap<Quantity, number>,
): Inspection {
  const { method, quantity } = characteristic
  const limits = limitsOf(characteristic)
  const expanded = expandedOf(purchase, method)
  const standard = standardUncertainty(method, expanded, quantity)
  const accept = isOpen(characteristic) ? null : acceptanceLimits(limits, standard, sampling.guardFactor)
  const whole = lot !== null && lot <= sampling.size
  return {
    characteristic,
    limits,
    expanded,
    standard,
    isEntered: purchase?.inspection?.uncertainties?.[method] !== undefined,
    guard: sampling.guardFactor * standard,
    accept,
    neededExpanded:
      accept === null && !isOpen(characteristic) ? usefulUncertainty(limits, sampling.guardFactor) : null,
    sample: lot === null ? null : whole ? lot : sampling.size,
    whole,
    excessDb: excess.get(quantity) ?? null,
  }
}
