// As a schema: how the drift of a stress test is carried to the end of service: the law of time, and how much faster the test was.

import { z } from 'zod'
import { DRIFT_LAWS, LIFETIME_LIMITS } from '../../words/lifetime'
import { open } from '../openObject'

const within = ([least, greatest]: readonly [number, number]) => z.number().min(least).max(greatest)

export const lifetimeSchema = open({
  /** The stress test, a measurement of the project. */
  measurementId: z.string().min(1).max(80),
  law: z.enum(DRIFT_LAWS),
  /** Service for a test in hours and for one in cycles; the usual one where absent. */
  serviceYears: within(LIFETIME_LIMITS.serviceYears).optional(),
  serviceCycles: within(LIFETIME_LIMITS.serviceCycles).optional(),
  /** For a test in hours; absent where service is as hot as the test. */
  arrhenius: open({
    activationEnergyEv: within(LIFETIME_LIMITS.activationEnergyEv),
    testC: within(LIFETIME_LIMITS.temperatureC),
    serviceC: within(LIFETIME_LIMITS.temperatureC),
  }).optional(),
  /** For a test in cycles; absent where cycles of service are as large as those of the test. */
  coffinManson: open({
    exponent: within(LIFETIME_LIMITS.exponent),
    testSwingC: within(LIFETIME_LIMITS.swingC),
    serviceSwingC: within(LIFETIME_LIMITS.swingC),
  }).optional(),
  /** Where law and numbers come from, in the engineer's words. */
  basis: z.string().max(LIFETIME_LIMITS.basisCharacters).optional(),
})
export type Lifetime = z.infer<typeof lifetimeSchema>
