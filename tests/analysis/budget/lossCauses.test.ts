// What may explain a measured loss: standards by hand, limits of what is possible, and the loss curve in closed form.

import { describe, expect, test } from 'vitest'
import { lossCauses } from '../../../src/analysis/budget/lossCauses'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { matchedProject } from '../yield/cases'

function causesOf(project: ReturnType<typeof matchedProject>, id = 'matched') {
  const result = lossCauses(project, id)
  if (!result.ok) throw new Error(result.issues[0]?.message)
  return result.value
}

describe('the causes of a joint', () => {
  const project = matchedProject(10.4, 1, {
    gap: quantityOf(2, 'um', 'estimate', 3),
    offsetX: quantityOf(0.5, 'um', 'estimate', { plusMinus: 0.3, distribution: 'uniform' }),
    tiltX: quantityOf(0, 'mrad', 'estimate', { plusMinus: 4, distribution: 'normal', coverage: 2 }),
  })
  const [facet] = project.facets
  if (facet !== undefined)
    facet.mfdY = quantityOf(1, 'um', 'estimate', { plusMinus: 0.9, distribution: 'normal', coverage: 1 })
  const { causes, held } = causesOf(project)
  const cause = (id: string) => causes.find((each) => each.id === id)

  test('have the standard deviation of their distribution: half width / √3 if uniform, over the coverage if normal', () => {
    // JCGM 100:2008, 4.3.7 and 4.3.4.
    expect(cause('offset x')?.standard).toBeCloseTo(0.3 / Math.sqrt(3), 12)
    expect(cause('tilt x')?.standard).toBeCloseTo(0.002, 12)
  })

  test('reach five standards down, but no gap below contact and no mode below a tenth of a micrometre', () => {
    expect(cause('offset x')?.lower).toBeCloseTo(0.5 - (5 * 0.3) / Math.sqrt(3), 12)
    expect(cause('tilt x')?.lower).toBeCloseTo(-0.01, 12)
    expect(cause('gap')?.lower).toBe(0)
    expect(cause('MFD y of Facet')?.lower).toBe(0.1)
  })

  test('without a tolerance are held by name', () => {
    expect(causes.map(({ id }) => id).toSorted()).toEqual(['MFD y of Facet', 'gap', 'offset x', 'tilt x'])
    expect(held).toEqual(expect.arrayContaining(['offset y', 'tilt y', 'MFD x of Facet']))
    expect(held).not.toContain('offset x')
  })
})

test('the losses along an axis are those of the closed form about the offset of the cause', () => {
  // Equal modes of w = 5.2 µm: 4.342945 (x / w)² dB (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).
  const project = matchedProject(10.4, 1, {
    offsetX: quantityOf(0.5, 'um', 'estimate', 0.3),
    offsetY: quantityOf(-0.25, 'um', 'estimate', 0.3),
  })
  const { lossesDb } = causesOf(project)
  const dB = (x: number, y: number) => (4.342945 * (x * x + y * y)) / 5.2 ** 2
  const [a, b] = lossesDb({ 'offset x': 1 }, 'x', [-2, 3])
  expect(a).toBeCloseTo(dB(-1, -0.25), 6)
  expect(b).toBeCloseTo(dB(4, -0.25), 6)
  expect(lossesDb({}, 'y', [2])[0]).toBeCloseTo(dB(0.5, 1.75), 6)
})

test('of several gaps the last one has causes, and a path without a gap none', () => {
  const { causes, held } = causesOf(demoProject(), 'ssc-chip')
  for (const axis of ['offset x', 'offset y', 'gap'])
    expect([...causes.map(({ id }) => id), ...held].filter((id) => id.startsWith(axis))).toHaveLength(1)
  const relay = lossCauses(demoProject(), 'relay')
  expect(relay.ok ? '' : relay.issues[0]?.message).toContain('has no gap')
})
