// First light by real fields against sums of its own: step-index modes overlapped point by point, relays displaced as a whole.

import { describe, expect, test } from 'vitest'
import { relayLossOf } from '../../../src/analysis/field/relayLoss'
import { captureRange } from '../../../src/analysis/firstLight/capture'
import { type FieldSearchRequest, fieldSearchSteps } from '../../../src/analysis/firstLight/fieldSearch'
import { fieldLossOf } from '../../../src/analysis/firstLight/realLoss'
import { searchPlan } from '../../../src/analysis/firstLight/search'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import type { LossOf } from '../../../src/analysis/tolerance/toleranceCurve'
import { finish } from '../../../src/numerics/steps'
import {
  jointLossDb,
  type MisalignmentAxis,
  type ModeAtFace,
  type ModeSpec,
  tipEfficiency,
  tipSpectrum,
} from '../../../src/optics'
import { ownCoreField } from '../../e2e/support/own/core'
import { captureRanges } from '../../support/captureRanges'
import { equalModes } from '../../support/equalModes'
import { realRelayProject, relays, um } from '../support/realRelays'

const STATION = {
  launchDbm: 0,
  detectorFloorDbm: -30,
  lateralUm: 50,
  axialUm: 0.001,
  tiltRad: 1e-6,
  secondsPerPoint: 0.1,
}
const face = (mode: ModeSpec): ModeAtFace => ({
  mode,
  tip: null,
  stretchX: 1,
  stretchY: 1,
})
const request = (
  mode: ModeSpec,
  mfdUm: number,
  propagation: 'exact' | 'paraxial' = 'exact',
): FieldSearchRequest => ({
  spec: {
    emitter: face(mode),
    receiver: face(mode),
    wavelengthUm: 1.55,
    index: 1,
    propagation,
  },
  relay: null,
  joint: equalModes(mfdUm),
  otherLossDb: 0,
  leastGapUm: 0,
  station: STATION,
  seed: 1,
})
const db = (efficiency: number) => -10 * Math.log10(efficiency)

test('Gaussian fields have the capture ranges of the closed form: 13.667 µm for 30 dB at an MFD of 10.4 µm', () => {
  const mode: ModeSpec = {
    kind: 'gaussian',
    mfdXUm: 10.4,
    mfdYUm: 10.4,
    waistXUm: 0,
    waistYUm: 0,
  }
  const { plan, climb } = finish(fieldSearchSteps(request(mode, 10.4, 'paraxial')))
  const closed = searchPlan(equalModes(10.4), 0, STATION)
  expect(plan.ranges[0]?.above).toBeCloseTo(13.667, 2)
  expect(plan.search?.captureXUm).toBeCloseTo(13.667, 2)
  plan.ranges.forEach(({ axis, above }, i) => {
    const own = closed.ranges[i]?.above
    if (own == null) expect(above, axis).toBeNull()
    else expect((above ?? 0) / own, axis).toBeCloseTo(1, axis === 'gapUm' ? 2 : 3)
  })
  expect(climb?.arrived).toBeGreaterThan(0.9)
})

describe('step-index modes', () => {
  const [coreUm, na] = [4.1, 0.12]
  const mode: ModeSpec = { kind: 'step index', coreRadiusUm: coreUm, na }
  const found = finish(fieldSearchSteps(request(mode, 10)))
  const rangeOf = (name: string) => found.plan.ranges.find(({ axis }) => axis === name)?.above ?? 0
  const field = ownCoreField(coreUm, na, 1.55)
  const k = (2 * Math.PI) / 1.55
  const [STEP, REACH] = [0.2, 45]
  const radii = Array.from({ length: REACH / 0.05 }, (_, i) => 0.05 * (i + 0.5))
  const norm = radii.reduce((sum, r) => sum + field(r) ** 2 * r, 0)
  /** J0 by its integral. */
  const j0 = (x: number) => {
    const turns = 40 + Math.ceil(2 * Math.abs(x))
    let sum = 0
    for (let i = 0; i < turns; i++) sum += Math.cos(x * Math.sin((2 * Math.PI * i) / turns)) / turns
    return sum
  }

  test('are seen as far aside as their overlap, summed point by point, keeps 30 dB', () => {
    const range = rangeOf('offsetXUm')
    let [cross, square] = [0, 0]
    for (let x = -REACH; x <= REACH; x += STEP)
      for (let y = -REACH; y <= REACH; y += STEP) {
        cross += field(Math.hypot(x - range / 2, y)) * field(Math.hypot(x + range / 2, y))
        square += field(Math.hypot(x, y)) ** 2
      }
    expect(db((cross / square) ** 2)).toBeCloseTo(30, 1)
    // Further than Gaussians of the same overlap: the tail falls off as an exponential.
    expect(range).toBeGreaterThan(1.15 * (captureRanges(equalModes(10), 30)[0]?.above ?? 0))
    expect(found.plan.search?.captureXUm).toBeCloseTo(range, 1)
  })

  test('are seen as far tilted as the sum over rings keeps 30 dB', () => {
    // Waves of a mode that turns as a whole move by its mean kz: k (1 - <q^2> / 2 k^2), <q^2> from the slopes of the field.
    const steepness = radii.reduce((sum, r) => sum + ((field(r + 0.05) - field(r)) / 0.05) ** 2 * r, 0) / norm
    const q = (k - steepness / (2 * k)) * Math.sin(Math.atan(rangeOf('tiltXRad')))
    const cross = radii.reduce((sum, r) => sum + field(r) ** 2 * r * j0(q * r), 0)
    expect(db((cross / norm) ** 2)).toBeCloseTo(30, 1)
  })

  test('are seen as far along the light as the sum over plane waves keeps 30 dB', () => {
    const gapUm = rangeOf('gapUm')
    const waves = Array.from({ length: 150 }, (_, i) => {
      const q = 0.01 * i
      return radii.reduce((sum, r) => sum + field(r) * r * j0(q * r), 0) ** 2
    })
    let [re, im, all] = [0, 0, 0]
    for (let q = 0.0005; q < 1.48; q += 0.0005) {
      const at = Math.floor(q / 0.01)
      const share = q / 0.01 - at
      const weight = q * ((waves[at] ?? 0) * (1 - share) + (waves[at + 1] ?? 0) * share)
      const phase = gapUm * (Math.sqrt(k * k - q * q) - k)
      re += weight * Math.cos(phase)
      im += weight * Math.sin(phase)
      all += weight
    }
    expect(db((re * re + im * im) / all ** 2)).toBeCloseTo(30, 0)
  })

  test('are refused where the margin is beyond what sums of fields resolve', () => {
    const bright = {
      ...request(mode, 10),
      station: { ...STATION, launchDbm: 40 },
    }
    expect(() => finish(fieldSearchSteps(bright))).toThrow('real fields are computed up to 60 dB only')
  })
})

test('a lensed tip loses by its fields what its cone waves lose against the Gaussian, aside and along', () => {
  const [radiusUm, guideIndex, modeRadiusUm] = [14, 1.45, 5.2]
  const mode: ModeSpec = {
    kind: 'gaussian',
    mfdXUm: 10.4,
    mfdYUm: 10.4,
    waistXUm: 0,
    waistYUm: 0,
  }
  const facet: ModeSpec = {
    kind: 'gaussian',
    mfdXUm: 4,
    mfdYUm: 4,
    waistXUm: 0,
    waistYUm: 0,
  }
  const at = { ...equalModes(4), gapUm: 18 }
  const lossOf = fieldLossOf(
    {
      emitter: { ...face(mode), tip: { radiusUm, guideIndex } },
      receiver: face(facet),
      wavelengthUm: 1.55,
      index: 1,
      propagation: 'exact',
    },
    at,
  )
  const tip = {
    modeRadiusUm,
    tipRadiusUm: radiusUm,
    fibreIndex: guideIndex,
    mediumIndex: 1,
    wavelengthUm: 1.55,
  }
  const spectrum = tipSpectrum(tip)
  for (const [moved, least] of [
    [{}, 3],
    [{ offsetXUm: 4 }, 2],
    [{ offsetXUm: 5 }, 4],
    [{ gapUm: 60 }, 4],
    [{ tiltXRad: 0.1 }, 0.1],
  ] as const) {
    const pose = { ...at, ...moved }
    const ownDb = db(tipEfficiency(spectrum, pose) / spectrum.power)
    expect(lossOf(pose)).toBeCloseTo(ownDb, 1)
    expect(Math.abs(ownDb - jointLossDb(pose))).toBeGreaterThan(least)
  }
})

describe('far from focus, where sums through real lenses are not resolved,', () => {
  test.each([0, 2, 4])('relay %i is seen as far as its cone of light, and as Gaussians across', (which) => {
    const row = relays[which]
    const compiled = row && compileCandidate(realRelayProject(row), 'relay')
    if (!compiled?.ok) throw new Error('the relay compiles')
    const { joins, nominal } = compiled.value
    const [joint, relay] = [joins[0]?.view?.(nominal).joint, joins[0]?.relayFields?.()]
    if (joint === undefined || relay == null) throw new Error('real lenses')
    const lossOf = relayLossOf(relay, joint)
    const rangeTo = (limitDb: number, axis: MisalignmentAxis, of: LossOf) =>
      captureRange(joint, axis, limitDb - of(joint), of).above ?? 0
    // The intensity on the axis of the cone over what the facet's mode takes of a plane wave: loss = 20 lg(z / 2 zR).
    const rayleighUm = (Math.PI * joint.receiverMfdXUm * joint.receiverMfdYUm) / 4 / joint.wavelengthUm
    for (const limitDb of [30, 40, 50])
      expect(rangeTo(limitDb, 'gapUm', lossOf) / (2 * rayleighUm * 10 ** (limitDb / 20))).toBeCloseTo(1, 1)
    for (const axis of ['offsetXUm', 'offsetYUm', 'tiltXRad', 'tiltYRad'] as const) {
      expect(rangeTo(40, axis, lossOf) / rangeTo(40, axis, jointLossDb), axis).toBeCloseTo(1, 6)
      expect(rangeTo(10, axis, lossOf) / rangeTo(10, axis, jointLossDb), axis).toBeGreaterThan(1.05)
    }
  })
})

test('a displaced relay with real lenses loses as much as one compiled there: 2 µm within 0.25 dB, 4 µm within a tenth', () => {
  const row = relays[0]
  if (row === undefined) throw new Error('a relay')
  /** The chip moved against the fibre and both lenses, traced by skew rays in their positions. */
  const standing = (byUm: number) => {
    const project = realRelayProject({ ...row, backGapUm: row.backGapUm - 6 })
    const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (relay?.kind !== 'relay') throw new Error('a relay')
    relay.offsetX = um(byUm)
    relay.lens1.offsetX = um(byUm)
    relay.lens2.offsetX = um(byUm)
    const compiled = compileCandidate(project, 'relay')
    if (!compiled.ok) throw new Error('the relay compiles')
    const { joins, lossDb, nominal } = compiled.value
    return { lossDb: lossDb(nominal), join: joins[0], nominal }
  }
  const here = standing(0)
  const [joint, relay] = [here.join?.view?.(here.nominal).joint, here.join?.relayFields?.()]
  if (joint === undefined || relay == null) throw new Error('real lenses')
  const lossOf = relayLossOf(relay, joint)
  const otherDb = here.lossDb - jointLossDb(joint) - relay.nominalDb
  const reach = (byUm: number) => otherDb + lossOf({ ...joint, offsetXUm: joint.offsetXUm + byUm })
  expect(reach(0)).toBeCloseTo(here.lossDb, 9)
  expect(Math.abs(reach(2) - standing(2).lossDb)).toBeLessThan(0.25)
  // Beyond 20 dB the relay is Gaussian, which is seen less far than its aberrated light.
  const there = standing(4).lossDb
  expect(there).toBeGreaterThan(20)
  expect(reach(0.9 * 4)).toBeLessThan(there)
  expect(reach(1.1 * 4)).toBeGreaterThan(there)
})
