// The build and the orders of the demo: invented, as all of it is.

import { quantityOf } from '../quantity/quantity'
import type { Purchase } from '../schema/purchase'

export const demoPurchase: Purchase = {
  assemblies: 20,
  sparesPercent: 10,
  yieldLossPercent: 8,
  parts: {
    'fibre/fibre-standard': {
      supplier: 'Supplier A',
      partNumber: 'FA-12-127-SM',
      connector: 'multi-fibre, angled',
      finish: 'polished with the array',
      length: quantityOf(1.5, 'm', 'estimate', 0.05),
    },
    'taper chip/ssc-3.3': { supplier: 'Supplier B', finish: 'polished' },
    'facet/facet-nitride': { supplier: 'Foundry C', finish: 'etched' },
  },
}
