// Assemblies through a sequence whose joint is computed by its fields: where steps take it, the difference from Gaussians moves too.

import { describe, expect, test } from 'vitest'
import { compileSequence } from '../../../src/analysis/assembly/compileSequence'
import { usualSequence } from '../../../src/analysis/assembly/usualSequence'
import { runYield } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { AssemblySequence } from '../../../src/model/schema/build/assembly'
import type { Project } from '../../../src/model/schema/project'
import { directLoss, fieldProject, skewedMode } from '../support/fieldDraws'
import { twoLobesProject } from '../support/twoLobes'
import { runAssembly, step } from './step'

/** The usual steps, which lose nothing by handling and check nothing. */
function placing({ project, id }: { readonly project: Project; readonly id: string }): AssemblySequence {
  const candidate = project.candidates.find((each) => each.id === id)
  if (candidate === undefined) throw new Error('no design')
  const { steps, costPerHour } = usualSequence(project, candidate)
  return {
    costPerHour,
    steps: steps.flatMap((each) => (each.kind === 'check' ? [] : [{ ...each, spoiledPercent: 0 }])),
  }
}

const oneChannel = <T extends { readonly project: Project }>(design: T): T => {
  design.project.requirements.channels = 1
  return design
}
const skewed = () =>
  oneChannel(
    fieldProject({
      field: skewedMode(),
      powerShare: 1,
      mfdXUm: 2.6,
      mfdYUm: 2.4,
      offsetsUm: 1.2,
      inGel: true,
    }),
  )

/** Largest distance of the loss of the sequence's part from direct sums on a whole grid, over some of the design's assemblies, dB. */
function furthestDb(design: { readonly project: Project; readonly id: string }, sequence: AssemblySequence) {
  const compiled = compileSequence(design.project, design.id, sequence)
  if (!compiled.ok) throw new Error('no sequence')
  const { part } = compiled.value
  const truth = directLoss(design.project, design.id)
  const { variables } = truth.assembly.compiled
  const inWork = part.start()
  const away = Array.from({ length: 24 }, (_, i) => {
    const v = truth.sample({ samples: 24, seed: 7, method: 'sobol' }, i)
    for (const [slot, { path }] of variables.entries()) {
      const at = part.compiled.variables.findIndex((each) => each.path.join() === path.join())
      if (at >= 0) inWork.values[at] = v[slot] ?? 0
    }
    const trueDb = truth.wholeGridDb(v)
    return trueDb < 30 ? Math.abs(inWork.lossDb() - trueDb) : 0
  })
  return Math.max(...away)
}

describe('a joint by fields in a sequence', () => {
  test('is moved as in a yield run', () => {
    const design = skewed()
    const run = runAssembly(design.project, design.id, placing(design), { samples: 16_384 })
    const { p50Db, p95Db } = runYield(design.project, design.id, { samples: 16_384, rankingPoints: null })
    // With the difference of the nominal pose the two would be 0.18 dB apart.
    expect(Math.abs((run.p50Db ?? Number.NaN) - p50Db)).toBeLessThan(0.03)
    expect(Math.abs((run.p95Db ?? Number.NaN) - p95Db)).toBeLessThan(0.05)
    expect(furthestDb(design, placing(design))).toBeLessThan(0.02)
  })

  test('is moved as far as movements and other means of steps take it', () => {
    const design = skewed()
    const moves = {
      x: quantityOf(0.4, 'um', 'estimate', 0.8),
      y: quantityOf(0, 'um', 'estimate', 0.4),
    }
    const placed = placing(design)
    const [first] = placed.steps
    const gap = quantityOf(4, 'um', 'estimate', 1)
    const sets = { offsetX: quantityOf(-0.3, 'um', 'estimate', 1.6), offsetY: quantityOf(0, 'um'), gap }
    const sequence = {
      ...placed,
      steps: [
        { ...step('place', 'place', { sets }), elementId: first?.elementId },
        { ...step('cure', 'cure', { moves }), elementId: first?.elementId },
        { ...step('cure again', 'cure', { moves }), elementId: first?.elementId },
      ],
    } as AssemblySequence
    const compiled = compileSequence(design.project, design.id, sequence)
    if (!compiled.ok) throw new Error('no sequence')
    const { part } = compiled.value
    const truth = directLoss(design.project, design.id)
    const at = (name: string) =>
      part.compiled.variables.findIndex(({ path }) => path.slice(4).join('.') === name)
    const own = (name: string) =>
      truth.assembly.compiled.variables.findIndex(({ path }) => path.slice(4).join('.') === name)
    const inWork = part.start()
    // All at their ends: 1.3 µm by the placing, 1.2 µm by each movement.
    for (const [placedUm, movedUm] of [
      [1.3, 2.4],
      [-1.9, -0.8],
    ] as const) {
      inWork.values.set(part.compiled.nominal)
      inWork.values[at('offsetX')] = placedUm
      inWork.values[at('bondShift.x')] = movedUm
      inWork.values[at('gap')] = 5
      const v = Float64Array.from(truth.assembly.compiled.nominal)
      v[own('offsetX')] = placedUm + movedUm
      v[own('gap')] = 5
      expect(Math.abs(inWork.lossDb() - truth.wholeGridDb(v))).toBeLessThan(0.03)
    }
  })

  test('is summed directly, on an eighth of the assemblies, where its fit misses its target', () => {
    const design = oneChannel(twoLobesProject(3))
    expect(furthestDb(design, placing(design))).toBeLessThan(0.02)
    expect(runAssembly(design.project, design.id, placing(design), { samples: 512 }).samples).toBe(64)
  })
})
