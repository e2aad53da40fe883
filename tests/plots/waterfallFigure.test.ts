import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/project/demoProject'
import { waterfallFigure } from '../../src/plots/waterfallFigure'

const THEME = { ink: '#000', rule: '#ccc', accent: '#00f', font: 'serif' }
const LINES = [
  { id: 'a', label: 'Mode mismatch', lossDb: 3 },
  { id: 'b', label: 'Combined', lossDb: -0.5 },
  { id: 'c', label: 'Fresnel', lossDb: 0.25 },
]

describe('the budget in steps', () => {
  test('starts each bar where the one before ended, and the total at nothing', () => {
    const [bars] = waterfallFigure(LINES, THEME).data
    expect(bars?.base).toEqual([0, 3, 2.5, 0])
    expect(bars?.x).toEqual([3, -0.5, 0.25, 2.75])
  })

  test('says the sum and the largest line, and says so where there is none', () => {
    expect(waterfallFigure(LINES, THEME).sentence).toBe(
      '3 lines add up to 2.75 dB; the largest is Mode mismatch with 3.00 dB.',
    )
    expect(waterfallFigure([], THEME).sentence).toBe('The budget has no lines.')
  })

  test('gives lines of one name a place each', () => {
    const twins = [...LINES, { id: 'd', label: 'Fresnel', lossDb: 0.25 }]
    const places = waterfallFigure(twins, THEME).data[0]?.y
    expect(new Set(places as readonly string[]).size).toBe(5)
  })

  test('ends at the nominal loss of every candidate of the demo', () => {
    const project = demoProject()
    for (const { id } of project.candidates) {
      const { lines, nominalDb } = evaluateCandidate(project, id)
      const total = waterfallFigure(lines, THEME).table.rows.at(-1)?.[1]
      expect(total).toBeCloseTo(nominalDb, 9)
    }
  })
})
