// A ground tip between its few solved points, on an elliptical mode, and in front of a relay, against tips that are solved anew.

import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../../src/analysis/path/compileCandidate'
import { tipFits } from '../../../../src/analysis/path/guides/tipFits'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { Project } from '../../../../src/model/schema/project'
import { fitTip, type LensedTip, lossDb } from '../../../../src/optics/index'
import { familiesProject, relayElement } from '../../support/families'
import { um } from '../../support/realRelays'

const tip = (change: Partial<LensedTip> = {}): LensedTip => ({
  ...{ modeRadiusUm: 5.2, tipRadiusUm: 14, fibreIndex: 1.45, mediumIndex: 1, wavelengthUm: 1.55 },
  ...change,
})
const FIELDS = ['spotRadiusUm', 'workingDistanceUm', 'overlap', 'transmission'] as const

describe('a tip near one that is solved', () => {
  const fits = tipFits(tip())
  test.each([
    [{}, 9],
    [{ tipRadiusUm: 14 * 1.12 }, 9],
    [{ tipRadiusUm: 14 / 1.12 }, 9],
    [{ modeRadiusUm: 5.2 * 1.12 }, 9],
    [{ modeRadiusUm: 5.2 / 1.12 }, 9],
    // Between the points, and off both at once: parabolas to a part in a few thousand.
    [{ tipRadiusUm: 14.7 }, 3],
    [{ modeRadiusUm: 5 }, 3],
    [{ tipRadiusUm: 13.7, modeRadiusUm: 5.3 }, 3],
    // Further away it is solved anew.
    [{ tipRadiusUm: 16 }, 9],
    [{ modeRadiusUm: 4.5 }, 9],
  ] as const)('is what it would be by itself: %o', (change, digits) => {
    const [found, exact] = [fits.at(tip(change)), fitTip(tip(change))]
    for (const field of FIELDS) expect(found[field] / exact[field], field).toBeCloseTo(1, digits)
  })
})

/** The demo-like families with an elliptical fibre behind the ground tip, without tolerances. */
function tipped(change: (project: Project) => void = () => undefined): Project {
  const project = familiesProject(relayElement({ device: undefined, frontGap: um(1010) }))
  project.requirements.wavelength = quantityOf(1550, 'nm')
  for (const fibre of project.fibres) {
    fibre.mode = { kind: 'mfd', mfdX: um(10.4), mfdY: um(8) }
    fibre.index = { kind: 'value', index: quantityOf(1.45, '1') }
  }
  change(project)
  return JSON.parse(JSON.stringify(project, (key, value) => (key === 'tolerance' ? undefined : value)))
}
function pathOf(project: Project, id: string) {
  const result = compileCandidate(project, id)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  return result.value
}

describe('a tip on an elliptical mode', () => {
  const path = pathOf(tipped(), 'ground-tip')
  const v = path.nominal
  const exit = path.guides[0]!.model.exit
  const medium = path.joins[0]!.view?.(v).joint.index ?? Number.NaN
  const [x, y] = [5.2, 4].map((modeRadiusUm) => fitTip(tip({ modeRadiusUm, mediumIndex: medium })))
  if (x === undefined || y === undefined) throw new Error('two fits')

  test('focuses each axis as a round mode of that size, and loses the mean of both', () => {
    expect([exit.mfdXUm(v), exit.mfdYUm(v)]).toEqual(
      [2 * x.spotRadiusUm, 2 * y.spotRadiusUm].map((each) => expect.closeTo(each, 6)),
    )
    expect([exit.waistXUm(v), exit.waistYUm(v)]).toEqual(
      [x.workingDistanceUm, y.workingDistanceUm].map((each) => expect.closeTo(each, 6)),
    )
    const real = exit.tip?.real
    expect(real?.clippingDb(v)).toBeCloseTo((lossDb(x.transmission) + lossDb(y.transmission)) / 2, 9)
    expect(real?.aberrationDb(v)).toBeCloseTo(
      (lossDb(x.overlap / x.transmission) + lossDb(y.overlap / y.transmission)) / 2,
      9,
    )
  })

  test('in front of thin lenses adds its aberration to the relay once', () => {
    const relay = pathOf(
      tipped((project) => {
        const design = project.candidates.find(({ id }) => id === 'relay')!
        design.chain = design.chain.map((each) =>
          each.kind === 'fibre' ? { ...each, tipId: 'tip-ground' } : each,
        )
      }),
      'relay',
    )
    const line = relay.lines.find(({ kind }) => kind === 'aberration')
    const own = relay.guides[0]!.model.exit.tip?.real?.aberrationDb(relay.nominal) ?? Number.NaN
    expect(own).toBeGreaterThan(0.01)
    expect(line?.lossDb(relay.nominal)).toBeCloseTo(own, 12)
    const sum = relay.lines.reduce((total, { lossDb: of }) => total + of(relay.nominal), 0)
    expect(relay.lossDb(relay.nominal)).toBeCloseTo(sum, 9)
  })
})

describe('what is said about a ground tip', () => {
  const said = (radiusUm: number) => {
    const project = tipped((each) => {
      for (const fibre of each.fibres) fibre.mode = { kind: 'mfd', mfdX: um(10.4) }
      for (const converter of each.converters)
        if (converter.kind === 'lensed tip' && converter.tip.kind === 'radius')
          converter.tip.radius = um(radiusUm)
    })
    return pathOf(project, 'ground-tip').notes.find(({ message }) => message.includes('paraxial optics'))
  }
  test('names both foci, and cautions by its aberration and below 7 um', () => {
    expect(said(40)?.caution).toBeUndefined()
    expect(said(40)?.message).toMatch(
      /: best-fit Gaussian [\d.]+ µm at [\d.]+ µm by the integral over the sphere; paraxial optics would give [\d.]+ µm at [\d.]+ µm\.$/,
    )
    expect(said(9)).toMatchObject({ caution: true })
    expect(said(9)?.message).toMatch(/short of the paraxial focus, and spherical aberration adds \d\.\d\d dB/)
    expect(said(9)?.message).not.toContain('Below a radius')
    expect(said(7)?.message).not.toContain('Below a radius')
    expect(said(6.9)?.message).toContain('Below a radius of 7 µm the integral itself is unreliable')
  })

  test('is refused where the fibre has no higher index than the gap', () => {
    const project = tipped((each) => {
      for (const fibre of each.fibres) fibre.index = { kind: 'value', index: quantityOf(1.0001, '1') }
    })
    const result = compileCandidate(project, 'ground-tip')
    expect(result.ok ? '' : result.issues[0]?.message).toContain('cannot focus')
  })
})
