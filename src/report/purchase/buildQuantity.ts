// How many pieces of a part a build needs: for so many good assemblies, those that are expected to fail, and spares.

import type { Purchase } from '../../model/schema/purchase'
import { atMostFailing } from '../../numerics/acceptanceSampling'

export interface Build {
  /** Good assemblies that are wanted. */
  readonly wanted: number
  /** Assemblies that are begun, so that on average enough are good. */
  readonly begun: number
  readonly yieldLoss: number
  readonly spares: number
  /** Probability that enough of those begun are good, each failing alone with the share of the yield loss. */
  readonly enough: number
  /** The same where the spare parts become assemblies too. */
  readonly enoughWithSpares: number
}

/** Whole pieces; what adding in binary leaves must not buy one more. */
const pieces = (count: number) => Math.ceil(count - 1e-9)

/** Assemblies that can be started with the spares, whatever number of pieces each takes. */
export const assembliesWithSpares = ({ begun, spares }: Pick<Build, 'begun' | 'spares'>): number =>
  Math.floor(begun * (1 + spares) + 1e-9)

/** The build that is planned; null where no number of assemblies is stated. Other values that are not stated are treated as none. */
export function buildOf(purchase: Purchase | undefined): Build | null {
  const wanted = purchase?.assemblies
  if (wanted === undefined) return null
  const yieldLoss = (purchase?.yieldLossPercent ?? 0) / 100
  const spares = (purchase?.sparesPercent ?? 0) / 100
  const begun = pieces(wanted / (1 - yieldLoss))
  const withSpares = assembliesWithSpares({ begun, spares })
  return {
    wanted,
    begun,
    yieldLoss,
    spares,
    enough: atMostFailing(begun - wanted, begun, yieldLoss),
    enoughWithSpares: atMostFailing(withSpares - wanted, withSpares, yieldLoss),
  }
}

/** Pieces of a part of which each assembly takes `perAssembly`. */
export function piecesFor({ begun, spares }: Build, perAssembly: number): number {
  return pieces(begun * perAssembly * (1 + spares))
}
