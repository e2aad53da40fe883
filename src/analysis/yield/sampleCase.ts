// A simulated assembly as a separate design: its parts are copies with the sampled values.

import { partOf } from '../../model/parts/partEdits'
import { ProjectError } from '../../model/project/projectError'
import { elementReferences } from '../../model/project/references'
import { quantityAt } from '../../model/quantity/quantityAt'
import { RULES } from '../../model/quantity/quantityRules'
import { unitFactor } from '../../model/quantity/units'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { freeId } from '../../model/words/freeName'
import { assemblyOf } from './assembly'
import { sampleValues } from './runBlocks'
import { type YieldOptions, yieldPlan } from './runYield'

/**
 * The project with one more candidate, sample number `index` of the run, and with copies of every part that it drew.
 * What was sampled has no tolerance left. Throws as runYield does.
 */
export function withSampleCase(
  project: Project,
  candidateId: string,
  options: YieldOptions,
  index: number,
): { readonly project: Project; readonly candidateId: string } {
  const plan = yieldPlan(project, candidateId, options)
  const result = assemblyOf(project, candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  const { compiled, draws } = result.value
  const values = sampleValues(result.value, plan, index)

  const sampled = structuredClone(project)
  for (const slot of draws.slots) {
    const variable = compiled.variables[slot]
    if (variable === undefined) continue
    const quantity = quantityAt(sampled, variable.path)
    if (quantity === undefined) continue
    quantity.value = (values[slot] ?? 0) / (unitFactor(RULES[variable.rule].dimension, quantity.unit) ?? 1)
    quantity.tolerance = undefined
    quantity.typed = undefined
    quantity.provenance = 'computed'
  }
  const source = byId(sampled.candidates, candidateId)
  if (source === undefined) throw new Error(`no design ${candidateId}`)

  const next = structuredClone(project)
  const candidate: Candidate = {
    ...source,
    id: freeId('sample', next.candidates),
    name: `${source.name}, sample ${index}`.slice(0, 200),
    chain: source.chain.map((element) => copyPart(element, sampled, next, project, index)),
  }
  next.candidates.push(candidate)
  return { project: next, candidateId: candidate.id }
}

/** The element, pointing to a copy of every part that the sample has changed. */
function copyPart(
  element: Candidate['chain'][number],
  sampled: Project,
  next: Project,
  original: Project,
  index: number,
): Candidate['chain'][number] {
  let result = element
  for (const { list, field, partId } of elementReferences(element)) {
    const part = partOf(sampled, { list, id: partId })
    const before = partOf(original, { list, id: partId })
    if (part === undefined || JSON.stringify(part) === JSON.stringify(before)) continue
    const id = `${partId}-sample-${index}`.slice(0, 80)
    const copies: { id: string; name: string }[] = next[list]
    if (!copies.some((each) => each.id === id)) {
      copies.push({ ...part, id, name: `${part.name}, sample ${index}`.slice(0, 200) })
    }
    result = { ...result, [field]: id }
  }
  return result
}
