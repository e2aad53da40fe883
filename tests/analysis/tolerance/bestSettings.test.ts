import { describe, expect, onTestFinished, test } from 'vitest'
import { fitElsewhere } from '../../../src/analysis/field/fit/knownFits'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { bestSettings } from '../../../src/analysis/tolerance/bestSettings'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { refractiveIndex, tipEfficiency, tipSpectrum } from '../../../src/optics/index'
import { familiesProject, relayElement, WAVELENGTH_UM } from '../support/families'
import { realRelayProject, relays } from '../support/realRelays'

function bestOf(project: Project, id: string, change: (chain: Candidate['chain']) => void = () => {}) {
  const copy = structuredClone(project)
  const candidate = copy.candidates.find((each) => each.id === id)
  if (candidate !== undefined) change(candidate.chain)
  const compiled = compileCandidate(copy, id)
  if (!compiled.ok) throw new Error(compiled.issues[0]?.message)
  const best = bestSettings(compiled.value)
  const of = (name: string) => best.settings.find((each) => each.name === name)?.best ?? Number.NaN
  return { ...best, of, compiled: compiled.value }
}

describe('the best settings', () => {
  test('put a lensed tip at its working distance, and back on the axis', () => {
    const best = bestOf(familiesProject(), 'ground-tip', (chain) => {
      const gap = chain[1]
      if (gap?.kind !== 'gap') return
      gap.pinned = []
      gap.gap = quantityOf(4, 'um')
      gap.offsetX = quantityOf(2, 'um')
    })
    const tip = best.compiled.joins[0]?.view?.(best.compiled.nominal).near.tip
    const spectrum = tipSpectrum({
      modeRadiusUm: (tip?.modeMfdXUm ?? 0) / 2,
      tipRadiusUm: 14,
      fibreIndex: refractiveIndex('fused silica', WAVELENGTH_UM),
      mediumIndex: refractiveIndex('air', WAVELENGTH_UM),
      wavelengthUm: WAVELENGTH_UM,
    })
    const centred = { offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
    const coupled = (gapUm: number) =>
      tipEfficiency(spectrum, { ...centred, receiverMfdXUm: 3.4, receiverMfdYUm: 2.8, gapUm })
    const found = best.of('gap')
    expect(coupled(found)).toBeGreaterThan(coupled(found + 0.3))
    expect(coupled(found)).toBeGreaterThan(coupled(found - 0.3))
    expect(best.of('offsetX')).toBeCloseTo(0, 3)
  })

  test('bring plain faces to contact, unless the gap is pinned', () => {
    const free = bestOf(familiesProject(), 'cleaved-dry', (chain) => {
      if (chain[1]?.kind === 'gap') chain[1].pinned = []
    })
    expect(free.of('gap')).toBe(0)
    const pinned = bestOf(familiesProject(), 'cleaved-dry')
    expect(pinned.of('gap')).toBe(3)
    expect(pinned.settings.find((each) => each.name === 'gap')?.pinned).toBe(true)
  })

  test('put both lenses of a relay in focus: the waist on the facet, the beam parallel', () => {
    const best = bestOf(familiesProject(), 'relay')
    expect(best.nowDb).toBeGreaterThan(20)
    expect(best.bestDb).toBeLessThan(1)
    // Thin lenses: the distances are the focal lengths, but for the Rayleigh range of the parallel beam.
    expect(best.of('frontGap')).toBeGreaterThan(950)
    expect(best.of('frontGap')).toBeLessThan(1050)
    expect(best.of('backGap')).toBeGreaterThan(299)
    expect(best.of('backGap')).toBeLessThan(304)
  })

  // zc = f^2 z0 / (x^2 + z0^2), Saleh & Teich, eq. 3.2-9; parallel over two Rayleigh ranges, Kogelnik & Li, eq. 20.
  test('keep the beam of a relay parallel where lens 1 can, though an image in between would fit the modes better', () => {
    const best = bestOf(familiesProject(relayElement({ lens2Id: 'lens-1' })), 'relay')
    const [view] = best.compiled.joins.flatMap((join) => join.relay?.(best.compiled.nominal) ?? [])
    const z0 =
      (Math.PI * ((view?.near.mfdXUm ?? 0) / 2) ** 2 * refractiveIndex('air', WAVELENGTH_UM)) / WAVELENGTH_UM
    const zc = (1000 ** 2 * z0) / ((best.of('frontGap') - 1000) ** 2 + z0 ** 2)
    expect(zc).toBeGreaterThan(2500)
    expect(zc).toBeLessThan(2560)
  })

  test('follow with the other distance where one is pinned', () => {
    const relay = relayElement({ frontGap: quantityOf(1010, 'um'), pinned: ['frontGap'] })
    const best = bestOf(familiesProject(relay), 'relay')
    expect(best.of('frontGap')).toBe(1010)
    const [view] = best.compiled.joins.flatMap((join) => join.view?.(best.compiled.nominal) ?? [])
    expect(best.of('backGap')).toBeCloseTo(view?.joint.waistXUm ?? 0, 0)
  })

  test('of real lenses that lie on one axis need no fit: to either side they lose the same', () => {
    const [row] = relays
    if (row === undefined) throw new Error('a relay')
    const real = realRelayProject(row)
    let asked = 0
    onTestFinished(fitElsewhere(() => void asked++))
    const onAxis = bestOf(real, 'relay')
    expect(onAxis.settings.filter(({ name }) => /^(offset|tilt)/.test(name)).map(({ best }) => best)).toEqual(
      [0, 0, 0, 0],
    )
    expect(asked).toBe(0)
    const beside = bestOf(real, 'relay', (chain) => {
      if (chain[1]?.kind === 'relay') chain[1].offsetX = quantityOf(1, 'um')
    })
    expect(beside.of('offsetX')).toBeCloseTo(0, 2)
  })

  test('tilt a fibre in front of an angled face by the angle of Snell’s law', () => {
    const best = bestOf(familiesProject(), 'cleaved-dry', (chain) => {
      const gap = chain[1]
      if (gap?.kind !== 'gap') return
      gap.nearFaceAngle = quantityOf(8, 'deg')
      gap.pointing = 'parallel'
    })
    const index = refractiveIndex('fused silica', WAVELENGTH_UM)
    const face = (8 * Math.PI) / 180
    const air = refractiveIndex('air', WAVELENGTH_UM)
    expect(best.of('tiltX')).toBeCloseTo(face - Math.asin((index * Math.sin(face)) / air), 3)
  })
})
