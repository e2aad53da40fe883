// A tolerance as a standard uncertainty.
// Source: JCGM 100:2008, 4.3.3 (normal, stated with its coverage), 4.3.7 (uniform, half width / √3), 4.3.9 (triangular,
// half width / √6). A one-sided tolerance is uniform over its one side: width / √12.

import { coreHalfWidth, type Quantity } from './quantity'
import type { RuleName } from './quantityRules'

const DEFAULT_COVERAGE = 2

/** Standard uncertainty in the core's unit; 0 where no tolerance is stated. */
export function coreStandard(quantity: Quantity, ruleName: RuleName): number {
  const half = coreHalfWidth(quantity, ruleName)
  switch (quantity.tolerance?.distribution) {
    case 'normal':
    case 'truncated normal':
      return half / (quantity.tolerance.coverage ?? DEFAULT_COVERAGE)
    case 'triangular':
      return half / Math.sqrt(6)
    case 'one-sided':
      return half / Math.sqrt(12)
    default:
      return half / Math.sqrt(3)
  }
}
