import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { freeingSteps, partFits, writeFreedPart } from '../../../src/analysis/sizing/partFits'
import { bestSettings } from '../../../src/analysis/tolerance/bestSettings'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import type { PartSettingName } from '../../../src/model/words/candidate'
import { finish } from '../../../src/numerics/steps'
import { familiesProject, relayElement, WAVELENGTH_UM } from '../support/families'

const freedParts = (project: Project, designId: string) => finish(freeingSteps(project, designId))

function compiledOf(project: Project, id: string) {
  const result = compileCandidate(project, id)
  if (!result.ok) throw new Error(result.issues[0]?.message)
  return result.value
}

function freed(project: Project, id: string, name: PartSettingName): Project {
  const joint = (chain: Candidate['chain']) => chain.find(({ kind }) => kind === 'gap' || kind === 'relay')
  const element = joint(project.candidates.find((each) => each.id === id)?.chain ?? [])
  if (element?.kind === 'gap' || element?.kind === 'relay') element.freed = [name]
  return project
}

const round = (project: Project, mfdUm: number) => {
  const [fibre] = project.fibres
  if (fibre !== undefined) fibre.mode = { kind: 'mfd', mfdX: quantityOf(mfdUm, 'um') }
  return project
}

describe('the part that fits the far mode best', () => {
  test('is the circle of the geometric mean for a tip before an ellipse', () => {
    const project = familiesProject()
    const [fit] = partFits(project, compiledOf(project, 'spot-tip'))
    // 2 w wx / (w^2 + wx^2) times the same for y is greatest at w^2 = wx wy (Marcuse's mismatch, minimum by hand).
    expect(fit).toMatchObject({ name: 'spot', now: 3.1, free: false })
    expect(fit?.best).toBeCloseTo(Math.sqrt(3.4 * 2.8), 12)
  })

  test('is the magnification that images the fibre onto that circle', () => {
    const project = round(familiesProject(relayElement({ frontGap: quantityOf(1000, 'um') })), 10)
    const [fit] = partFits(project, compiledOf(project, 'relay'))
    expect(fit?.name).toBe('magnification')
    expect(fit?.best).toBeCloseTo(Math.sqrt(3.4 * 2.8) / 10, 9)
  })

  test('is the output mode of a taper chip at the chip, and nothing at the plain fibre before it', () => {
    const project = familiesProject()
    const fits = partFits(project, compiledOf(project, 'taper'))
    expect(fits.map(({ label }) => label)).toEqual(['output mode of Glass taper chip'])
  })

  test('is of no joint whose loss is an entered value', () => {
    const project = familiesProject()
    const gap = project.candidates.find(({ id }) => id === 'spot-tip')?.chain[1]
    if (gap?.kind === 'gap') gap.typedLoss = quantityOf(0.4, 'dB')
    expect(partFits(project, compiledOf(project, 'spot-tip'))).toEqual([])
  })
})

describe('a freed part', () => {
  test('takes the spot that fits, and loses less by it', () => {
    const project = freed(familiesProject(), 'spot-tip', 'spot')
    const before = compiledOf(project, 'spot-tip')
    const { project: sized, changed } = freedParts(project, 'spot-tip')
    expect(changed).toHaveLength(1)
    expect(changed[0]?.best).toBeCloseTo(Math.sqrt(3.4 * 2.8), 3)
    const after = compiledOf(sized, 'spot-tip')
    expect(after.lossDb(after.nominal)).toBeLessThan(before.lossDb(before.nominal))
    // The project that was asked about has not been touched.
    expect(project.converters.find(({ id }) => id === 'tip-spot')).toMatchObject({
      tip: { spotX: { value: 3.1 } },
    })
  })

  test('brings a relay to its best magnification by lens 2', () => {
    // With the end face held at the focus of lens 1 the distances cannot make up for a wrong lens 2.
    const relay = relayElement({ frontGap: quantityOf(1000, 'um'), device: undefined, pinned: ['frontGap'] })
    const tooLong = round(familiesProject(relay), 10)
    const [, lens2] = tooLong.lenses
    if (lens2 !== undefined) lens2.shape = { kind: 'thin', focalLength: quantityOf(400, 'um') }
    const unsized = bestSettings(compiledOf(tooLong, 'relay'))
    const project = freed(tooLong, 'relay', 'magnification')
    const { project: sized, changed } = freedParts(project, 'relay')
    // f2 = f1 times the ratio of the modes, longer by sqrt(1 + (d / zR)^2): the parallel beam's waist lies d before
    // the focus of lens 2, and its Rayleigh range is f1^2 over that of the fibre (Kogelnik & Li 1966, lens law).
    const afocal = 1000 * (Math.sqrt(3.4 * 2.8) / 10)
    const rayleigh = 1000 ** 2 / ((Math.PI * 5 ** 2) / WAVELENGTH_UM)
    const expected = afocal * Math.hypot(1, (5000 - 1000 - afocal) / rayleigh)
    expect((changed[0]?.best ?? 0) / expected).toBeCloseTo(1, 3)
    expect(bestSettings(compiledOf(sized, 'relay')).bestDb).toBeLessThan(unsized.bestDb - 0.1)
    for (const part of changed) writeFreedPart(project, part)
    expect(project.lenses[1]?.shape).toEqual(sized.lenses[1]?.shape)
  })

  test('is none where both lenses are one part: the magnification stays 1', () => {
    const project = freed(familiesProject(relayElement({ lens2Id: 'lens-1' })), 'relay', 'magnification')
    const [fit] = partFits(project, compiledOf(project, 'relay'))
    expect(fit).toMatchObject({ dimension: null, free: false })
    expect(freedParts(project, 'relay')).toEqual({ project, changed: [] })
  })
})
