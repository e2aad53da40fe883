// As a schema: what a candidate costs, in the engineer's own figures and currency.

import { z } from 'zod'
import { open } from './openObject'

const amount = z.number().nonnegative().max(1e9)

export const costSchema = open({
  /** Parts and work that every channel needs. */
  perChannel: amount,
  /** What a whole module needs once, whatever its number of channels. */
  perModule: amount,
})
export type Cost = z.infer<typeof costSchema>
