// Which quantities of a candidate an order or an assembly can state a tolerance for.

import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import { unitFactor } from '../../model/quantity/units'
import type { CompiledCandidate } from '../path/compileCandidate'
import { isUncertainty } from '../path/vector/valueReaders'

/** Losses and indices cannot be ordered with a tighter tolerance: their part of the limit is reserved first. */
const NOT_SIZED: ReadonlySet<RuleName> = new Set([
  'loss',
  'returnLoss',
  'reflectance',
  'index',
  'thermoOptic',
  'temperature',
])

/** What an order or an assembly can state a tolerance for, though none is stated yet. */
const STATABLE: ReadonlySet<RuleName> = new Set([
  'offset',
  'gap',
  'tilt',
  'roll',
  'faceAngle',
  'mfd',
  'radius',
  'focalLength',
])
/** Owners of such numbers; operating quantities and mounts are not ordered. */
const OWNERS: ReadonlySet<string | number | undefined> = new Set([
  'fibres',
  'facets',
  'converters',
  'lenses',
  'candidates',
])

/** Quantities with a tolerance, and those that could have one. */
export function sizedSlots(compiled: CompiledCandidate): readonly number[] {
  return compiled.variables.flatMap((variable, at) => {
    const { spread, rule, path } = variable
    if (NOT_SIZED.has(rule) || isUncertainty(variable)) return []
    const statable = STATABLE.has(rule) && OWNERS.has(path[0]) && path[2] !== 'array' && path[2] !== 'mount'
    return spread.halfWidth > 0 || statable ? [at] : []
  })
}

/** The widest half width of a symmetric tolerance whose ends the quantity's rule allows: a gap reaches contact and no further. */
export function widestHalf(compiled: CompiledCandidate, slot: number): number {
  const { minCore, maxCore } = RULES[compiled.variables[slot]?.rule ?? 'offset']
  const nominal = compiled.nominal[slot] ?? 0
  const least = compiled.leastGapsUm.get(slot) ?? minCore
  return Math.max(0, Math.min(nominal - least, maxCore - nominal))
}

/** Where nothing is stated the search begins at one step of the number's field. */
export function oneStep(compiled: CompiledCandidate, slot: number): number {
  const { dimension, unit, step } = RULES[compiled.variables[slot]?.rule ?? 'offset']
  return step * (unitFactor(dimension, unit) ?? 1)
}
