// Monte Carlo against closed forms: 2^18 scrambled Sobol points. Their error here is below a fifth of the binomial one; the
// tolerances are that.

import { channelDisplacement } from '../../../src/analysis/array/blockGeometry'
import { runYield } from '../../../src/analysis/index'
import { temperatureSweep } from '../../../src/analysis/temperature/temperatureSweep'
import { deviationOf, standardDeviationOf } from '../../../src/analysis/tolerance/deviation'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { NO_SPREAD } from '../../../src/model/quantity/spread'
import type { MountLayer } from '../../../src/model/schema/mount'
import { normalProbability } from '../../../src/numerics/normal'
import { effectIndices } from '../../../src/numerics/random/effectIndices'
import type { SolidName } from '../../../src/optics/index'
import { isotropic, matchedProject } from '../../analysis/yield/cases'
import { type CheckRow, recordedRow } from '../checkRow'

const SAMPLES = 2 ** 18

/** Each case is run once, however many rows read it. */
function once<T>(compute: () => T): () => T {
  let kept: { readonly value: T } | null = null
  return () => {
    kept ??= { value: compute() }
    return kept.value
  }
}

const offsets = once(() =>
  runYield(isotropic(10.4, 1, 0.5), 'matched', { samples: SAMPLES, seed: 1, rankingPoints: null }),
)
const small = once(() =>
  runYield(isotropic(3.2, 0.5, 1), 'matched', { samples: SAMPLES, seed: 1, rankingPoints: null }),
)

/** Mean transmission from the run's histogram would be coarse; sampled anew from the exponential law's inverse. */
const meanTransmission = once(() => {
  const project = isotropic(10.4, 1, 0.5)
  const { histogram, samples } = runYield(project, 'matched', {
    samples: SAMPLES,
    seed: 1,
    rankingPoints: null,
  })
  const { fromDb, stepDb, counts, beyond } = histogram
  // Within a class the density falls by exp(-step/mean); its mean transmission is that of the class's middle to 1e-5.
  const inside = counts.reduce(
    (sum, count, i) => sum + count * 10 ** (-(fromDb + (i + 0.5) * stepDb) / 10),
    0,
  )
  const end = fromDb + counts.length * stepDb
  return (inside + beyond * 10 ** (-(end + 0.3) / 10)) / samples
})

const layer = (material: SolidName, lengthMm: number): MountLayer => ({
  expansion: { kind: 'material', material },
  axis: 'y',
  length: quantityOf(lengthMm, 'mm'),
})

function movementUm(fibreSide: readonly MountLayer[], chipSide: readonly MountLayer[]): number {
  const project = matchedProject(10.4, 1)
  const [candidate] = project.candidates
  if (candidate === undefined) throw new Error('no candidate')
  candidate.mount = {
    assemblyTemperature: quantityOf(20, 'degC'),
    fibreSide: [...fibreSide],
    chipSide: [...chipSide],
  }
  project.requirements.temperatureMin = quantityOf(20, 'degC')
  project.requirements.temperatureMax = quantityOf(80, 'degC')
  const result = temperatureSweep(project, 'matched')
  return result.ok ? (result.value.movements[1]?.yUm ?? Number.NaN) : Number.NaN
}

const ISHIGAMI =
  "T. Ishigami and T. Homma, Proc. ISUMA '90 (1990) 398 (a = 7, b = 0.1; closed forms of the variances, from memory)"

const ishigami = once(() =>
  effectIndices(
    (u) => {
      const [x = 0, y = 0, z = 0] = u.map((each) => Math.PI * (2 * each - 1))
      return Math.sin(x) + 7 * Math.sin(y) ** 2 + 0.1 * z ** 4 * Math.sin(x)
    },
    3,
    2 ** 15,
    1,
  ),
)

function effect(kind: 'firstOrder' | 'total', input: number, expected: number): CheckRow {
  return {
    id: `ishigami-${kind === 'total' ? 'T' : 'S'}${input + 1}`,
    quantity: `${kind === 'total' ? 'total' : 'first-order'} effect index of input ${input + 1}`,
    source: ISHIGAMI,
    input: '2^15 Sobol points',
    expected,
    unit: '1',
    tolerance: 0.003,
    ours: () => ishigami()[kind][input] ?? Number.NaN,
  }
}

function fallOut(cpk: number, label: string, expected: number): CheckRow {
  return {
    id: `cpk-${label}`,
    quantity: 'one-sided fall-out of a normal process',
    source:
      'normal tail at -3 Cpk, D. C. Montgomery, Introduction to Statistical Quality Control (2009), ch. 8 (from memory)',
    input: `Cpk ${label}`,
    expected,
    unit: 'ppm',
    tolerance: 0.05,
    ours: () => normalProbability(-3 * cpk) * 1e6,
  }
}

export const yieldChecks: readonly CheckRow[] = [
  recordedRow('yield-1', () => offsets().yield, { tolerance: 1.6e-4 }),
  recordedRow('yield-2', () => small().yield, { tolerance: 1.8e-4 }),
  recordedRow('yield-mean-dB', () => offsets().meanDb, { tolerance: 1.3e-4 }),
  recordedRow('yield-mean-eta', meanTransmission, { tolerance: 2e-4 }),
  recordedRow('yield-p95', () => offsets().p95Db, { tolerance: 5.5e-4 }),
  recordedRow(
    'gum-rect',
    () => standardDeviationOf({ ...NO_SPREAD, distribution: 'uniform', halfWidth: 0.5 }),
    {
      unit: 'um',
    },
  ),
  {
    id: 'gum-triangle',
    quantity: 'standard uncertainty of a triangular distribution of half width 0.5',
    source: 'JCGM 100:2008, 4.3.9, a / sqrt(6) (from memory)',
    input: 'a 0.5',
    expected: 0.5 / Math.sqrt(6),
    unit: 'um',
    tolerance: 1e-9,
    ours: () => standardDeviationOf({ ...NO_SPREAD, distribution: 'triangular', halfWidth: 0.5 }),
  },
  {
    id: 'normal-975',
    quantity: 'deviation that a normal tolerance of one sigma stays below in 97.5 % of samples',
    source:
      'M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions (1964), ch. 26, table of the normal distribution (value from memory)',
    published: true,
    input: 'u = 0.975',
    expected: 1.959964,
    unit: 'sigma',
    tolerance: 1e-6,
    ours: () => deviationOf({ ...NO_SPREAD, distribution: 'normal', halfWidth: 1, coverage: 1 })(0.975),
  },
  effect('firstOrder', 0, 0.3139),
  effect('firstOrder', 1, 0.4424),
  effect('firstOrder', 2, 0),
  effect('total', 0, 0.5576),
  effect('total', 1, 0.4424),
  effect('total', 2, 0.2437),
  fallOut(1, '1.00', 1349.9),
  fallOut(4 / 3, '4/3', 31.671),
  recordedRow('cte-1', () => movementUm([layer('Fe-Ni-Co sealing alloy', 10)], [layer('silicon', 10)])),
  {
    id: 'cte-epoxy',
    quantity: 'growth of an epoxy bond line of 20 um over 60 K',
    source: 'coefficient 55 ppm/K, table of thermal expansion, clean room of Brigham Young University',
    input: 'length 20 um, 60 K',
    expected: 0.066,
    unit: 'um',
    tolerance: 1e-6,
    ours: () => movementUm([layer('epoxy', 0.02)], []),
  },
  {
    id: 'array-roll',
    quantity: 'displacement of the outer fibre of 12 at 250 um pitch, rolled by 0.1 deg',
    source: 'common practice, no source: rigid rotation, (N - 1) / 2 * pitch * sin(roll)',
    input: '12 fibres, 250 um, 0.1 deg',
    expected: 2.4,
    unit: 'um',
    tolerance: 0.001,
    ours: () =>
      channelDisplacement(11, 12, {
        nearPitchUm: 250,
        farPitchUm: 250,
        rollRad: 0.1 * (Math.PI / 180),
        tiltXRad: 0,
        bowUm: 0,
      }).yUm,
  },
]
