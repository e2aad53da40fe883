// Polarisation at angled end faces, bare and coated: TE has its field along the chip's surface, x, so that it is p for a face angled in
// x and s for one angled in y. Fresnel's equations and Airy's sum for one film, written out here (M. Born and E. Wolf, Principles of
// Optics, 7th ed., sect. 1.5.2 and 7.6; from memory).

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { refractiveIndex } from '../../../src/optics/index'
import { familiesProject, WAVELENGTH_UM } from '../support/families'

type Polarisation = 's' | 'p'
const ANGLE = (8 * Math.PI) / 180
const FILM = { index: 1.9, thicknessUm: 0.21 }

/** Power that passes from `n[0]` through a film `n[1]`, or none, into the last medium. */
function transmitted(n: readonly number[], thicknessUm: number, polarisation: Polarisation): number {
  const cos = n.map((index) => Math.sqrt(1 - ((n[0] as number) * Math.sin(ANGLE)) ** 2 / index ** 2))
  const r = (i: number, j: number) => {
    const [a, b] =
      polarisation === 's' ? [n[i]! * cos[i]!, n[j]! * cos[j]!] : [n[j]! * cos[i]!, n[i]! * cos[j]!]
    return (a - b) / (a + b)
  }
  if (n.length === 2) return 1 - r(0, 1) ** 2
  const phase = (4 * Math.PI * n[1]! * thicknessUm * cos[1]!) / WAVELENGTH_UM
  const [first, second] = [r(0, 1), r(1, 2)]
  // |r01 + r12 e^{iφ}|² / |1 + r01 r12 e^{iφ}|²
  const both = 2 * first * second * Math.cos(phase)
  return 1 - (first ** 2 + second ** 2 + both) / (1 + (first * second) ** 2 + both)
}

test.each([
  ['bare', 'x'],
  ['bare', 'y'],
  ['coated', 'x'],
  ['coated', 'y'],
] as const)('the light of each polarisation passes a %s face angled in %s by its own law', (kind, plane) => {
  const project = familiesProject()
  const gap = project.candidates.find(({ id }) => id === 'cleaved-dry')?.chain[1]
  if (gap?.kind !== 'gap') throw new Error('no gap')
  gap.nearFaceAngle = quantityOf(8, 'deg')
  gap.facePlane = plane
  if (kind === 'coated') {
    gap.nearCoating = {
      kind: 'films',
      films: [
        {
          index: { kind: 'value', index: quantityOf(FILM.index, '1') },
          thickness: quantityOf(FILM.thicknessUm, 'um'),
        },
      ],
    }
  }
  const { teDb, tmDb } = evaluateCandidate(project, 'cleaved-dry').polarisation
  const [glass, air] = [refractiveIndex('fused silica', WAVELENGTH_UM), refractiveIndex('air', WAVELENGTH_UM)]
  const layers = kind === 'coated' ? [glass, FILM.index, air] : [glass, air]
  const [te, tm]: readonly Polarisation[] = plane === 'x' ? ['p', 's'] : ['s', 'p']
  const ratioDb =
    10 * Math.log10(transmitted(layers, FILM.thicknessUm, te!) / transmitted(layers, FILM.thicknessUm, tm!))
  expect(Math.abs(ratioDb)).toBeGreaterThan(0.003)
  expect(tmDb - teDb).toBeCloseTo(ratioDb, 9)
})
