import { expect, test } from 'vitest'
import { NO_LIGHT_DB } from '../../src/optics/index'
import { excessText } from '../../src/ui/jobs/YieldNumbers'

test('the excess loss of a percentile counts from nominal, and is none where no light arrives', () => {
  const at = (share: number, lossDb: number) => ({ share, lossDb, lowDb: 0, highDb: 0 })
  const percentiles = [at(0.5, 1.13), at(0.95, 2.75), at(0.995, NO_LIGHT_DB)]
  expect(excessText({ nominalDb: 1.25, percentiles })).toBe('P50 −0.12 dB, P95 +1.50 dB, P99.5 > 200 dB')
})
