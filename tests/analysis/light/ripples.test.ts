// Interference across a gap of known index: phase 4 pi n g / wavelength, and an etalon of two bare faces by Airy's formula.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { matchedProject } from '../yield/cases'

const [GUIDE, FACET, MEDIUM] = [1.45, 1.9, 1.3]
const PER_KELVIN = -3e-4
const value = (index: number) => ({ kind: 'value', index: quantityOf(index, '1') }) as const

function rippleOf(gapUm: number, change: (project: Project) => void = () => undefined) {
  const project = matchedProject(60, 2, { mediumId: 'fluid', gap: quantityOf(gapUm, 'um') })
  project.media = [
    ...project.media,
    {
      id: 'fluid',
      name: 'Fluid',
      state: 'gel',
      index: value(MEDIUM),
      thermoOptic: quantityOf(PER_KELVIN, '1/K'),
    },
  ]
  for (const fibre of project.fibres) fibre.index = value(GUIDE)
  for (const facet of project.facets) facet.index = value(FACET)
  change(project)
  const { ripples } = evaluateCandidate(project, 'matched')
  return ripples
}

describe('the ripple of a gap', () => {
  const [ripple] = rippleOf(20)

  test('repeats after half a wavelength of gap, after wavelength^2 / 2 n g, and as the index changes', () => {
    expect(ripple?.periodGapUm).toBeCloseTo(1.55 / 2 / MEDIUM, 9)
    expect(ripple?.periodWavelengthUm).toBeCloseTo(1.55 ** 2 / (2 * MEDIUM * 20), 5)
    expect(ripple?.periodTemperatureK).toBeCloseTo(1.55 / (2 * 20 * Math.abs(PER_KELVIN)), 2)
  })

  test('has the size and the phase of two faces that reflect r1 and r2: Airy', () => {
    // The indices rise on the way: at a minimum of transmission of a quarter wave both reflections have one sign.
    const r = ((GUIDE - MEDIUM) / (GUIDE + MEDIUM)) * ((FACET - MEDIUM) / (FACET + MEDIUM))
    const peakToPeak = 20 * Math.log10((1 + r) / (1 - r))
    expect(ripple?.peakToPeakDb).toBeCloseTo(peakToPeak, 3)
    expect((ripple?.crestGainDb ?? 0) + (ripple?.troughLossDb ?? 0)).toBeCloseTo(peakToPeak, 3)
    const periods = (2 * MEDIUM * 20) / 1.55
    const nearest = periods - Math.round(periods)
    // Both faces lie between a denser guide and the medium: their waves add up after whole periods.
    expect(Math.abs(ripple?.fromCrest ?? 1)).toBeCloseTo(Math.abs(nearest), 2)
    const single = 1 / (1 + r * r - 2 * r * Math.cos(2 * Math.PI * periods))
    expect(ripple?.hereDb).toBeCloseTo(-10 * Math.log10(single), 2)
  })

  test('at contact has the period of a thin gap and moves with nothing; a matched medium has none', () => {
    const [touching] = rippleOf(0)
    expect(touching?.periodGapUm).toBeCloseTo(1.55 / 2 / MEDIUM, 9)
    expect([touching?.periodWavelengthUm, touching?.periodTemperatureK]).toEqual([null, null])
    const matched = rippleOf(20, (project) => {
      for (const fibre of project.fibres) fibre.index = value(MEDIUM)
    })
    expect(matched).toEqual([])
  })
})
