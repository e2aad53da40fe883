// What every family says about itself before its budget is believed, and laws that hold whatever the numbers.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate, tryEvaluate } from '../../src/analysis/index'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { RelayElement } from '../../src/model/schema/candidate'
import type { LensShapeEntry } from '../../src/model/schema/parts'
import type { Project } from '../../src/model/schema/project'
import { uniform } from '../support/arbitrary'
import { familiesProject, relayElement, WAVELENGTH_UM } from './support/families'
import { carried, coupled, mode, refracted, type SampledField } from './support/sampledField'

const cautionsOf = (project: Project, id: string) =>
  evaluateCandidate(project, id)
    .validity.filter((note) => note.caution === true)
    .map(({ message }) => message)

const notesOf = (project: Project, id: string) =>
  evaluateCandidate(project, id).validity.map(({ message }) => message)

const inFocus = { frontGap: quantityOf(1000, 'um'), backGap: quantityOf(301, 'um') }

function withSplice(lossDb: number): Project {
  const project = familiesProject()
  const splice = project.candidates.find(({ id }) => id === 'high-na-bonded')?.chain[1]
  if (splice?.kind === 'splice') splice.loss = quantityOf(lossDb, 'dB')
  return project
}

describe('an entered splice loss', () => {
  test('is shown with the abrupt mismatch of the two modes as its bound', () => {
    const project = withSplice(0.1)
    const abrupt = withSplice(0.1)
    const splice = abrupt.candidates.find(({ id }) => id === 'high-na-bonded')?.chain[1]
    if (splice?.kind === 'splice') splice.basis = 'abrupt'
    const bound = evaluateCandidate(abrupt, 'high-na-bonded').lines.find(
      ({ kind }) => kind === 'splice',
    )?.lossDb
    expect(notesOf(project, 'high-na-bonded').join()).toContain(
      `entered value, 0.10 dB; without core diffusion the mode mismatch would be ${bound?.toFixed(2)} dB`,
    )
    expect(cautionsOf(project, 'high-na-bonded')).toEqual([])
  })

  test('above that bound is a caution', () => {
    expect(cautionsOf(withSplice(9), 'high-na-bonded').join()).toContain('exceeds that of an abrupt splice')
  })
})

describe('a lensed tip', () => {
  // Spots of 2 to 6 um at 5 to 20 um: common practice, no source.
  test('with a spot or a working distance that tips are not made with is a caution', () => {
    const project = familiesProject()
    const tip = project.converters.find(({ id }) => id === 'tip-spot')
    if (tip?.kind !== 'lensed tip' || tip.tip.kind !== 'spot') throw new Error('no tip')
    expect(cautionsOf(project, 'spot-tip')).toEqual([])
    tip.tip.spotX = quantityOf(1.2, 'um')
    tip.tip.workingDistance = quantityOf(60, 'um')
    expect(cautionsOf(project, 'spot-tip')).toMatchObject([
      expect.stringContaining('a spot of 1.2 µm; usual values are 2 to 6 µm'),
      expect.stringContaining('a working distance of 60 µm; usual values are 5 to 20 µm'),
    ])
  })

  test('drifts with its holder: the drift is a tolerance of its own name', () => {
    const project = familiesProject()
    const gap = project.candidates.find(({ id }) => id === 'spot-tip')?.chain[1]
    if (gap?.kind !== 'gap') throw new Error('no gap')
    const drift = quantityOf(0, 'um', 'estimate', 0.3)
    gap.bondShift = { x: drift, y: drift, z: drift }
    const labels = evaluateCandidate(project, 'spot-tip').rootSumSquare.contributions.map(
      ({ label }) => label,
    )
    expect(labels).toEqual(expect.arrayContaining(['holder drift x', 'holder drift y', 'holder drift z']))
  })
})

describe('a relay', () => {
  const relayProject = (change: Partial<RelayElement> = {}) =>
    familiesProject(relayElement({ ...inFocus, device: undefined, ...change }))

  test('for several channels needs lenses and a device that fit into the row', () => {
    const cautions = cautionsOf(familiesProject(relayElement(inFocus)), 'relay')
    expect(cautions).toMatchObject([
      expect.stringContaining('12 single lenses do not fit side by side'),
      expect.stringContaining('12 single lenses do not fit side by side'),
      expect.stringContaining(
        'neither spans the row of 12 channels, 1397 µm, nor fits into their pitch of 127 µm',
      ),
    ])
    const single = familiesProject(relayElement(inFocus))
    single.requirements.channels = 1
    expect(cautionsOf(single, 'relay')).toEqual([])
  })

  test('as an array needs apertures within its pitch', () => {
    const project = relayProject()
    for (const lens of project.lenses) {
      lens.pitch = quantityOf(250, 'um')
      lens.clearAperture = quantityOf(260, 'um')
    }
    expect(cautionsOf(project, 'relay').join()).toContain('neighbouring lenses of the array would overlap')
    for (const lens of project.lenses) lens.clearAperture = quantityOf(240, 'um')
    expect(cautionsOf(project, 'relay').join()).not.toContain('overlap')
  })

  test('whose focal length is too short for the working distance is refused, and the lens is named', () => {
    const project = relayProject()
    for (const lens of project.lenses) lens.shape = { kind: 'thin', focalLength: quantityOf(8, 'um') }
    const result = tryEvaluate(project, 'relay')
    const text = result.ok ? '' : (result.issues[0]?.message ?? '')
    expect(text).toContain('has its focus at 8.0 µm, and the end face is at 1000.0 µm')
    expect(text).toContain('its focal length is too short for that working distance')
  })

  test('whose stretch is longer than twice the Rayleigh range says that the beam is not parallel over it', () => {
    const project = relayProject({ stretch: quantityOf(80, 'mm') })
    expect(notesOf(project, 'relay').join()).toContain('longer than twice the Rayleigh range')
    expect(notesOf(relayProject(), 'relay').join()).not.toContain('longer than twice')
  })

  test('meets the requirement of a collimated section only where the beam is parallel over the stretch', () => {
    const statusAt = (millimetres: number) => {
      const project = relayProject({ stretch: quantityOf(millimetres, 'mm') })
      project.requirements.collimatedSection = true
      const verdicts = checkRequirements(project, evaluateCandidate(project, 'relay'))
      return verdicts.find(({ id }) => id === 'collimated')?.status
    }
    expect(statusAt(5)).toBe('met')
    expect(statusAt(80)).toBe('not met')
  })
})

const JOINT_KINDS = new Set(['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll', 'combined'])
function jointDb(project: Project): number {
  const compiled = compileCandidate(project, 'relay')
  if (!compiled.ok) throw new Error('the relay compiles')
  const { lines, nominal } = compiled.value
  return lines
    .filter((line) => JOINT_KINDS.has(line.kind))
    .reduce((sum, line) => sum + line.lossDb(nominal), 0)
}

/** A relay between two flat modes in vacuum, with the lenses of the given shapes and indices. */
function relayBetween(
  modes: { readonly near: readonly [number, number]; readonly far: readonly [number, number] },
  relay: RelayElement,
  lenses: readonly (readonly [LensShapeEntry, number])[],
): Project {
  const project = familiesProject(relay)
  const [fibre] = project.fibres
  const [facet] = project.facets
  const gas = project.media.find(({ id }) => id === 'air')
  if (fibre === undefined || facet === undefined || gas === undefined) throw new Error('no parts')
  fibre.mode = { kind: 'mfd', mfdX: quantityOf(modes.near[0], 'um'), mfdY: quantityOf(modes.near[1], 'um') }
  facet.mfdX = quantityOf(modes.far[0], 'um')
  facet.mfdY = quantityOf(modes.far[1], 'um')
  gas.index = { kind: 'value', index: quantityOf(1, '1') }
  project.lenses = lenses.map(([shape, index], i) => ({
    id: `lens-${i + 1}`,
    name: `lens ${i + 1}`,
    shape,
    glass: { kind: 'value', index: quantityOf(index, '1') },
    clearAperture: quantityOf(9, 'mm'),
  }))
  return project
}

const biconvex: LensShapeEntry = {
  kind: 'biconvex',
  frontRadius: quantityOf(500, 'um'),
  backRadius: quantityOf(350, 'um'),
  thickness: quantityOf(250, 'um'),
}
const ball: LensShapeEntry = { kind: 'ball', diameter: quantityOf(500, 'um') }

test('a tilted biconvex lens and a ball image as the field sampled point by point does', () => {
  const tiltRad = (0.8 * Math.PI) / 180
  const relay = relayElement({
    device: undefined,
    frontGap: quantityOf(480, 'um'),
    stretch: quantityOf(2, 'mm'),
    backGap: quantityOf(90, 'um'),
    offsetX: quantityOf(0.9, 'um'),
  })
  relay.lens1.tiltX = quantityOf(0.8, 'deg')
  relay.lens1.offsetX = quantityOf(2, 'um')
  relay.lens2.offsetX = quantityOf(-1.5, 'um')
  const project = relayBetween({ near: [10.4, 10.4], far: [3.4, 2.8] }, relay, [
    [biconvex, 1.5],
    [ball, 1.746],
  ])
  const face = (field: SampledField, before: number, after: number, radiusUm: number, offsetUm: number) =>
    refracted(field, WAVELENGTH_UM, { before, after, radiusUm, offsetUm })
  const axis = (receiverUm: number, startUm: number, off1: number, tilt: number, off2: number) => {
    let field = carried(
      mode(5.2, WAVELENGTH_UM, { centreUm: startUm, halfWidthUm: 26 }),
      WAVELENGTH_UM,
      1,
      480,
      230,
    )
    // Turned about its middle, a face is a sphere whose centre has moved: its pole by the lever, then by R times the turn.
    field = face(field, 1, 1.5, 350, off1 - tilt * 125 + 350 * tilt)
    field = carried(field, WAVELENGTH_UM, 1.5, 250, 230)
    field = face(field, 1.5, 1, -500, off1 + tilt * 125 - 500 * tilt)
    field = carried(field, WAVELENGTH_UM, 1, 2000, 230)
    field = face(field, 1, 1.746, 250, off2)
    field = carried(field, WAVELENGTH_UM, 1.746, 500, 160)
    field = face(field, 1.746, 1, -250, off2)
    field = carried(field, WAVELENGTH_UM, 1, 90, 60)
    return coupled(field, mode(receiverUm, WAVELENGTH_UM, { halfWidthUm: 60 }))
  }
  const expected = -10 * Math.log10(axis(1.7, 0.9, 2, tiltRad, -1.5) * axis(1.4, 0, 0, 0, 0))
  expect(jointDb(project)).toBeCloseTo(expected, 2)
})

test('light that goes the other way through a relay loses the same', () => {
  fc.assert(
    fc.property(
      uniform(2, 12),
      uniform(2, 12),
      uniform(2, 12),
      uniform(300, 600),
      uniform(60, 200),
      uniform(-3, 3),
      (a, b, c, front, back, off) => {
        const forward = relayElement({
          device: undefined,
          frontGap: quantityOf(front, 'um'),
          stretch: quantityOf(2, 'mm'),
          backGap: quantityOf(back, 'um'),
        })
        forward.lens1.offsetX = quantityOf(off, 'um')
        forward.lens2.offsetY = quantityOf(-off / 2, 'um')
        const reverse = relayElement({
          ...forward,
          frontGap: forward.backGap,
          backGap: forward.frontGap,
          lens1: forward.lens2,
          lens2: forward.lens1,
        })
        const there = relayBetween({ near: [a, b], far: [c, 3] }, forward, [
          [biconvex, 1.5],
          [ball, 1.746],
        ])
        const andBack = relayBetween({ near: [c, 3], far: [a, b] }, reverse, [
          [ball, 1.746],
          [biconvex, 1.5],
        ])
        return Math.abs(jointDb(there) - jointDb(andBack)) < 1e-6 * Math.max(1, jointDb(there))
      },
    ),
    { numRuns: 60 },
  )
})
