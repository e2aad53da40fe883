// What both faces of a ball lens send back into the fibre, by the complex radius of the beam written out here: refraction and mirrors as
// in H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550, the overlap of two round Gaussians as 4 Im q₁ Im q₂ / |q₁ − q₂*|² (from memory).

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { fresnelReflectance, refractiveIndex } from '../../../src/optics/index'
import { familiesProject, relayElement, WAVELENGTH_UM } from '../support/families'

const RADIUS_UM = 500
const GAP_UM = 700
const REFLECTANCE = 0.0025

test('a ball lens returns from each face the power that its mirror sends into the mode', () => {
  const project = familiesProject(relayElement({ frontGap: quantityOf(GAP_UM, 'um') }))
  const lens = project.lenses.find(({ id }) => id === 'lens-1')
  if (lens === undefined) throw new Error('no lens')
  lens.shape = { kind: 'ball', diameter: quantityOf(2 * RADIUS_UM, 'um') }
  const { reflections, guides } = evaluateCandidate(project, 'relay')
  expect(reflections.length + guides.length).toBeGreaterThan(3)
  const [air, glass] = [refractiveIndex('air', WAVELENGTH_UM), refractiveIndex('fused silica', WAVELENGTH_UM)]
  const waistUm = (guides[0]?.exit.mfdXUm ?? Number.NaN) / 2
  type Q = readonly [re: number, im: number]
  const inverse = ([re, im]: Q): Q => [re / (re * re + im * im), -im / (re * re + im * im)]
  const mirrored = (q: Q, focusing: number): Q => {
    const [re, im] = inverse(q)
    return inverse([re - focusing, im])
  }
  /** Share of the returning beam that is in the mode, which would have to come back with its front reversed. */
  const share = (q: Q, back: Q) => (4 * back[1] * q[1]) / ((back[0] + q[0]) ** 2 + (back[1] + q[1]) ** 2)
  const atLens: Q = [GAP_UM, (Math.PI * waistUm ** 2 * air) / WAVELENGTH_UM]
  // Seen from outside the first face is a convex mirror.
  const first = share(atLens, mirrored(atLens, -2 / RADIUS_UM))
  // n / q falls by (n' - n) / R at the face; q goes on by the thickness; the last face is a concave mirror.
  const [re, im] = inverse(atLens)
  const inside = inverse([(air * re - (glass - air) / RADIUS_UM) / glass, (air * im) / glass])
  const atLast: Q = [inside[0] + 2 * RADIUS_UM, inside[1]]
  const last = share(atLast, mirrored(atLast, 2 / RADIUS_UM))
  const face = (label: string) =>
    reflections.find((each) => each.label === `Lens 1, ${label} face`)?.intoNearDb
  const through = (1 - fresnelReflectance({ index1: glass, index2: air }).unpolarised) ** 2
  const dB = (power: number) => -10 * Math.log10(power)
  expect(face('first')).toBeCloseTo(dB(through * REFLECTANCE * first), 6)
  expect(face('last')).toBeCloseTo(dB(through * REFLECTANCE * (1 - REFLECTANCE) ** 2 * last), 6)
})
