// A design and its mirror image: what the fibre was is now the facet. Light through the one from the fibre is light through the
// other from the chip, so the loss is the same and the return losses of the two ends change places (reciprocity).

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement, RelayElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { LIGHT_DIRECTIONS } from '../../../src/model/words/requirements'
import { withoutTolerances } from '../../support/withoutTolerances'
import { familiesProject, planoConvexEntry, relayElement } from '../support/families'

interface Guide {
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly index: number
}

const WIDE: Guide = { mfdXUm: 10.1, mfdYUm: 9.6, index: 1.4462 }
const NARROW: Guide = { mfdXUm: 4.2, mfdYUm: 3.1, index: 1.58 }
const OFFSET_UM = 0.4
const TILT_RAD = 0.011
const GAP_UM = 7.3

/** Apertures that clip nothing: the loss that an aperture adds is estimated from the beam that comes from the fibre. */
const OPEN = quantityOf(8, 'mm')
const wideLens = (id: string, radiusUm: number, thicknessUm: number) => ({
  ...planoConvexEntry(id, radiusUm, thicknessUm),
  clearAperture: OPEN,
})

/** A project with one candidate between two guides whose numbers are given, all of them exact. */
function between(near: Guide, far: Guide, join: GapElement | RelayElement): Project {
  const base = familiesProject()
  const [fibre] = base.fibres
  const [facet] = base.facets
  if (fibre === undefined || facet === undefined) throw new Error('no parts')
  const index = (guide: Guide) => ({ kind: 'value', index: quantityOf(guide.index, '1') }) as const
  return withoutTolerances({
    ...base,
    lenses: [wideLens('lens-a', 450, 300), wideLens('lens-b', 190, 150)],
    fibres: [
      {
        ...fibre,
        mode: { kind: 'mfd', mfdX: quantityOf(near.mfdXUm, 'um'), mfdY: quantityOf(near.mfdYUm, 'um') },
        index: index(near),
      },
    ],
    facets: [
      {
        ...facet,
        mfdX: quantityOf(far.mfdXUm, 'um'),
        mfdY: quantityOf(far.mfdYUm, 'um'),
        index: index(far),
        taperLoss: quantityOf(0, 'dB'),
      },
    ],
    candidates: [
      {
        id: 'one',
        name: 'one',
        userLines: [],
        chain: [
          { kind: 'fibre', id: 'fibre', fibreId: fibre.id },
          join,
          { kind: 'facet', id: 'facet', facetId: facet.id },
        ],
      },
    ],
  })
}

function gap(mirrored: boolean, angles: readonly [number, number]): GapElement {
  const base = familiesProject().candidates[0]?.chain[1]
  if (base?.kind !== 'gap') throw new Error('no gap')
  const [near, far] = mirrored ? [angles[1], angles[0]] : angles
  // Seen the other way, the axis of what was the emitter passes the other face's centre at offset + gap x tilt.
  const offset = mirrored ? -(OFFSET_UM + GAP_UM * TILT_RAD) : OFFSET_UM
  return {
    ...base,
    gap: quantityOf(GAP_UM, 'um'),
    offsetX: quantityOf(offset, 'um'),
    offsetY: quantityOf(0, 'um'),
    tiltX: quantityOf(TILT_RAD, 'rad'),
    tiltY: quantityOf(0, 'rad'),
    roll: quantityOf(0, 'deg'),
    facePlane: 'y',
    nearFaceAngle: quantityOf(near, 'deg'),
    farFaceAngle: quantityOf(far, 'deg'),
  }
}

function relay(mirrored: boolean, change: Partial<RelayElement> = {}): RelayElement {
  const own = relayElement({
    lens1Id: mirrored ? 'lens-b' : 'lens-a',
    lens2Id: mirrored ? 'lens-a' : 'lens-b',
    frontGap: quantityOf(mirrored ? 410 : 980, 'um'),
    backGap: quantityOf(mirrored ? 980 : 410, 'um'),
    nearFaceAngle: quantityOf(mirrored ? 1 : 2, 'deg'),
    farFaceAngle: quantityOf(mirrored ? 2 : 1, 'deg'),
    ...change,
  })
  return own.device === undefined ? own : { ...own, device: { ...own.device, clearAperture: OPEN } }
}

const pair = (join: (mirrored: boolean) => GapElement | RelayElement) =>
  [
    evaluateCandidate(between(WIDE, NARROW, join(false)), 'one'),
    evaluateCandidate(between(NARROW, WIDE, join(true)), 'one'),
  ] as const

const CASES = {
  'a gap of square faces': (mirrored: boolean) => gap(mirrored, [0, 0]),
  'a gap of angled faces': (mirrored: boolean) => gap(mirrored, [4, 6]),
  'a relay': (mirrored: boolean) => relay(mirrored, { device: undefined }),
  'a relay with an isolator': (mirrored: boolean) => relay(mirrored),
}

const SWAPPED: Readonly<Record<string, string>> = {
  'Fibre-side': 'Chip-side',
  'Chip-side': 'Fibre-side',
  'fibre-side': 'chip-side',
  'chip-side': 'fibre-side',
}

/** A face of the one design and the same face of its mirror image. */
const MIRRORED: Readonly<Record<string, string>> = {
  'Fibre-side face': 'Chip-side face',
  'Chip-side face': 'Fibre-side face',
  'Lens 1, first face': 'Lens 2, last face',
  'Lens 1, last face': 'Lens 2, first face',
  'Lens 2, first face': 'Lens 1, last face',
  'Lens 2, last face': 'Lens 1, first face',
}

describe('a mirrored design', () => {
  test.each(Object.entries(CASES))(
    '%s has the same loss, and the return losses of its ends swapped',
    (name, join) => {
      const [one, other] = pair(join)
      expect(Math.abs(one.nominalDb - other.nominalDb)).toBeLessThan(1e-12 * Math.max(1, one.nominalDb))
      expect(one.reflections.length).toBe(other.reflections.length)
      for (const row of one.reflections) {
        const twin = other.reflections.find(({ label }) => label === MIRRORED[row.label])
        // A fibre's own angled face is seen by the mode of its core, a facet's by its Gaussian: they are no mirror images.
        const isOwn = { fibre: row.label === 'Fibre-side face', chip: row.label === 'Chip-side face' }
        if (!isOwn.fibre) expect(row.atFibreDb, row.label).toBeCloseTo(twin?.atChipDb ?? 0, 9)
        if (!isOwn.chip) expect(row.atChipDb, row.label).toBeCloseTo(twin?.atFibreDb ?? 0, 9)
      }
      if (name !== 'a gap of square faces') return
      for (const of of ['incoherentDb', 'coherentDb'] as const) {
        expect(one.returnLoss.fibre[of]).toBeCloseTo(other.returnLoss.chip[of] ?? 0, 9)
        expect(one.returnLoss.chip[of]).toBeCloseTo(other.returnLoss.fibre[of] ?? 0, 9)
      }
      // Not the trivial case: the two ends differ.
      expect(
        Math.abs((one.returnLoss.fibre.incoherentDb ?? 0) - (one.returnLoss.chip.incoherentDb ?? 0)),
      ).toBeGreaterThan(0.5)
    },
  )

  test('lists every face for both ends', () => {
    for (const join of Object.values(CASES)) {
      for (const row of pair(join)[0].reflections) {
        expect(row.atFibreDb, row.label).not.toBeNull()
        expect(row.atChipDb, row.label).not.toBeNull()
      }
    }
  })
})

describe('the direction of light', () => {
  test('changes neither loss nor return losses', () => {
    const losses = LIGHT_DIRECTIONS.map((direction) => {
      const project = between(WIDE, NARROW, relay(false))
      project.requirements.direction = direction
      const { nominalDb, returnLoss } = evaluateCandidate(project, 'one')
      return [nominalDb, returnLoss.fibre.incoherentDb, returnLoss.chip.incoherentDb]
    })
    expect(losses[1]).toEqual(losses[0])
    expect(losses[2]).toEqual(losses[0])
  })
})

describe('power', () => {
  test.each(Object.entries(CASES))(
    'of light from the chip is that of the mirror image from the fibre: %s',
    (_, join) => {
      const powered = (project: Project, direction: Project['requirements']['direction']) => {
        project.requirements.powerIn = quantityOf(20, 'mW')
        project.requirements.direction = direction
        const { power } = evaluateCandidate(project, 'one')
        if (power === null) throw new Error('no power')
        return power
      }
      const from = powered(between(WIDE, NARROW, join(false)), 'chip to fibre')
      const twin = powered(between(NARROW, WIDE, join(true)), 'fibre to chip')
      expect(from.fromChip).toBe(true)
      expect(from.outUw).toBeCloseTo(twin.outUw, 6)
      expect(from.locations.map(({ label }) => label)).toEqual(
        twin.locations.map(({ label }) =>
          label === 'Lens 1' || label === 'Lens 2'
            ? `Lens ${label === 'Lens 1' ? 2 : 1}`
            : label.replace(/Fibre-side|Chip-side|fibre-side|chip-side/, (word) => SWAPPED[word] ?? word),
        ),
      )
      for (const [i, slot] of from.locations.entries()) {
        expect(slot.powerUw, slot.label).toBeCloseTo(twin.locations[i]?.powerUw ?? 0, 6)
        expect(slot.irradiance / (twin.locations[i]?.irradiance ?? 0), slot.label).toBeCloseTo(1, 9)
      }
      for (const [name, share] of Object.entries(from.shares)) {
        expect(share, name).toBeCloseTo(twin.shares[name as keyof typeof twin.shares], 6)
      }
    },
  )
})

describe('an isolator', () => {
  test('where light goes both ways is cautioned against', () => {
    const project = between(WIDE, NARROW, relay(false))
    const said = () =>
      evaluateCandidate(project, 'one')
        .validity.map(({ message }) => message)
        .join(' ')
    expect(said()).not.toContain('one direction only')
    project.requirements.direction = 'both'
    expect(said()).toContain('an isolator transmits in one only')
  })

  test('is not credited to the echo of the face that the light leaves', () => {
    const row = (device: RelayElement['device'], label: string) => {
      const found = evaluateCandidate(
        between(WIDE, NARROW, relay(false, { device })),
        'one',
      ).reflections.find((each) => each.label === label)
      if (found === undefined) throw new Error(`no ${label}`)
      return found
    }
    const isolator = relay(false).device
    if (isolator === undefined) throw new Error('no isolator')
    const plain = { ...isolator, isolation: undefined }
    // 30 dB beyond its own loss, once, for what lies behind it; nothing for what lies in front of it.
    for (const [label, near, far] of [
      ['Fibre-side face', 0, 30],
      ['Lens 1, first face', 0, 30],
      ['Lens 2, last face', 30, 0],
      ['Chip-side face', 30, 0],
    ] as const) {
      const [withIt, without] = [row(isolator, label), row(plain, label)]
      expect((withIt.atFibreDb ?? 0) - (without.atFibreDb ?? 0), label).toBeCloseTo(near, 9)
      expect((withIt.atChipDb ?? 0) - (without.atChipDb ?? 0), label).toBeCloseTo(far, 9)
    }
  })
})
