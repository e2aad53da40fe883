// Every converter family against fields sampled point by point and carried by the Fresnel integral.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate, tryEvaluate } from '../../src/analysis/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Candidate, RelayElement } from '../../src/model/schema/candidate'
import type { Project } from '../../src/model/schema/project'
import {
  ALIGNED_POSE,
  fieldEfficiency,
  fieldPairOf,
  type GaussianJoint,
  refractiveIndex,
} from '../../src/optics/index'
import { familiesProject, relayElement, WAVELENGTH_UM } from './support/families'
import { carried, coupled, mode, refracted } from './support/sampledField'

const AIR = refractiveIndex('air', WAVELENGTH_UM)
const db = (ratio: number) => -10 * Math.log10(ratio)

/** Loss of everything that joins two modes, dB: the lines that are not faces, apertures or parts. */
const JOINT_KINDS = new Set([
  'mode mismatch',
  'aberration',
  'gap',
  'lateral offset',
  'tilt',
  'roll',
  'combined',
])
function jointDb(project: Project, id: string, elementId: string): number {
  return evaluateCandidate(project, id)
    .lines.filter((line) => line.elementId === elementId && JOINT_KINDS.has(line.kind))
    .reduce((sum, line) => sum + line.lossDb, 0)
}

function change(project: Project, id: string, recipe: (chain: Candidate['chain']) => void): Project {
  const copy = structuredClone(project)
  const candidate = copy.candidates.find((each) => each.id === id)
  if (candidate !== undefined) recipe(candidate.chain)
  return copy
}

/** Radius of the fibre's mode, as the analysis has it. */
const fibreRadiusUm = (project: Project) => {
  const { joints } = evaluateCandidate(project, 'cleaved-dry')
  return (joints[0]?.near.mfdXUm ?? 0) / 2
}

const SILICA = refractiveIndex('fused silica', WAVELENGTH_UM)

describe('against the sampled field', () => {
  test('a lensed tip: one curved face, an offset, a gap that is not the working distance', () => {
    const project = change(familiesProject(), 'ground-tip', (chain) => {
      const gap = chain[1]
      if (gap?.kind !== 'gap') return
      gap.offsetX = quantityOf(0.6, 'um')
      gap.tiltY = quantityOf(1, 'deg')
    })
    const radius = fibreRadiusUm(project)
    // The field on the sphere by Kirchhoff's integral, sampled in the plane of the apex and summed over plane waves there.
    const flat = { waistXUm: 0, waistYUm: 0 }
    const pair = fieldPairOf({
      emitter: {
        mode: { kind: 'gaussian', mfdXUm: 2 * radius, mfdYUm: 2 * radius, ...flat },
        tip: { radiusUm: 14, guideIndex: SILICA },
        stretchX: 1,
        stretchY: 1,
      },
      receiver: {
        mode: { kind: 'gaussian', mfdXUm: 3.4, mfdYUm: 2.8, ...flat },
        tip: null,
        stretchX: 1,
        stretchY: 1,
      },
      wavelengthUm: WAVELENGTH_UM,
      index: AIR,
      propagation: 'exact',
    })
    const pose = { ...ALIGNED_POSE, gapUm: 17, offsetXUm: 0.6, tiltYRad: Math.PI / 180 }
    const expected = db(fieldEfficiency(pair, pose, 1e-6).efficiency)
    const clipped = evaluateCandidate(project, 'ground-tip').lines.find(({ id }) =>
      id.endsWith('/tip clipping'),
    )
    // The budget moves each wave of a tilted tip by its own slope, sampled fields all of them by the mean one.
    const found = jointDb(project, 'ground-tip', 'gap') + (clipped?.lossDb ?? 0)
    expect(Math.abs(found - expected)).toBeLessThan(0.007)
  })

  test('a stub: an abrupt splice and a filled gap', () => {
    const project = change(familiesProject(), 'high-na-bonded', (chain) => {
      const splice = chain[1]
      if (splice?.kind === 'splice') splice.basis = 'abrupt'
    })
    const { joints, lines } = evaluateCandidate(project, 'high-na-bonded')
    const stub = (joints[0]?.near.mfdXUm ?? 0) / 2
    const radius = fibreRadiusUm(project)
    const window = { halfWidthUm: 30 }
    const splice = coupled(mode(radius, WAVELENGTH_UM, window), mode(stub, WAVELENGTH_UM, window)) ** 2
    expect(lines.find((line) => line.kind === 'splice')?.lossDb).toBeCloseTo(db(splice), 6)
    const gap = (receiverUm: number) =>
      coupled(
        carried(mode(stub, WAVELENGTH_UM), WAVELENGTH_UM, 1.475, 3, 12),
        mode(receiverUm, WAVELENGTH_UM, { halfWidthUm: 12 }),
      )
    expect(jointDb(project, 'high-na-bonded', 'gap')).toBeCloseTo(db(gap(1.7) * gap(1.4)), 5)
  })

  test('a taper chip: two gaps, each between its own pair of modes', () => {
    const project = familiesProject()
    const radius = fibreRadiusUm(project)
    const gap = (fromUm: number, toUm: number, halfWidthUm: number) =>
      coupled(
        carried(mode(fromUm, WAVELENGTH_UM), WAVELENGTH_UM, 1.475, 3, halfWidthUm),
        mode(toUm, WAVELENGTH_UM, { halfWidthUm }),
      )
    expect(jointDb(project, 'taper', 'gap-1')).toBeCloseTo(db(gap(radius, 5, 30) ** 2), 6)
    expect(jointDb(project, 'taper', 'gap-2')).toBeCloseTo(db(gap(1.7, 1.7, 12) * gap(1.6, 1.4, 12)), 5)
  })

  test('a relay of two plano-convex lenses, everything off its place', () => {
    const relay = relayElement({
      lens1Id: 'plano-1',
      lens2Id: 'plano-2',
      device: undefined,
      frontGap: quantityOf(820, 'um'),
      stretch: quantityOf(1.2, 'mm'),
      backGap: quantityOf(252, 'um'),
      offsetX: quantityOf(1.5, 'um'),
      tiltX: quantityOf(0.2, 'deg'),
    })
    relay.lens1.offsetX = quantityOf(-2, 'um')
    relay.lens1.offsetZ = quantityOf(6, 'um')
    relay.lens2.offsetX = quantityOf(1.2, 'um')
    relay.lens2.offsetY = quantityOf(0.7, 'um')
    relay.lens2.offsetZ = quantityOf(-3, 'um')
    const project = familiesProject(relay)
    const radius = fibreRadiusUm(project)
    const axis = (receiverUm: number, startUm: number, slopeRad: number, off1: number, off2: number) => {
      let field = mode(radius, WAVELENGTH_UM, {
        centreUm: startUm,
        slopeRad,
        index: AIR,
        halfWidthUm: 5 * radius,
      })
      field = carried(field, WAVELENGTH_UM, AIR, 826, 420)
      // The flat face of lens 1 first, then 300 um of glass, then its bulge into the stretch.
      field = carried(field, WAVELENGTH_UM, SILICA, 300, 460)
      field = refracted(field, WAVELENGTH_UM, { before: SILICA, after: AIR, radiusUm: -450, offsetUm: off1 })
      field = carried(field, WAVELENGTH_UM, AIR, 1191, 480)
      field = refracted(field, WAVELENGTH_UM, { before: AIR, after: SILICA, radiusUm: 140, offsetUm: off2 })
      field = carried(field, WAVELENGTH_UM, SILICA, 100, 420)
      field = carried(field, WAVELENGTH_UM, AIR, 255, 40)
      return coupled(field, mode(receiverUm, WAVELENGTH_UM, { halfWidthUm: 40 }))
    }
    const tilt = (0.2 * Math.PI) / 180
    const expected = db(axis(1.7, 1.5, tilt, -2, 1.2) * axis(1.4, 0, 0, 0, 0.7))
    const aberration = evaluateCandidate(project, 'relay').lines.find(({ kind }) => kind === 'aberration')
    expect(jointDb(project, 'relay', 'relay') - (aberration?.lossDb ?? 0)).toBeCloseTo(expected, 2)
  })
})

describe('the lines of every family', () => {
  test.each(familiesProject().candidates.map(({ id }) => id))('%s add up to what the chain loses', (id) => {
    const { lines, nominalDb, worstCorner, rootSumSquare } = evaluateCandidate(familiesProject(), id)
    const sum = lines.reduce((total, line) => total + line.lossDb, 0)
    expect(sum).toBeCloseTo(nominalDb, 9)
    expect(rootSumSquare.lossDb).toBeGreaterThan(nominalDb)
    expect(worstCorner.lossDb).toBeGreaterThan(nominalDb)
  })
})

function issues(project: Project, id: string): string {
  const result = tryEvaluate(project, id)
  return result.ok ? '' : result.issues.map((issue) => `${issue.message} ${issue.fix ?? ''}`).join('\n')
}

describe('what cannot be built is refused with the reason', () => {
  const project = familiesProject()

  test('a lensed tip in adhesive or gel', () => {
    for (const mediumId of ['adhesive', 'gel']) {
      const wet = change(project, 'ground-tip', (chain) => {
        if (chain[1]?.kind === 'gap') chain[1].mediumId = mediumId
      })
      expect(issues(wet, 'ground-tip')).toContain(
        'a lensed fibre focuses by the index step from glass to air',
      )
    }
  })

  test('a relay in adhesive', () => {
    const wet = change(project, 'relay', (chain) => {
      if (chain[1]?.kind === 'relay') chain[1].mediumId = 'adhesive'
    })
    expect(issues(wet, 'relay')).toContain(
      'in a gel or an adhesive the lens faces lose much of their refractive power',
    )
  })

  test('a splice on a lensed tip, on a taper chip, on a facet', () => {
    const tip = change(project, 'high-na-bonded', (chain) => {
      if (chain[0]?.kind === 'fibre') chain[0].tipId = 'tip-ground'
    })
    expect(issues(tip, 'high-na-bonded')).toContain('the arc melts the lens')
    const chip = change(project, 'high-na-bonded', (chain) => {
      chain[2] = { kind: 'taper chip', id: 'chip', converterId: 'taper' }
    })
    expect(issues(chip, 'high-na-bonded')).toContain('an SSC chip cannot be fusion spliced')
  })

  test('a converter of the wrong kind, and a part that is missing', () => {
    const wrong = change(project, 'taper', (chain) => {
      if (chain[2]?.kind === 'taper chip') chain[2].converterId = 'tip-spot'
    })
    expect(issues(wrong, 'taper')).toContain(
      '"Tip by its spot" is a lensed fibre; this element needs an SSC chip',
    )
    const gone = change(project, 'relay', (chain) => {
      if (chain[1]?.kind === 'relay') chain[1].lens2Id = 'lens-9'
    })
    expect(issues(gone, 'relay')).toContain('is "lens-9", which is not among lenses')
  })

  test('a focus inside the glass, and a device longer than its stretch', () => {
    const relay = (next: Partial<RelayElement>) => familiesProject(relayElement(next))
    const ball = relay({})
    const lens = ball.lenses[0]
    if (lens === undefined) throw new Error('no lens')
    lens.shape = { kind: 'ball', diameter: quantityOf(300, 'um') }
    lens.glass = { kind: 'value', index: quantityOf(2.1, '1') }
    // Hecht: f = n D / (4 (n - 1)), from the middle; the focus lies f - D/2 behind the ball, here below 0.
    expect(issues(ball, 'relay')).toContain('has its focus 6.8 µm inside the glass')
    expect(issues(relay({ stretch: quantityOf(2, 'mm') }), 'relay')).toContain(
      'Isolator is 2.50 mm long, and the collimated section only 2.00 mm',
    )
  })
})

describe('a relay', () => {
  const at = (change: Partial<RelayElement>) =>
    evaluateCandidate(familiesProject(relayElement(change)), 'relay')

  test('with an aperture smaller than the beam is computed, and says so', () => {
    const project = familiesProject(relayElement({ frontGap: quantityOf(1000, 'um') }))
    const lens = project.lenses[0]
    if (lens !== undefined) lens.clearAperture = quantityOf(60, 'um')
    const { lines, validity } = evaluateCandidate(project, 'relay')
    expect(lines.find((line) => line.id === 'relay/clipping lens 1')?.lossDb).toBeGreaterThan(1)
    expect(validity.map((note) => note.message).join()).toMatch(/the clear aperture of \d+ µm clips/)
  })

  test('of a steep mode includes the difference where a lens is traced, and says so where none is', () => {
    const noted = (project: Project) =>
      evaluateCandidate(project, 'relay').validity.find(({ message }) => message.includes('paraxial limit'))
        ?.message
    const project = familiesProject(relayElement({}))
    for (const facet of project.facets) facet.mfdX = quantityOf(2, 'um')
    const thin = noted(project)
    for (const lens of project.lenses) {
      lens.shape = {
        kind: 'plano-convex',
        radius: quantityOf(300, 'um'),
        thickness: quantityOf(250, 'um'),
      }
    }
    const traced = noted(project)
    expect(
      [traced, thin].filter((each) => each?.includes('beyond the paraxial limit of 0.3 rad;')),
    ).toHaveLength(2)
    expect(thin).toMatch(/; expect an error of a few per cent\.$/)
    expect(traced).toMatch(/; the aberration line of the budget includes the difference\.$/)
  })

  test('loses what its isolator, its coatings and its faces take, beside the joint', () => {
    const { lines } = at({})
    const of = (id: string) => lines.find((line) => line.id === `relay/${id}`)?.lossDb
    expect(of('device')).toBe(0.3)
    // Two faces of 0.25 % each.
    expect(of('fresnel lens 1')).toBeCloseTo(db(0.9975 ** 2), 12)
  })

  test('sends back less with an isolator than without, from the far face', () => {
    const leaning = { nearFaceAngle: quantityOf(8, 'deg') }
    const best = { frontGap: quantityOf(1000, 'um'), backGap: quantityOf(300, 'um'), ...leaning }
    const without = at({ ...best, device: undefined }).returnLoss.fibre.incoherentDb ?? 0
    const isolated = at(best).returnLoss.fibre.incoherentDb ?? 0
    expect(isolated).toBeGreaterThan(without + 25)
  })

  test.each(['x', 'y'] as const)(
    'images the mode of a leaning face as wide as refraction in %s leaves it',
    (plane) => {
      // Telescope of 1000 and 300 µm: 0.3 of the mode. Behind a face of 8° the beam is cos θt / cos θi as wide in the plane of incidence,
      // n sin θi = sin θt (E. Hecht, Optics, on anamorphic prisms, from memory).
      const focused = {
        frontGap: quantityOf(1000, 'um'),
        stretch: quantityOf(1.3, 'mm'),
        backGap: quantityOf(300, 'um'),
        device: undefined,
      }
      const joint = (change: Partial<RelayElement>) =>
        at({ ...focused, facePlane: plane, ...change }).joints[0]!.joint
      const widths = ({ emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm }: GaussianJoint) =>
        plane === 'x'
          ? { along: emitterMfdXUm, across: emitterMfdYUm, far: receiverMfdXUm, farAcross: receiverMfdYUm }
          : { along: emitterMfdYUm, across: emitterMfdXUm, far: receiverMfdYUm, farAcross: receiverMfdXUm }
      const scaleOf = (index: number, degrees: number) => {
        const inside = (degrees * Math.PI) / 180
        return Math.cos(Math.asin(index * Math.sin(inside))) / Math.cos(inside)
      }
      const straight = widths(joint({}))
      const near = widths(joint({ nearFaceAngle: quantityOf(8, 'deg') }))
      // Silica at 1653.7 nm: 1.44277 (Malitson), in air of 1.00027.
      expect(near.along / straight.along).toBeCloseTo(scaleOf(1.44277 / 1.00027, 8), 4)
      expect(near.across / straight.across).toBeCloseTo(1, 6)
      const far = widths(joint({ farFaceAngle: quantityOf(8, 'deg') }))
      expect(far.far / straight.far).toBeLessThan(1)
      expect(far.farAcross / straight.farAcross).toBeCloseTo(1, 12)
      expect(far.along / straight.along).toBeCloseTo(1, 12)
    },
  )

  test('with an entered value says what it replaces', () => {
    const { lines, validity } = at({ typedLoss: quantityOf(1.1, 'dB', 'measured') })
    const own = lines.filter((line) => line.elementId === 'relay')
    expect(own).toMatchObject([{ label: 'Joint, entered value', lossDb: 1.1, provenance: 'measured' }])
    expect(validity[1]?.message).toContain('entered value, 1.10 dB; computed from its parts it is')
  })
})
