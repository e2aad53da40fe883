// As a schema: what the interface must do, as it is agreed before any part is chosen.

import { z } from 'zod'
import { LOSS_BASES } from '../words/requirements'
import { open } from './openObject'
import { quantity } from './quantity'

export const requirementsSchema = open({
  wavelength: quantity('wavelength'),
  /** Edges of the band; absent where only one wavelength matters. */
  wavelengthMin: quantity('wavelength').optional(),
  wavelengthMax: quantity('wavelength').optional(),
  channels: z.int().min(1).max(64),
  pitch: quantity('pitch'),
  lossLimit: quantity('loss'),
  lossBasis: z.enum(LOSS_BASES),
  lossPercentile: z.number().min(50).max(99.99),
  returnLoss: quantity('returnLoss').optional(),
  polarisation: z.enum(['any', 'maintained']),
  /** Left at the chip's facet; looked at where polarisation is maintained. */
  extinctionRatio: quantity('extinctionRatio').optional(),
  polarisationDependentLoss: quantity('loss').optional(),
  /** What enters the fibre, in each channel; absent where power is not looked at. */
  powerIn: quantity('power').optional(),
  /** What the engineer lets a coating or a bare end face bear. */
  faceIrradiance: quantity('irradiance').optional(),
  temperatureMin: quantity('temperature'),
  temperatureMax: quantity('temperature'),
  collimatedSection: z.boolean(),
  bonding: z.enum(['free choice', 'bonded', 'not bonded']),
  /** In the engineer's own currency, a channel; absent where cost does not decide. */
  costCeiling: z.number().nonnegative().max(1e9).optional(),
  station: open({
    lateral: quantity('lateralAccuracy'),
    axial: quantity('lateralAccuracy'),
    angular: quantity('angularAccuracy'),
  }),
})
export type Requirements = z.infer<typeof requirementsSchema>
