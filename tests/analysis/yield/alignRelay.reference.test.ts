import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { type Assembly, assemblyOf } from '../../../src/analysis/yield/assembly'
import { assumptionsOf } from '../../../src/analysis/yield/assumptions'
import { runBlocks } from '../../../src/analysis/yield/runBlocks'
import { parseProject, projectText } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { RelayElement } from '../../../src/model/schema/candidate'
import { askLoss } from '../../support/askLoss'
import { familiesProject, relayElement } from '../support/families'
import { normal } from './cases'

/** In focus: the image of the demo's fibre lies 323.8 um behind lens 2. */
const base = relayElement({ backGap: quantityOf(323.8, 'um') })
const project = (change: Partial<RelayElement> = {}) => familiesProject({ ...base, ...change })
/** Loss of the joint alone: apertures are ignored in the search. */
const jointDb = (change: Partial<RelayElement>) => {
  const { lines } = evaluateCandidate(project(change), 'relay')
  const own = lines.filter((line) => line.elementId === 'relay' && line.kind !== 'clipping')
  return own.reduce((sum, line) => sum + line.lossDb, 0)
}
const off: Partial<RelayElement> = {
  lens1: { ...base.lens1, offsetX: quantityOf(3, 'um'), tiltY: quantityOf(0.5, 'deg') },
  lens2: { ...base.lens2, offsetX: quantityOf(-2, 'um'), offsetY: quantityOf(1.5, 'um') },
}

describe('aligning through misaligned lenses', () => {
  test('in offsets and tilts together recovers all the loss of the lenses', () => {
    const best = jointDb({})
    expect(jointDb(off)).toBeGreaterThan(best + 1)
    expect(jointDb({ ...off, aligned: ['offsetX', 'offsetY', 'tiltX', 'tiltY'] })).toBeCloseTo(best, 9)
  })

  test('in x alone ends where no entered offset is better', () => {
    const aligned = jointDb({ ...off, aligned: ['offsetX'] })
    const typed = (um: number) => jointDb({ ...off, offsetX: quantityOf(um, 'um') })
    const steps = Array.from({ length: 81 }, (_, i) => typed(-20 + 0.5 * i))
    expect(aligned).toBeLessThan(Math.min(...steps))
    expect(aligned).toBeGreaterThan(Math.min(...steps) - 0.05)
  })

  test('leaves the residual, and does not see the movement on fixing', () => {
    const none = quantityOf(0, 'um')
    const residual = jointDb({ offsetX: quantityOf(1.2, 'um') })
    const all = { ...off, aligned: ['offsetX', 'offsetY', 'tiltX', 'tiltY'] } as const
    expect(jointDb({ ...all, aligned: [...all.aligned], offsetX: quantityOf(1.2, 'um') })).toBeCloseTo(
      residual,
      9,
    )
    const bondShift = { x: quantityOf(1.2, 'um'), y: none, z: none }
    expect(jointDb({ ...all, aligned: [...all.aligned], bondShift })).toBeCloseTo(residual, 9)
  })

  test('raises the yield of assemblies whose lenses are placed with a spread', () => {
    const spread: Partial<RelayElement> = {
      lens1: { ...base.lens1, offsetX: quantityOf(0, 'um', 'estimate', normal(2)) },
    }
    const assembly = (change: Partial<RelayElement>) => {
      const own = project(change)
      askLoss(own, { limitDb: evaluateCandidate(project(), 'relay').nominalDb + 0.5 })
      const result = assemblyOf(own, 'relay')
      if (!result.ok) throw new Error('not computed')
      return result.value
    }
    const [placed, aligned] = [assembly(spread), assembly({ ...spread, aligned: ['offsetX', 'offsetY'] })]
    const passed = (each: Assembly) =>
      runBlocks(each, { samples: 1024, seed: 1, method: 'sobol' }, 0, 1).passed / 1024
    expect(passed(aligned)).toBeGreaterThan(passed(placed) + 0.05)
    expect(assumptionsOf(aligned).join(' ')).toContain('Actively aligned on power: offset x, offset y')
  })
})

test('a relay with its alignment and movement goes through a file unchanged', () => {
  const bondShift = { x: quantityOf(0, 'um'), y: quantityOf(0, 'um'), z: quantityOf(0, 'um') }
  const own = project({ aligned: ['tiltX'], bondShift })
  expect(parseProject(JSON.parse(projectText(own))).candidates.at(-1)?.chain[1]).toEqual(
    own.candidates.at(-1)?.chain[1],
  )
})
