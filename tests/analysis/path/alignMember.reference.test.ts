// Members of a relay that are aligned on power: where brute force over a relay written once more (support/ownRelay.ts) finds the
// lowest loss, in the order that is stated, with their tolerance as what the search leaves.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { type CompiledCandidate, compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { type Assembly, assemblyOf } from '../../../src/analysis/yield/assembly'
import { assumptionsOf } from '../../../src/analysis/yield/assumptions'
import { runBlocks } from '../../../src/analysis/yield/runBlocks'
import { parseProject, projectText } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { LensPose, RelayElement } from '../../../src/model/schema/candidate'
import type { RelayMember } from '../../../src/model/words/candidate'
import { refractiveIndex } from '../../../src/optics/index'
import { askLoss } from '../../support/askLoss'
import { familiesProject, relayElement, WAVELENGTH_UM } from '../support/families'
import {
  OWN_AXES,
  type OwnAxis,
  type OwnPose,
  type OwnPoses,
  type OwnRelay,
  ownBest,
  ownRelayLossDb,
} from '../support/ownRelay'

const um = (value: number, plusMinus?: number) => quantityOf(value, 'um', 'estimate', plusMinus)
const mrad = (rad: number, plusMinus?: number) => quantityOf(1e3 * rad, 'mrad', 'estimate', plusMinus)
const lensPose = ([x, y, z, tiltX, tiltY]: OwnPose): LensPose => ({
  offsetX: um(x),
  offsetY: um(y),
  offsetZ: um(z),
  tiltX: mrad(tiltX),
  tiltY: mrad(tiltY),
})

type Aligned = Partial<Record<RelayMember, readonly OwnAxis[]>>

/** Every member off its place. */
const OFF: OwnPoses = {
  guide: [2, 1, 4, 0.004, -0.003],
  lens1: [8, -5, 30, 0.01, 0.02],
  lens2: [-3, 4, 2, -0.015, 0.01],
}
/** Distances in micrometres and lenses of each relay: thin ones, and plano-convex ones with their flats to the guides. */
const THIN = { lens1Id: 'lens-1', lens2Id: 'lens-2', frontUm: 1000, stretchUm: 2000, backUm: 320 }
/** A thin lens and a plano-convex one of little aberration. */
const MIXED = { lens1Id: 'lens-1', lens2Id: 'plano-1', frontUm: 1000, stretchUm: 2000, backUm: 830 }
const PLANO = { lens1Id: 'plano-1', lens2Id: 'plano-2', frontUm: 807, stretchUm: 2000, backUm: 268 }
type Kind = typeof THIN

function relay(kind: Kind, { guide, lens1, lens2 }: OwnPoses, aligned: Aligned = {}, order?: RelayMember[]) {
  const axes = (member: RelayMember) => [...(aligned[member] ?? [])]
  return relayElement({
    lens1Id: kind.lens1Id,
    lens2Id: kind.lens2Id,
    frontGap: um(kind.frontUm),
    stretch: um(kind.stretchUm),
    backGap: um(kind.backUm),
    lens1: { ...lensPose(lens1), aligned: axes('lens1') },
    lens2: { ...lensPose(lens2), aligned: axes('lens2') },
    offsetX: um(guide[0]),
    offsetY: um(guide[1]),
    offsetZ: um(guide[2]),
    tiltX: mrad(guide[3]),
    tiltY: mrad(guide[4]),
    roll: mrad(0),
    device: undefined,
    aligned: axes('guide'),
    ...(order && { alignOrder: order }),
  })
}

function compiled(element: RelayElement): CompiledCandidate {
  const result = compileCandidate(familiesProject(element), 'relay')
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  return result.value
}

const BESIDE: readonly string[] = ['fresnel', 'clipping', 'aberration', 'device']

/** The joint of the image alone, dB. */
function jointDb(element: RelayElement): number {
  const { lines, nominal } = compiled(element)
  return lines
    .filter((line) => line.elementId === 'relay' && !BESIDE.includes(line.kind))
    .reduce((sum, line) => sum + line.lossDb(nominal), 0)
}

/** Modes and medium are the app's; everything between the end faces is the test's own. */
function ownRelay(kind: Kind): OwnRelay {
  const { joins, nominal } = compiled(relay(kind, OFF))
  const view = joins[0]!.view!(nominal)
  const glass = refractiveIndex('fused silica', WAVELENGTH_UM)
  const lens = { index: glass, thicknessUm: 0, radius1Um: Infinity, radius2Um: Infinity }
  return {
    wavelengthUm: WAVELENGTH_UM,
    mediumIndex: view.joint.index,
    emitterMfdUm: [view.near.mfdXUm, view.near.mfdYUm],
    receiverMfdUm: [view.far.mfdXUm, view.far.mfdYUm],
    ...kind,
    lens1: kind === THIN ? { ...lens, focalUm: 1000 } : { ...lens, thicknessUm: 300, radius2Um: -450 },
    lens2: kind === THIN ? { ...lens, focalUm: 300 } : { ...lens, thicknessUm: 100, radius1Um: 140 },
  }
}

/** What the station does, by brute force: aligned axes start at rest, member after member, each with its residual added. */
function ownAligned(
  own: OwnRelay,
  placed: OwnPoses,
  aligned: Aligned,
  order: readonly RelayMember[],
): number {
  const masked = (member: RelayMember, keep: boolean) =>
    placed[member].map((each, i) =>
      (aligned[member] ?? []).includes(OWN_AXES[i]!) === keep ? each : 0,
    ) as unknown as OwnPose
  let poses: OwnPoses = {
    guide: masked('guide', false),
    lens1: masked('lens1', false),
    lens2: masked('lens2', false),
  }
  for (const member of order) {
    const axes = aligned[member] ?? []
    const across = axes.filter((axis) => axis.startsWith('offset') && axis !== 'offsetZ')
    const residual = masked(member, true)
    const loss = (at: OwnPose) => ownRelayLossDb(own, { ...poses, [member]: at })
    const found = ownBest(loss, poses[member], axes, member === 'lens2' ? 30 : 300)
    // Along the light first, then tilts, then offsets, which make up for what the search left in both.
    const left = found.map((each, i) => each + (i > 1 ? (residual[i] ?? 0) : 0)) as unknown as OwnPose
    const retilted = ownBest(
      loss,
      found.map((each, i) => each + (i === 2 ? residual[2] : 0)) as unknown as OwnPose,
      axes.filter((axis) => axis !== 'offsetZ'),
      0,
    ).map((each, i) => each + (i > 2 ? (residual[i] ?? 0) : 0)) as unknown as OwnPose
    const start = axes.some((axis) => axis.startsWith('tilt')) ? retilted : left
    const final = ownBest(loss, start, across, 0).map(
      (each, i) => each + (i < 2 ? (residual[i] ?? 0) : 0),
    ) as unknown as OwnPose
    poses = { ...poses, [member]: final }
  }
  return ownRelayLossDb(own, poses)
}

describe('the joint through a relay', () => {
  test.each([
    ['thin', THIN],
    ['plano-convex', PLANO],
  ])('of %s lenses off their places is that of rays refracted surface by surface', (_, kind) => {
    expect(jointDb(relay(kind, OFF))).toBeCloseTo(ownRelayLossDb(ownRelay(kind), OFF), 8)
    expect(jointDb(relay(kind, OFF))).toBeGreaterThan(1)
  })
})

const LATERAL = ['offsetX', 'offsetY'] as const
const TILTS = ['tiltX', 'tiltY'] as const
const ALL = OWN_AXES

describe('an aligned member goes where brute force finds the least loss', () => {
  test.each<[string, Kind, Aligned, RelayMember[]]>([
    ['lens 2 across the light', THIN, { lens2: LATERAL }, ['lens2']],
    ['one axis of lens 2', THIN, { lens2: ['offsetY'] }, ['lens2']],
    ['lens 2 along the light', THIN, { lens2: ['offsetZ'] }, ['lens2']],
    ['lens 2 along and across', THIN, { lens2: [...LATERAL, 'offsetZ'] }, ['lens2']],
    ['lens 1 along the light', THIN, { lens1: ['offsetZ'] }, ['lens1']],
    ['the fibre along the light', THIN, { guide: ['offsetZ'] }, ['guide']],
    ['the fibre in every axis', THIN, { guide: ALL }, ['guide']],
    ['a tilt of the fibre', PLANO, { guide: ['tiltX'] }, ['guide']],
    ['lens 1 in tilt', PLANO, { lens1: TILTS }, ['lens1']],
    ['lens 2 in tilt and across', PLANO, { lens2: [...TILTS, ...LATERAL] }, ['lens2']],
    [
      'lens 1, lens 2 and the fibre',
      PLANO,
      { lens1: LATERAL, lens2: TILTS, guide: LATERAL },
      ['lens1', 'lens2', 'guide'],
    ],
    ['the fibre, then lens 2', THIN, { guide: ALL, lens2: [...LATERAL, 'offsetZ'] }, ['guide', 'lens2']],
    ['lens 2, then the fibre', THIN, { guide: ALL, lens2: [...LATERAL, 'offsetZ'] }, ['lens2', 'guide']],
  ])('%s', (_, kind, aligned, order) => {
    const residual: OwnPoses = {
      guide: [0.4, -0.3, 2, 0.002, 0.001],
      lens1: [1.2, 0.5, 1.5, 0.004, -0.002],
      lens2: [0.5, -0.4, 0.7, -0.003, 0.002],
    }
    // Aligned axes hold their residual, the others are off as placed.
    const mixed = Object.fromEntries(
      (['guide', 'lens1', 'lens2'] as const).map((member) => [
        member,
        OFF[member].map((each, i) =>
          (aligned[member] ?? []).includes(OWN_AXES[i]!) ? residual[member][i] : each,
        ),
      ]),
    ) as unknown as OwnPoses
    const found = jointDb(relay(kind, mixed, aligned, order))
    expect(found).toBeLessThan(jointDb(relay(kind, OFF)))
    expect(found).toBeCloseTo(ownAligned(ownRelay(kind), mixed, aligned, order), 4)
  })

  test('along the light with the aberration of real lenses, as no entered shift does better', () => {
    const at: OwnPoses = { ...OFF, lens2: [0, 0, 0, 0, 0], lens1: [0, 0, 0, 0, 0], guide: [0, 0, 0, 0, 0] }
    const total = (poses: OwnPoses, aligned: Aligned = {}) => {
      const { lossDb, nominal } = compiled(relay(MIXED, poses, aligned))
      return lossDb(nominal)
    }
    const typed = Array.from({ length: 61 }, (_, i) => total({ ...at, lens2: [0, 0, 120 - 4 * i, 0, 0] }))
    const found = total(at, { lens2: ['offsetZ'] })
    expect(found).toBeLessThan(Math.min(...typed) + 1e-3)
    expect(found).toBeGreaterThan(Math.min(...typed) - 0.1)
    expect(total(at)).toBeGreaterThan(found + 0.1)
  })
})

const assumptions = (element: RelayElement) =>
  assumptionsOf({ compiled: compiled(element), temperaturesC: [] as readonly number[] } as Assembly).join(' ')

test('the order decides: who comes last makes up for what the others leave', () => {
  // A residual of 1 um at lens 2 is made up for by the fibre only if the fibre comes after it.
  const at: OwnPoses = { ...OFF, guide: [0, 0, 0, 0, 0], lens2: [1, 0, 0, 0, 0] }
  const aligned: Aligned = { lens2: LATERAL, guide: LATERAL }
  const lensFirst = jointDb(relay(THIN, at, aligned, ['lens2', 'guide']))
  const fibreFirst = jointDb(relay(THIN, at, aligned, ['guide', 'lens2']))
  expect(fibreFirst).toBeGreaterThan(lensFirst + 0.1)
  expect(jointDb(relay(THIN, at, aligned))).toBe(lensFirst)
  expect(assumptions(relay(THIN, at, aligned, ['guide', 'lens2']))).toContain(
    'in the order fibre side, then lens 2',
  )
})

describe('what the search makes up for, and what it leaves', () => {
  const rest: OwnPoses = { guide: [0, 0, 0, 0, 0], lens1: [0, 0, 0, 0, 0], lens2: [0, 0, 0, 0, 0] }
  const withSpread = (own: RelayElement, residualUm: number): RelayElement => ({
    ...own,
    backGap: um(320, 8),
    lens2: { ...own.lens2, offsetZ: um(0, residualUm) },
  })
  const project = (aligned: Aligned, residualUm: number) =>
    familiesProject(withSpread(relay(THIN, rest, aligned), residualUm))
  const axial: Aligned = { lens2: ['offsetZ'] }

  test('a distance found by the axial search adds nothing to the worst case, its residual does', () => {
    const excess = (own: ReturnType<typeof project>) => {
      const { worstCorner, nominalDb } = evaluateCandidate(own, 'relay')
      return worstCorner.lossDb - nominalDb
    }
    const [placed, exact, residual] = [project({}, 0), project(axial, 0), project(axial, 3)].map(excess)
    expect(exact!).toBeLessThan(placed! - 0.5)
    expect(residual!).toBeGreaterThan(exact! + 0.05)
    expect(assumptions(withSpread(relay(THIN, rest, axial), 0))).toContain('lens 2 axial shift z')
  })

  test('and raises the yield', () => {
    const passed = (own: ReturnType<typeof project>) => {
      askLoss(own, { limitDb: evaluateCandidate(project({}, 0), 'relay').nominalDb + 0.3 })
      const assembly = assemblyOf(own, 'relay')
      if (!assembly.ok) throw new Error('not computed')
      return runBlocks(assembly.value, { samples: 512, seed: 1, method: 'sobol' }, 0, 1).passed / 512
    }
    expect(passed(project(axial, 0.2))).toBeGreaterThan(passed(project({}, 0)) + 0.1)
  })
})

test('a lens aligned along the light stays where the station left it while the temperature moves the fibre side', () => {
  const at: OwnPoses = { ...OFF, lens2: [0, 0, 0, 0, 0] }
  const riseK = 60
  const lengthMm = 200
  // 2.6e-6 per kelvin of silicon, 200 mm that grow towards the chip.
  const closerUm = 2.6e-6 * riseK * lengthMm * 1000
  const project = familiesProject(relay(THIN, at, { lens2: ['offsetZ'] }))
  project.candidates = project.candidates.map((each) =>
    each.id === 'relay'
      ? {
          ...each,
          mount: {
            assemblyTemperature: quantityOf(20, 'degC'),
            fibreSide: [
              {
                expansion: { kind: 'material', material: 'silicon' },
                axis: 'z',
                length: quantityOf(lengthMm, 'mm'),
              },
            ],
            chipSide: [],
          },
        }
      : each,
  )
  const result = compileCandidate(project, 'relay')
  if (!result.ok) throw new Error('not computed')
  const { lines, nominal, slots } = result.value
  const jointAt = (rise: number) => {
    const v = Float64Array.from(nominal)
    v[slots.temperatureRise] = rise
    return lines
      .filter((line) => line.elementId === 'relay' && !BESIDE.includes(line.kind))
      .reduce((sum, line) => sum + line.lossDb(v), 0)
  }
  const own = ownRelay(THIN)
  const aligned = ownBest((lens2) => ownRelayLossDb(own, { ...at, lens2 }), at.lens2, ['offsetZ'], 30)
  const warm = { ...own, frontUm: own.frontUm - closerUm }
  const again = ownBest((lens2) => ownRelayLossDb(warm, { ...at, lens2 }), at.lens2, ['offsetZ'], 30)
  expect(jointAt(0)).toBeCloseTo(ownRelayLossDb(own, { ...at, lens2: aligned }), 4)
  expect(jointAt(riseK)).toBeCloseTo(ownRelayLossDb(warm, { ...at, lens2: aligned }), 4)
  // Alignment at every temperature would be another answer.
  expect(jointAt(riseK)).toBeGreaterThan(ownRelayLossDb(warm, { ...at, lens2: again }) + 0.01)
})

test('shifts and alignment along the light go through a file unchanged', () => {
  const own = familiesProject(
    relay(THIN, OFF, { guide: ALL, lens1: ALL, lens2: ALL }, ['guide', 'lens2', 'lens1']),
  )
  expect(parseProject(JSON.parse(projectText(own))).candidates.at(-1)?.chain[1]).toEqual(
    own.candidates.at(-1)?.chain[1],
  )
})
