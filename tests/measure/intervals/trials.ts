// One seeded trial of one method under one design: does the k = 2 interval hold the truth, and if not, is it said?

import { farFieldMfd, loopbackLoss, offsetScanMfd, secondMomentWidths } from '../../../src/measure'
import { lp01Intensity, lp01Petermann2Ratio } from '../../../src/measure/farField/farFieldShape'
import { InputError } from '../../../src/numerics/inputError'
import { solveLp01 } from '../../../src/optics/fibre/stepIndexMode'
import { gaussianImage, randomSource } from '../support/synthetic'
import { between, type Design, faultyScan, faultySeries, type Random, sign } from './designs'

export interface Trial {
  readonly inside: boolean
  readonly warned: boolean
  /** Whether a note calls the interval conservative. */
  readonly noted: boolean
  /** Expanded uncertainty relative to the truth. */
  readonly expanded: number
}

const trial = (
  value: number,
  truth: number,
  expanded: number | null,
  warnings: readonly string[],
  note: string | null = null,
): Trial => ({
  inside: Math.abs(value - truth) <= (expanded ?? 0),
  warned: warnings.length > 0,
  noted: note !== null,
  expanded: (expanded ?? 0) / truth,
})

function offsetTrial(design: Design, random: Random): Trial {
  const probe = 6
  const mfdUm = between(random, 4, 7)
  const radius = Math.hypot(probe, mfdUm) / 2
  const { at, power } = faultyScan(
    {
      shape: (x) => Math.exp(-2 * (x / radius) ** 2),
      half: 2.4 * radius,
      radius,
      centre: between(random, -0.3, 0.3) * radius,
      points: 41 + 2 * Math.floor(random.uniform() * 30),
      noise: between(random, 0.001, 0.004),
      floor: 0.005,
      beneath: 1,
    },
    design,
    random,
  )
  const result = offsetScanMfd({ positionUm: at, power, probeMfdUm: probe })
  return trial(result.mfdUm, mfdUm, result.uncertaintyUm, result.warnings, result.conservative)
}

function farFieldTrial(design: Design, random: Random): Trial {
  const wavelengthUm = 1.55
  const coreRadiusUm = 4.1
  const ka = (2 * Math.PI * coreRadiusUm) / wavelengthUm
  const mode = solveLp01(between(random, 1.8, 2.3))
  const degree = Math.PI / 180
  const scan = faultyScan(
    {
      shape: (angle) => lp01Intensity(mode, ka * Math.abs(Math.sin(angle * degree))),
      half: 26,
      radius: 6.5,
      centre: between(random, -0.5, 0.5),
      points: 105,
      noise: 5e-6,
      floor: 2e-5,
      beneath: 0.03,
    },
    design,
    random,
  )
  // An error in dB at the detector is relative to the far wings, not to the peak.
  const result = farFieldMfd({ angleRad: scan.at.map((a) => a * degree), power: scan.power, wavelengthUm })
  return trial(
    result.petermann2MfdUm,
    2 * coreRadiusUm * lp01Petermann2Ratio(mode),
    result.uncertaintyUm,
    result.warnings,
  )
}

/** Designs of one picture: what changes in time, or with a stage, has no part in it. */
function nearFieldTrial(design: Design, random: Random): Trial {
  const { normal } = random
  const majorUm = between(random, 8, 10)
  const minorUm = between(random, 5, 6)
  const peak = 40_000
  const image = gaussianImage({
    size: 128,
    pixelUm: 0.25,
    majorUm,
    minorUm,
    azimuthDeg: between(random, -90, 90),
    peak,
    background: 400,
    noise: 60,
    normal,
  })
  const proportional = design === 'multiplicative' ? between(random, 0, 0.03) : 0
  const tilt = design === 'sloped background' ? between(random, -300, 300) : 0
  const rowStep = design === 'random-walk source' ? between(random, 0, 20) : 0
  const bump = design === 'weak side peak' ? between(random, 0, 0.01) * peak : 0
  const bumpRadius = between(random, 6, 12)
  const away = sign(random) * between(random, 0, 6)
  let row = 0
  for (let j = 0; j < 128; j++) {
    row += rowStep * normal()
    for (let i = 0; i < 128; i++) {
      const [x, y] = [(i - 64) * 0.25, (j - 64) * 0.25]
      const k = j * 128 + i
      const light = (image.pixels[k] ?? 0) - 400
      const value =
        light * (1 + proportional * normal()) +
        400 +
        (tilt * x) / 16 +
        row +
        bump * Math.exp((-2 * ((x - away) ** 2 + y * y)) / bumpRadius ** 2)
      image.pixels[k] = Math.max(0, Math.round(value))
    }
  }
  let result: ReturnType<typeof secondMomentWidths>
  try {
    result = secondMomentWidths(image)
  } catch (error) {
    // A refusal with its reason.
    if (error instanceof InputError) return { inside: false, warned: true, noted: false, expanded: 0 }
    throw error
  }
  return trial(result.majorUm, majorUm, result.majorUncertaintyUm, result.warnings)
}

function loopbackTrial(design: Design, random: Random): Trial {
  const truth = { facetDb: between(random, 0.8, 2), slopeDbPerCm: between(random, 0.3, 1) }
  const result = loopbackLoss({ points: faultySeries(truth, design, random) })
  return trial(result.facetLossDb.value, truth.facetDb, result.facetLossDb.plusMinus, result.warnings)
}

export const METHODS = {
  'offset scan': {
    run: offsetTrial,
    designs: [
      'multiplicative',
      'drift',
      'sloped background',
      'jitter',
      'skew',
      'backlash',
      'random-walk source',
      'weak side peak',
    ],
  },
  'far field': {
    run: farFieldTrial,
    designs: [
      'multiplicative',
      'drift',
      'sloped background',
      'jitter',
      'skew',
      'backlash',
      'random-walk source',
      'weak side peak',
    ],
  },
  'near field': {
    run: nearFieldTrial,
    designs: ['multiplicative', 'sloped background', 'random-walk source', 'weak side peak'],
  },
  loopback: {
    run: loopbackTrial,
    designs: ['multiplicative', 'drift', 'sloped background', 'skew', 'random-walk source'],
  },
} as const satisfies Record<
  string,
  { readonly run: (design: Design, random: Random) => Trial; readonly designs: readonly Design[] }
>
export type Method = keyof typeof METHODS

const FIRST_SEED = 7001

export interface Coverage {
  readonly method: Method
  readonly design: Design
  readonly trials: number
  readonly inside: number
  readonly warned: number
  /** With a warning, or with a note that the interval is conservative. */
  readonly said: number
  /** Of the trials whose interval misses the truth. */
  readonly missedAndWarned: number
  readonly meanExpanded: number
}

/** `firstSeed`: another one gives other trials. */
export function coverage(method: Method, design: Design, trials: number, firstSeed = FIRST_SEED): Coverage {
  let inside = 0
  let warned = 0
  let said = 0
  let missedAndWarned = 0
  let expanded = 0
  for (let seed = firstSeed; seed < firstSeed + trials; seed++) {
    const each = METHODS[method].run(design, randomSource(seed))
    if (each.inside) inside++
    if (each.warned) warned++
    if (each.warned || each.noted) said++
    if (!each.inside && each.warned) missedAndWarned++
    expanded += each.expanded / trials
  }
  return { method, design, trials, inside, warned, said, missedAndWarned, meanExpanded: expanded }
}
