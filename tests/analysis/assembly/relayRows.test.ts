// Rows of fibres and lens arrays through their steps: every channel must pass. Against a Monte Carlo of its own of a 4f relay of thin
// lenses, f1 before and f2 behind, whose rays follow by hand (E. Hecht, Optics, 5th ed., section 6.2, from memory; Gaussian overlap as W. B. Joyce and
// B. C. DeLoach, Appl. Opt. 23 (1984) 4187): at the chip a fibre beside its axis by d, lens 1 by a and lens 2 by b give the
// offset M (a - d) + b with M = f2 / f1, and the slope (b - a) / f2. The image of the fibre's waist lies on the chip's face, so that
//   loss beyond the perfect channel's = 4.342945 ((offset / w)^2 + (pi w slope / lambda)^2).

import { expect, test } from 'vitest'
import { compileSequence } from '../../../src/analysis/assembly/compileSequence'
import { sequenceRange } from '../../../src/analysis/assembly/runSequence'
import { usualSequence } from '../../../src/analysis/assembly/usualSequence'
import { evaluateCandidate } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { AssemblySequence } from '../../../src/model/schema/build/assembly'
import type { LensPose, RelayElement } from '../../../src/model/schema/candidate'
import type { LensEntry } from '../../../src/model/schema/parts'
import type { Project } from '../../../src/model/schema/project'
import { relayElement, thinLensEntry } from '../support/families'
import { isotropic } from '../yield/cases'
import { step } from './step'

const [CHANNELS, PITCH_UM, FIBRE_MFD_UM, F1_UM, F2_UM] = [6, 127, 10, 250, 100]
const M = F2_UM / F1_UM
const W_UM = (M * FIBRE_MFD_UM) / 2
const WAVELENGTH_UM = 1.55
const NEPER_DB = 10 / Math.LN10

const um = (value: number) => quantityOf(value, 'um')
const normal = (value: number, unit: 'um' | 'deg', sigma: number) =>
  quantityOf(value, unit, 'estimate', { plusMinus: sigma, distribution: 'normal', coverage: 1 })

const exactLensPose: LensPose = {
  offsetX: um(0),
  offsetY: um(0),
  offsetZ: um(0),
  tiltX: quantityOf(0, 'deg'),
  tiltY: quantityOf(0, 'deg'),
}
const lens = (id: string, focalUm: number, pitchUm: number): LensEntry => ({
  ...thinLensEntry(id, focalUm),
  shape: { kind: 'thin', focalLength: um(focalUm) },
  clearAperture: um(120),
  pitch: um(pitchUm),
})

/** Pitch errors of the rows, um a channel, and sigmas: cores of the fibres, lens 2 as a whole. */
interface Errors {
  readonly fibrePitchUm: number
  readonly lens1PitchUm: number
  readonly lens2PitchUm: number
  readonly coreUm: number
  readonly lens2Um: number
}

function relayRow(errors: Errors): Project {
  const base = isotropic(FIBRE_MFD_UM, 0.001, 1)
  const relay: RelayElement = {
    ...relayElement({
      frontGap: um(F1_UM),
      stretch: um(F1_UM + F2_UM),
      backGap: um(F2_UM),
      device: undefined,
      offsetX: um(0),
      offsetY: um(0),
      tiltX: quantityOf(0, 'deg'),
      tiltY: quantityOf(0, 'deg'),
      roll: quantityOf(0, 'deg'),
      lens1: exactLensPose,
      lens2: { ...exactLensPose, offsetY: normal(0, 'um', errors.lens2Um) },
    }),
  }
  return {
    ...base,
    requirements: { ...base.requirements, channels: CHANNELS, pitch: um(PITCH_UM) },
    facets: base.facets.map((each) => ({ ...each, mfdX: um(2 * W_UM), mfdY: um(2 * W_UM) })),
    lenses: [
      lens('lens-1', F1_UM, PITCH_UM + errors.lens1PitchUm),
      lens('lens-2', F2_UM, PITCH_UM + errors.lens2PitchUm),
    ],
    candidates: base.candidates.map((each) => ({
      ...each,
      chain: each.chain.map((element) => (element.kind === 'gap' ? relay : element)),
      array: {
        pitch: um(PITCH_UM + errors.fibrePitchUm),
        coreX: normal(0, 'um', errors.coreUm),
        coreY: normal(0, 'um', errors.coreUm),
        bow: um(0),
        aim: 'sum of all',
      },
    })),
  }
}

/** Normal numbers of its own: a multiplicative generator (S. K. Park, K. W. Miller, Commun. ACM 31 (1988) 1192) and Box-Muller. */
function ownNormals(seed: number): () => number {
  let state = seed
  const uniform = () => {
    state = (state * 16_807) % 2_147_483_647
    return state / 2_147_483_647
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

const [ROLL_DEG, RESIDUAL_UM, DRIFT_UM, EXCESS_DB] = [0.08, 0.25, 0.4, 0.3]

/** Share of rows within EXCESS_DB of the perfect channel, by hand. */
function ownShare(errors: Errors, rows: number): number {
  const draw = ownNormals(4711)
  const sigmaRollRad = (ROLL_DEG * Math.PI) / 180
  let passed = 0
  for (let n = 0; n < rows; n++) {
    const rollRad = sigmaRollRad * draw()
    const lens2YUm = errors.lens2Um * draw()
    const channels = Array.from({ length: CHANNELS }, (_, i) => {
      const slot = i - (CHANNELS - 1) / 2
      const alongUm = slot * (PITCH_UM + errors.fibrePitchUm)
      return {
        fibreXUm: alongUm * Math.cos(rollRad) - slot * PITCH_UM + errors.coreUm * draw(),
        fibreYUm: alongUm * Math.sin(rollRad) + errors.coreUm * draw(),
        lens1XUm: slot * errors.lens1PitchUm,
        lens2XUm: slot * errors.lens2PitchUm,
      }
    })
    const offsets = channels.map(({ fibreXUm, fibreYUm, lens1XUm, lens2XUm }) => ({
      xUm: M * (lens1XUm - fibreXUm) + lens2XUm,
      yUm: -M * fibreYUm + lens2YUm,
      slopeX: (lens2XUm - lens1XUm) / F2_UM,
      slopeY: lens2YUm / F2_UM,
    }))
    // Equal forms of both outer channels: their power together is greatest half way between them, as long as they lie close.
    const [first, last] = [offsets[0]!, offsets[CHANNELS - 1]!]
    const shiftXUm = -M * RESIDUAL_UM * draw() - (first.xUm + last.xUm) / 2
    const shiftYUm = -M * (RESIDUAL_UM * draw() + DRIFT_UM) - (first.yUm + last.yUm) / 2
    const isGood = offsets.every(({ xUm, yUm, slopeX, slopeY }) => {
      const offset2 = (xUm + shiftXUm) ** 2 + (yUm + shiftYUm) ** 2
      const slope2 = slopeX ** 2 + slopeY ** 2
      return (
        NEPER_DB * (offset2 / W_UM ** 2 + (Math.PI * W_UM) ** 2 * (slope2 / WAVELENGTH_UM ** 2)) <= EXCESS_DB
      )
    })
    if (isGood) passed++
  }
  return passed / rows
}

const CASES: readonly (Errors & { readonly what: string })[] = [
  {
    what: 'a pitch error of the fibres',
    fibrePitchUm: 0.3,
    lens1PitchUm: 0,
    lens2PitchUm: 0,
    coreUm: 0.3,
    lens2Um: 0,
  },
  {
    what: 'a pitch error of lens array 2',
    fibrePitchUm: 0,
    lens1PitchUm: 0,
    lens2PitchUm: 0.12,
    coreUm: 0.3,
    lens2Um: 0,
  },
  {
    what: 'errors of all rows',
    fibrePitchUm: 0.2,
    lens1PitchUm: -0.1,
    lens2PitchUm: 0.1,
    coreUm: 0.4,
    lens2Um: 0.5,
  },
]

test.each(CASES)(
  'rows through lens arrays pass as often as rows simulated here: $what',
  ({ what: _, ...errors }) => {
    const project = relayRow(errors)
    const perfect = evaluateCandidate(project, 'matched').nominalDb
    const limit = quantityOf(perfect + EXCESS_DB, 'dB')
    const sequence: AssemblySequence = {
      costPerHour: 0,
      steps: [
        step('place', 'place', { sets: { roll: normal(0, 'deg', ROLL_DEG) } }),
        step('align', 'align', {
          signal: 'power at both outer channels',
          sets: { offsetX: normal(0, 'um', RESIDUAL_UM), offsetY: normal(0, 'um', RESIDUAL_UM) },
        }),
        step('fix', 'cure', { moves: { y: um(DRIFT_UM) } }),
        step('check', 'check', { limit }),
      ],
    }
    const compiled = compileSequence(project, 'matched', sequence)
    if (!compiled.ok) throw new Error(compiled.issues.map(({ message }) => message).join())
    expect(compiled.value.part.channels).toBe(CHANNELS)
    const samples = 1024
    const tally = sequenceRange(compiled.value, 3, 0, samples)
    const passed = (samples - (tally.rejected[3] ?? 0)) / samples
    const own = ownShare(errors, 10_000)
    expect(own).toBeGreaterThan(0.3)
    expect(own).toBeLessThan(0.7)
    expect(Math.abs(passed - own)).toBeLessThan(0.03)
  },
)

test('the usual alignment of the demo relay of twelve channels is on both outer ones', () => {
  const project = demoProject()
  const relay = project.candidates.find(({ id }) => id === 'relay')
  if (relay === undefined) throw new Error('the demo has a relay')
  expect(usualSequence(project, relay).steps.find(({ kind }) => kind === 'align')?.signal).toBe(
    'power at both outer channels',
  )
})
