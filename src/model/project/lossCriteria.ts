// The loss criteria of the requirements: which one leads, and which percentiles are requested.

import { coreValue } from '../quantity/quantity'
import type { LossCriterion, Requirements } from '../schema/requirements'
import { percentileName } from './statedRequirements'

/** The limit that yields and curves are drawn against: the first percentile, else the first criterion. */
export function leadingLoss({ losses }: Requirements): LossCriterion {
  const leading = losses.find(({ basis }) => basis === 'percentile') ?? losses[0]
  if (leading === undefined) throw new Error('requirements have no loss criterion')
  return leading
}

/** The limit of the leading criterion, dB. */
export const leadingLimitDb = (requirements: Requirements): number =>
  coreValue(leadingLoss(requirements).limit, 'loss')

export interface NamedLimit {
  readonly limitDb: number
  /** `P99 limit`, `worst-case limit`: a curve of another basis is not what the limit applies to. */
  readonly name: string
}

/** The limit of the leading criterion with the basis that it applies to. */
export function leadingLimit(requirements: Requirements): NamedLimit {
  const { basis, percentile } = leadingLoss(requirements)
  const of = basis === 'percentile' ? percentileName(percentile) : basis.replace(' ', '-')
  return { limitDb: leadingLimitDb(requirements), name: `${of} limit` }
}

/** Shares of assemblies that the criteria on percentiles ask for, 0 to 1; without one, that of the leading criterion. */
export function askedShares(requirements: Requirements): readonly number[] {
  const asked = requirements.losses.filter(({ basis }) => basis === 'percentile')
  const all = asked.length > 0 ? asked : [leadingLoss(requirements)]
  return [...new Set(all.map(({ percentile }) => percentile / 100))]
}
