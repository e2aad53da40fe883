import { describe, expect, test } from 'vitest'
import { runArray } from '../../../src/analysis/array/runArray'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { FibreArray } from '../../../src/model/schema/fibreArray'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject } from '../support/families'
import { matchedProject, normal } from '../yield/cases'

const none = quantityOf(0, 'um')
const PLAIN: FibreArray = {
  pitch: quantityOf(127, 'um'),
  coreX: none,
  coreY: none,
  bow: none,
  aim: 'sum of all',
}

function arrayProject(channels: number, gap: Partial<GapElement>, array: Partial<FibreArray> = {}): Project {
  const project = matchedProject(10.4, 0.5, gap)
  return {
    ...project,
    requirements: { ...project.requirements, channels, pitch: quantityOf(127, 'um') },
    candidates: project.candidates.map((candidate) => ({ ...candidate, array: { ...PLAIN, ...array } })),
  }
}

const SIGMA = quantityOf(0, 'um', 'estimate', normal(1))
/** Closed yield of one channel: Rayleigh, sigma 1.0 um, MFD 10.4 um, 0.5 dB. */
const ONE = 0.7891371850066711

describe('an array whose channels', () => {
  test('share every error passes as often as one channel does', () => {
    const result = runArray(arrayProject(8, { offsetX: SIGMA, offsetY: SIGMA }), 'matched', { samples: 8192 })
    const [aim] = result.aims
    expect(aim?.allChannelsYield).toBeCloseTo(ONE, 2)
    expect(aim?.worstChannelYield).toBe(aim?.allChannelsYield)
    expect(aim?.allChannelsInterval.low).toBeLessThan(ONE)
  })

  test('have errors of their own passes as the product of their yields', () => {
    const result = runArray(arrayProject(4, {}, { coreX: SIGMA, coreY: SIGMA }), 'matched', {
      samples: 16_384,
    })
    const [aim] = result.aims
    expect(aim?.allChannelsYield).toBeCloseTo(ONE ** 4, 2)
    for (const channel of aim?.channels ?? []) expect(channel.yield).toBeCloseTo(ONE, 2)
  })

  test('number only one gives the result of the path alone', () => {
    const project = arrayProject(1, { offsetX: SIGMA, offsetY: SIGMA })
    const alone = runYield(project, 'matched', { samples: 50_000, rankingPoints: null })
    const channel = runArray(project, 'matched', { samples: 8192 }).aims[0]?.channels[0]
    expect(channel?.p95Db).toBeCloseTo(alone.p95Db, 1)
    expect(channel?.yield).toBeCloseTo(alone.yield, 2)
  })
})

describe('aligning the block', () => {
  const errors = {
    coreX: quantityOf(0, 'um', 'estimate', normal(0.7)),
    coreY: quantityOf(0, 'um', 'estimate', normal(0.7)),
  }
  const project = arrayProject(
    8,
    { offsetX: none, roll: quantityOf(0, 'deg'), aligned: ['offsetX', 'offsetY', 'roll'] },
    { ...errors, bow: quantityOf(1, 'um') },
  )
  const result = runArray(project, 'matched', { samples: 1024 })
  const of = (aim: string) => {
    const found = result.aims.find((each) => each.aim === aim)
    if (found === undefined) throw new Error(aim)
    return found
  }

  test('for the sum leaves most power, for the worst channel the least worst loss', () => {
    for (const other of ['worst channel', 'outer two']) {
      expect(of('sum of all').meanPowerLossDb).toBeLessThan(of(other).meanPowerLossDb)
    }
    for (const other of ['sum of all', 'outer two']) {
      expect(of('worst channel').meanWorstDb).toBeLessThan(of(other).meanWorstDb)
    }
  })

  test('for the outer two alone adds loss to the inner channels of a bowed array', () => {
    const outer = of('outer two').channels
    expect(outer[3]?.nominalDb).toBeGreaterThan((outer[0]?.nominalDb ?? 9) + 0.05)
    expect(of('worst channel').allChannelsYield).toBeGreaterThan(of('outer two').allChannelsYield)
  })

  test('removes a common shift and roll, and not the cure shift', () => {
    const rolled = arrayProject(8, {
      offsetX: quantityOf(0, 'um'),
      roll: quantityOf(0.2, 'deg', 'estimate'),
      aligned: ['offsetX', 'offsetY'],
    })
    const turned = arrayProject(8, { aligned: ['offsetX', 'offsetY', 'roll'] })
    const bonded = arrayProject(8, {
      aligned: ['offsetX', 'offsetY', 'roll'],
      bondShift: { x: quantityOf(1, 'um'), y: none, z: none },
    })
    const worst = (each: Project) =>
      Math.max(...(runArray(each, 'matched', { samples: 8 }).aims[0]?.channels ?? []).map((c) => c.nominalDb))
    expect(worst(turned)).toBeLessThan(1e-9)
    expect(worst(rolled)).toBeGreaterThan(0.3)
    // One micrometre at MFD 10.4 um: 0.160612 dB (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).
    expect(worst(bonded)).toBeCloseTo(0.160612, 6)
  })
})

describe('a station', () => {
  const shifted: Partial<GapElement> = { offsetX: quantityOf(0, 'um'), offsetY: quantityOf(0, 'um') }
  const off = { coreX: quantityOf(1, 'um'), coreY: quantityOf(1, 'um') }
  const nominal = (each: Project) => runArray(each, 'matched', { samples: 8 }).aims[0]?.channels[0]?.nominalDb

  test('that aligns x alone leaves y as it was placed', () => {
    // One micrometre at MFD 10.4 um: 0.160612 dB (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703); x and y are separate.
    expect(nominal(arrayProject(4, { ...shifted, aligned: ['offsetX'] }, off))).toBeCloseTo(0.160612, 6)
    expect(nominal(arrayProject(4, { ...shifted, aligned: ['offsetX', 'offsetY'] }, off))).toBeLessThan(1e-9)
    expect(nominal(arrayProject(4, shifted, off))).toBeCloseTo(2 * 0.160612, 5)
  })

  test('that aligns the roll alone turns the block, and leaves a shift of all cores', () => {
    const rolled = arrayProject(4, { ...shifted, aligned: ['roll'] }, { coreY: quantityOf(1, 'um') })
    expect(nominal(rolled)).toBeCloseTo(0.160612, 6)
  })

  test('that searches gap and tilts too finds the same for one channel as for the path alone', () => {
    const project = familiesProject()
    project.requirements.channels = 1
    const candidate = project.candidates.find((each) => each.id === 'spot-tip')
    const gap = candidate?.chain.find((each) => each.kind === 'gap')
    if (gap?.kind !== 'gap') throw new Error('no gap')
    gap.gap = quantityOf(0, 'um')
    gap.tiltX = quantityOf(0.4, 'deg')
    gap.nearFaceAngle = quantityOf(0, 'deg')
    gap.aligned = ['offsetX', 'offsetY', 'gap', 'tiltX', 'tiltY']
    const { joints, nominalDb } = evaluateCandidate(project, 'spot-tip')
    // The tip's waist lies 12 um out: contact would be far from the best.
    expect(joints.at(-1)?.joint.gapUm).toBeGreaterThan(8)
    const channel = runArray(project, 'spot-tip', { samples: 8 }).aims[0]?.channels[0]
    expect(channel?.nominalDb).toBeCloseTo(nominalDb, 6)
  })
})

describe('a mounted array', () => {
  const mounted = (lengthMm: number) => {
    const project = arrayProject(4, {})
    project.requirements.temperatureMin = quantityOf(20, 'degC')
    project.requirements.temperatureMax = quantityOf(80, 'degC')
    for (const candidate of project.candidates) {
      candidate.mount = {
        assemblyTemperature: quantityOf(20, 'degC'),
        fibreSide: [
          {
            expansion: { kind: 'value', expansion: quantityOf(5.9, 'ppm/K') },
            axis: 'y',
            length: quantityOf(lengthMm, 'mm'),
          },
        ],
        chipSide: [],
      }
    }
    return runArray(project, 'matched', { samples: 8 })
  }
  test('includes in every channel the excess loss of the movement at the worst temperature', () => {
    // 5.9 ppm/K over 60 K: 2.82486 mm move by 1 um, which at MFD 10.4 um costs 0.160612 dB (Marcuse 1977).
    const { aims, temperaturesC, assumptions } = mounted(1000 / 5.9 / 60)
    expect(temperaturesC).toEqual([20, 20, 80])
    for (const { p50Db, nominalDb } of aims[0]?.channels ?? []) {
      expect(p50Db).toBeCloseTo(0.160612, 6)
      expect(nominalDb).toBeCloseTo(0.160612, 6)
    }
    expect(assumptions.join(' ')).toContain('worst temperature (20 °C, 20 °C and 80 °C)')
  })
})

describe('what to tighten for all channels', () => {
  test('promises the closed yield of half the tolerance, and leaves out what does not matter', () => {
    const project = arrayProject(
      4,
      { roll: quantityOf(0, 'deg', 'estimate', 1e-5), offsetX: SIGMA, offsetY: SIGMA },
      {},
    )
    const { ranking, aims } = runArray(project, 'matched', { samples: 4096 })
    expect(ranking.tolerances.map((each) => each.label).sort()).toEqual(['offset x', 'offset y'])
    expect(ranking.others).toBe(1)
    // Normals of sigma 1.0 and 0.5 um within the disc of 1.764397 um: 0.905863 (scipy.integrate.quad over scipy.stats.norm).
    for (const { yieldGainHalved, plusMinus, unit } of ranking.tolerances) {
      expect(Math.abs((aims[0]?.allChannelsYield ?? 0) + yieldGainHalved - 0.905863)).toBeLessThan(0.02)
      expect([plusMinus, unit]).toEqual([1, 'µm'])
    }
  })
})

test('an array with more random numbers than the Sobol sequence has dimensions says so', () => {
  const errors = { coreX: SIGMA, coreY: SIGMA }
  const said = (channels: number) =>
    runArray(arrayProject(channels, {}, errors), 'matched', { samples: 2 }).assumptions.join(' ')
  expect(said(64)).toContain(
    'An array uses 128 random numbers: the first 96 are dimensions of a Sobol sequence',
  )
  expect(said(8)).not.toContain('pseudo-random')
})

test('one channel is placed one way only, and a block without tolerances has nothing to tighten', () => {
  const single = arrayProject(1, { aligned: ['offsetX', 'offsetY'], offsetX: SIGMA })
  expect(runArray(single, 'matched', { samples: 32 }).aims).toHaveLength(1)
  const exact = arrayProject(3, {})
  const { aims, ranking } = runArray(exact, 'matched', { samples: 32 })
  expect(aims[0]?.allChannelsYield).toBe(1)
  expect(ranking.tolerances).toEqual([])
})

test('the same seed gives the same blocks, and numbers out of range are refused', () => {
  const project = demoProject()
  const options = { samples: 64, seed: 5 }
  const first = runArray(project, 'high-na-bonded', options)
  expect(runArray(project, 'high-na-bonded', options)).toEqual(first)
  expect(first.aims[0]?.channels).toHaveLength(12)
  expect(() => runArray(project, 'high-na-bonded', { samples: 0 })).toThrow('samples is 0')
})
