import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { sampleValues } from '../../../src/analysis/yield/runBlocks'
import { yieldPlan } from '../../../src/analysis/yield/runYield'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import {
  formWindow,
  type GaussianJoint,
  jointEfficiency,
  lossDb,
  misalignmentForm,
} from '../../../src/optics/index'
import { isotropic, matchedProject, normal } from './cases'

function onlyJoint(project: Project, id: string): GaussianJoint {
  const joint = evaluateCandidate(project, id).joints[0]?.joint
  if (joint === undefined) throw new Error('no joint')
  return joint
}

const TILTED: Partial<GapElement> = { gap: quantityOf(40, 'um'), tiltX: quantityOf(0.03, 'rad') }

describe('active alignment', () => {
  test('of one offset goes where the closed form of the joint has its best point', () => {
    const project = matchedProject(10.4, 1, { ...TILTED, aligned: ['offsetX'] })
    const joint = onlyJoint(project, 'matched')
    const best = formWindow(misalignmentForm(joint), 'offsetXUm', { ...joint, offsetXUm: 0 }, 1).best
    expect(joint.offsetXUm).toBeCloseTo(best, 10)
    expect(Math.abs(best)).toBeGreaterThan(0.1)
  })

  test('leaves no better place: every small move of an aligned degree loses light', () => {
    const project = matchedProject(5, 1, {
      tiltX: quantityOf(0.03, 'rad'),
      offsetY: quantityOf(3.5, 'um'),
      aligned: ['offsetX', 'gap'],
    })
    const joint = onlyJoint(project, 'matched')
    // So far off in y, the receiver sees more of a beam that has spread: the best gap is not contact.
    expect(joint.gapUm).toBeGreaterThan(1)
    const here = lossDb(jointEfficiency(joint))
    for (const axis of ['offsetXUm', 'gapUm'] as const) {
      for (const step of [-0.05, 0.05]) {
        const there = { ...joint, [axis]: joint[axis] + step }
        expect(lossDb(jointEfficiency(there)), axis).toBeGreaterThan(here)
      }
    }
  })

  test('of all six degrees undoes every error but the mismatch', () => {
    const half = { plusMinus: 3, distribution: 'uniform' } as const
    const placed = matchedProject(5, 0.001, { ...TILTED, offsetX: quantityOf(0, 'um', 'estimate', half) })
    const aligned = matchedProject(5, 0.001, {
      gap: quantityOf(0, 'um'),
      aligned: ['offsetX', 'offsetY', 'gap', 'tiltX', 'tiltY', 'roll'],
    })
    expect(runYield(placed, 'matched', { samples: 1000, rankingPoints: null }).yield).toBe(0)
    expect(runYield(aligned, 'matched', { samples: 1000, rankingPoints: null }).greatestDb).toBeLessThan(1e-9)
  })

  test('leaves its residual as sampled: the exponential law holds in the tilted assembly', () => {
    const project = matchedProject(10.4, 20, {
      offsetX: quantityOf(0, 'um', 'estimate', normal(1)),
      offsetY: quantityOf(0, 'um', 'estimate', normal(1)),
      tiltX: quantityOf(0, 'rad', 'estimate', normal(0.02)),
      aligned: ['offsetX', 'offsetY', 'tiltX'],
    })
    const free = { ...project, candidates: isotropic(10.4, 1, 20).candidates }
    const options = { samples: 50_000, seed: 2, rankingPoints: null }
    const residual = runYield(project, 'matched', options)
    // A residual tilt of its own sigma adds its own exponential part; without it the offsets alone remain.
    expect(residual.meanDb).toBeGreaterThan(runYield(free, 'matched', options).meanDb)
    const typed = onlyJoint(
      matchedProject(10.4, 1, { offsetX: quantityOf(0.7, 'um'), aligned: ['offsetX'] }),
      'matched',
    )
    expect(typed.offsetXUm).toBeCloseTo(0.7, 12)
  })

  test('really maximises each sampled assembly: placing it at the sampled errors is never better', () => {
    const errors: Partial<GapElement> = {
      gap: quantityOf(8, 'um'),
      tiltX: quantityOf(0, 'rad', 'estimate', normal(0.03)),
      tiltY: quantityOf(0, 'rad', 'estimate', normal(0.03)),
    }
    const placed = assemblyOf(matchedProject(4, 1, errors), 'matched')
    const aligned = assemblyOf(
      matchedProject(4, 1, { ...errors, aligned: ['offsetX', 'offsetY'] }),
      'matched',
    )
    if (!placed.ok || !aligned.ok) throw new Error('not computed')
    const plan = yieldPlan(demoProject(), 'matched', { samples: 100, seed: 1 })
    let gained = 0
    for (let index = 0; index < 100; index++) {
      const before = placed.value.lossDb(sampleValues(placed.value, plan, index))
      const after = aligned.value.lossDb(sampleValues(aligned.value, plan, index))
      expect(after).toBeLessThanOrEqual(before + 1e-12)
      gained += before - after
    }
    expect(gained).toBeGreaterThan(0.1)
  })
})

test('the movement on bonding comes after alignment and is not undone by it', () => {
  const shift = { x: quantityOf(1, 'um'), y: quantityOf(0, 'um'), z: quantityOf(2, 'um') }
  const joint = onlyJoint(
    matchedProject(10.4, 1, { aligned: ['offsetX', 'offsetY', 'gap'], bondShift: shift }),
    'matched',
  )
  expect(joint.offsetXUm).toBeCloseTo(1, 9)
  expect(joint.gapUm).toBeCloseTo(2, 9)
})

describe('the compiled loss of many samples', () => {
  const leaning = (): Project => {
    const project = demoProject()
    const gap = project.candidates[1]?.chain[3]
    if (gap?.kind === 'gap') {
      gap.nearFaceAngle = quantityOf(8, 'deg', 'data sheet', 0.3)
      gap.farFaceAngle = quantityOf(5, 'deg', 'data sheet', 0.3)
      gap.offsetX = quantityOf(0.3, 'um', 'estimate', 0.5)
    }
    return project
  }
  test.each([
    ['straight faces', demoProject()],
    ['leaning faces', leaning()],
  ])('is the sum of the budget lines to 1e-9 dB, with %s and tabled modes', (_, project) => {
    for (const { id } of project.candidates) {
      const assembly = assemblyOf(project, id)
      const exact = compileCandidate(project, id)
      if (!assembly.ok || !exact.ok) throw new Error('not computed')
      const plan = yieldPlan(project, id, { samples: 50, seed: 8 })
      for (let index = 0; index < 50; index++) {
        const v = sampleValues(assembly.value, plan, index)
        const lines = exact.value.lines.reduce((sum, line) => sum + line.lossDb(v), 0)
        expect(Math.abs(exact.value.lossDb(v) - lines)).toBeLessThan(1e-9)
        expect(Math.abs(assembly.value.compiled.lossDb(v) - lines)).toBeLessThan(1e-6)
      }
    }
  })
})

test('a core whose tolerance leaves the range of the mode solver is refused in words', () => {
  const project = demoProject()
  const [fibre] = project.fibres
  if (fibre?.mode.kind !== 'core') throw new Error('no core')
  fibre.mode.na = quantityOf(0.06, '1', 'data sheet', 0.05)
  const result = assemblyOf(project, 'cleaved-dry')
  expect(result.ok).toBe(false)
  if (!result.ok)
    expect(result.issues[0]?.message).toMatch(/vary V from 0\.15 to 1\.7\d; must stay within 0\.6 to 20/)
})
