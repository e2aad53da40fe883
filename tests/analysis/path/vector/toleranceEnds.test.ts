import fc from 'fast-check'
import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { tryEvaluate } from '../../../../src/analysis/index'
import { demoProject } from '../../../../src/model/index'
import { RULES } from '../../../../src/model/quantity/quantityRules'
import { unitFactor } from '../../../../src/model/quantity/units'
import type { GapElement } from '../../../../src/model/schema/candidate'
import type { Project } from '../../../../src/model/schema/project'
import { anyWithin } from '../../../support/arbitrary'

const ID = 'cleaved-dry'

function complaints(recipe: (draft: Project) => void): string {
  const result = tryEvaluate(produce(demoProject(), recipe), ID)
  return result.ok ? '' : result.issues.map((issue) => issue.message).join('\n')
}

function gapOf(draft: Project): GapElement {
  const gap = draft.candidates[0]?.chain[1]
  if (gap?.kind !== 'gap') throw new Error('the demo has changed')
  return gap
}

describe('a tolerance that reaches beyond what makes sense', () => {
  test('is named instead of computed: a diameter down to nothing, an index below one, a face on edge', () => {
    expect(
      complaints((draft) => {
        const mfd = draft.facets[0]?.mfdX
        if (mfd?.tolerance) mfd.tolerance.plusMinus = mfd.value
      }),
    ).toContain('the tolerance of MFD x of Silicon-nitride facet is too wide: mode-field diameter is 0 µm')
    expect(
      complaints((draft) => {
        gapOf(draft).nearFaceAngle.tolerance = { plusMinus: 100, distribution: 'uniform' }
      }),
    ).toContain('the tolerance of fibre-side face angle is too wide')
  })

  test('down to a core that guides no mode is named too, and a large one on the gap means contact', () => {
    expect(
      complaints((draft) => {
        const mode = draft.fibres[0]?.mode
        if (mode?.kind === 'core') mode.coreDiameter = { ...mode.coreDiameter, value: 2.6 }
      }),
    ).toContain('V')
    expect(
      complaints((draft) => {
        gapOf(draft).gap.tolerance = { plusMinus: 50, distribution: 'uniform' }
      }),
    ).toBe('')
  })

  test('with the steepest face angles that the rules allow, the result is numbers or reasons, never a throw', () => {
    const deg = (rad: number) => (rad * 180) / Math.PI
    for (const near of [RULES.faceAngle.minCore, 0, RULES.faceAngle.maxCore]) {
      for (const far of [RULES.faceAngle.minCore, RULES.faceAngle.maxCore]) {
        const result = tryEvaluate(
          produce(demoProject(), (draft) => {
            gapOf(draft).nearFaceAngle.value = deg(near)
            gapOf(draft).farFaceAngle.value = deg(far)
          }),
          ID,
        )
        if (result.ok) expect(Number.isFinite(result.value.nominalDb)).toBe(true)
        else expect(result.issues.length).toBeGreaterThan(0)
      }
    }
  })
})

describe('whatever the rules allow for a gap', () => {
  const within = (name: 'gap' | 'offset' | 'tilt' | 'roll' | 'faceAngle') => {
    const rule = RULES[name]
    const factor = unitFactor(rule.dimension, rule.unit) ?? 1
    return anyWithin(rule.minCore / factor, rule.maxCore / factor)
  }

  test('the lines, totals and return loss are finite numbers that add up, or the reasons are given', () => {
    const poses = fc.record({
      gap: within('gap'),
      offsetX: within('offset'),
      offsetY: within('offset'),
      tiltX: within('tilt'),
      tiltY: within('tilt'),
      roll: within('roll'),
      nearFaceAngle: within('faceAngle'),
      farFaceAngle: within('faceAngle'),
    })
    fc.assert(
      fc.property(poses, (pose) => {
        const result = tryEvaluate(
          produce(demoProject(), (draft) => {
            const gap = gapOf(draft)
            for (const field of Object.keys(pose) as (keyof typeof pose)[]) {
              gap[field].value = pose[field]
              gap[field].tolerance = undefined
            }
          }),
          ID,
        )
        if (!result.ok) return result.issues.length > 0
        const { lines, nominalDb, rootSumSquare, worstCorner, returnLoss } = result.value
        const sum = lines.reduce((total, line) => total + line.lossDb, 0)
        return (
          [nominalDb, rootSumSquare.lossDb, worstCorner.lossDb, returnLoss.fibre.incoherentDb ?? 0].every(
            Number.isFinite,
          ) && Math.abs(sum - nominalDb) <= 1e-9 * Math.max(1, Math.abs(nominalDb))
        )
      }),
      { numRuns: 150 },
    )
  })
})
