// What a candidate costs, in the engineer's own figures and currency.

import type { Cost } from '../schema/cost'

/** Cost of one channel of a module with so many. */
export function costPerChannel(cost: Cost, channels: number): number {
  return cost.perChannel + cost.perModule / channels
}
