// Edits of several parts at once, on the draft of a project: each is one undo step of whoever calls it.

import { rounded } from '../../numerics/numberText'
import { candidatesUsing } from '../project/references'
import type { Distribution, Quantity } from '../quantity/quantity'
import type { Project } from '../schema/project'
import { byId } from '../words/byId'
import { freeId, freeName } from '../words/freeName'
import { LIMITS } from '../words/limits'
import type { AnyPart, PartRef } from './partKinds'
import { partQuantities } from './partQuantities'

interface Entry {
  id: string
  name: string
}

export function partOf(project: Project, { list, id }: PartRef): AnyPart | undefined {
  const parts: readonly AnyPart[] = project[list]
  return byId(parts, id)
}

/** Adds a copy of each part up to the limit of its list; returns the copies. */
export function copyParts(draft: Project, refs: readonly PartRef[]): readonly PartRef[] {
  return refs.flatMap((ref): readonly PartRef[] => {
    const entries: Entry[] = draft[ref.list]
    const own = partOf(draft, ref)
    if (own === undefined || entries.length >= LIMITS.parts) return []
    const id = freeId(ref.list, entries)
    // Through text, because a draft cannot be cloned as it is.
    const copy = JSON.parse(JSON.stringify(own)) as Entry
    entries.push({ ...copy, id, name: freeName(`${own.name} (copy)`, entries) })
    return [{ list: ref.list, id }]
  })
}

/** Deletes the parts that no design uses; returns how many. */
export function deleteParts(draft: Project, refs: readonly PartRef[]): number {
  let deleted = 0
  for (const { list, id } of refs) {
    const entries: Entry[] = draft[list]
    const at = entries.findIndex((each) => each.id === id)
    if (at < 0 || candidatesUsing(draft, list, id).length > 0) continue
    entries.splice(at, 1)
    deleted += 1
  }
  return deleted
}

interface ToleranceToSet {
  /** The field as `partQuantities` names it. */
  readonly field: string
  /** Half width: in `unit`, or in per cent of each value. 0 takes the tolerance away. */
  readonly plusMinus: number
  readonly unit: Quantity['unit'] | 'per cent'
  readonly distribution: Distribution
}

/** Gives the named number of every part that has it a tolerance; returns how many were changed. */
export function setTolerances(draft: Project, refs: readonly PartRef[], wanted: ToleranceToSet): number {
  const { field, plusMinus, unit, distribution } = wanted
  let changed = 0
  for (const ref of refs) {
    const part = partOf(draft, ref)
    for (const { field: own, quantity } of part === undefined ? [] : partQuantities(part)) {
      if (own !== field || (unit !== 'per cent' && quantity.unit !== unit)) continue
      const half = unit === 'per cent' ? (Math.abs(quantity.value) * plusMinus) / 100 : plusMinus
      quantity.tolerance =
        plusMinus === 0 ? undefined : { ...quantity.tolerance, distribution, plusMinus: rounded(half, 6) }
      changed += 1
    }
  }
  return changed
}
