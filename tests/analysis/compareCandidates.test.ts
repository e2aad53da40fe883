import { describe, expect, test } from 'vitest'
import type { ArrayResult } from '../../src/analysis/array/runArray'
import { chipWindow } from '../../src/analysis/compare/chipWindows'
import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { lossShares } from '../../src/analysis/compare/lossGroups'
import { offsetExcess, pictureReachUm } from '../../src/analysis/compare/offsetExcess'
import { evaluateCandidate, tryEvaluate, type YieldResult } from '../../src/analysis/index'
import { pitchFinding } from '../../src/analysis/verdicts/pitch'
import type { RankedTolerance } from '../../src/analysis/yield/yieldResult'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { MountLayer } from '../../src/model/schema/mount'
import type { Project } from '../../src/model/schema/project'
import { askPercentile } from '../support/askLoss'
import { equalModes } from '../support/equalModes'
import { familiesProject, relayElement } from './support/families'

const focused = () =>
  familiesProject(relayElement({ frontGap: quantityOf(991.567, 'um'), backGap: quantityOf(301.321, 'um') }))

const cellsOf = (project: Project, rowId: string) => {
  const comparison = compareCandidates(project, tryEvaluate)
  const row = comparison.rows.find((each) => each.id === rowId)
  return Object.fromEntries(comparison.columns.map(({ candidateId }, i) => [candidateId, row?.cells[i]]))
}

describe('candidates side by side', () => {
  test('have a column each, also where they cannot be computed, and rows as long as the columns', () => {
    const project = focused()
    const gap = project.candidates[2]?.chain[1]
    if (gap?.kind === 'gap') gap.mediumId = 'adhesive'
    const { columns, rows } = compareCandidates(project, tryEvaluate)
    expect(columns.map((column) => column.issues.length)).toEqual([0, 0, 1, 0, 0, 0, 0])
    expect(rows.every((row) => row.cells.length === columns.length)).toBe(true)
    expect(rows.find((row) => row.id === 'nominal')?.cells[2]).toEqual({ value: null, text: '' })
  })

  test('say what each evaluation says', () => {
    const project = focused()
    const nominal = cellsOf(project, 'nominal')
    for (const { id } of project.candidates) {
      expect(nominal[id]?.value).toBe(evaluateCandidate(project, id).nominalDb)
    }
    expect(cellsOf(project, 'stretch').relay).toMatchObject({ value: 5, text: '5.0' })
    expect(cellsOf(project, 'splices')['high-na-bonded']?.value).toBe(1)
    expect(cellsOf(project, 'steps').relay?.value).toBe(3)
    expect(cellsOf(project, 'steps').taper?.value).toBe(2)
    expect(cellsOf(project, 'medium')['ground-tip']?.text).toBe('Air')
  })

  test('say where an entered value replaces a joint, and how many cautions there are', () => {
    const project = focused()
    expect(cellsOf(project, 'nominal').relay).not.toHaveProperty('reason')
    const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (relay?.kind === 'relay') relay.typedLoss = quantityOf(1, 'dB')
    expect(cellsOf(project, 'nominal').relay?.reason).toBe('one joint is an entered value')
    expect(cellsOf(project, 'cautions')['cleaved-dry']?.value).toBe(0)
    // Both lenses and the isolator are wider than the pitch of twelve channels.
    expect(cellsOf(project, 'cautions').relay?.value).toBe(3)
  })

  test('list the pitches along the path, and the temperatures that the limit allows', () => {
    const project = focused()
    expect(cellsOf(project, 'pitches').taper).toMatchObject({
      text: '12',
      reason: 'input of Glass taper chip 127, output of Glass taper chip 127, chip 127 µm',
    })
    expect(cellsOf(project, 'reach').taper).toMatchObject({ value: null, text: 'not evaluated' })
    const taper = project.candidates.find(({ id }) => id === 'taper')
    const layer: MountLayer = {
      expansion: { kind: 'material', material: 'silicon' },
      axis: 'y',
      length: quantityOf(10, 'mm'),
    }
    if (taper !== undefined) {
      taper.mount = { assemblyTemperature: quantityOf(20, 'degC'), fibreSide: [layer], chipSide: [layer] }
    }
    // Equal stacks move nothing, and the adhesive's index alone never costs the limit.
    expect(cellsOf(project, 'reach').taper?.text).toBe('below −65 to above 150')
  })

  test('compute cost from the entered values, shared by the channels, and leave it open without them', () => {
    const project = focused()
    const [first] = project.candidates
    if (first !== undefined) first.cost = { perChannel: 40, perModule: 120 }
    const cost = cellsOf(project, 'cost')
    expect(cost['cleaved-dry']?.value).toBe(50)
    expect(cost.relay?.text).toBe('not known')
  })

  test('meet the collimated section with a relay only, and the cost ceiling by its number', () => {
    const project = focused()
    project.requirements.collimatedSection = true
    project.requirements.costCeiling = 45
    const [first] = project.candidates
    if (first !== undefined) first.cost = { perChannel: 40, perModule: 120 }
    const collimated = cellsOf(project, 'verdict-collimated')
    expect(collimated.relay).toMatchObject({ status: 'met' })
    expect(collimated['high-na-bonded']).toMatchObject({ status: 'not met' })
    expect(cellsOf(project, 'verdict-cost')['cleaved-dry']).toMatchObject({
      status: 'not met',
      reason: '50; limit 45',
    })
  })
})

describe('the rows of runs', () => {
  const tolerance = (
    label: string,
    yieldGainHalved: number,
    gainDb: number,
    errorDb: number,
  ): RankedTolerance => ({
    path: [label],
    label,
    plusMinus: 1,
    unit: 'µm',
    firstOrder: 0,
    total: 0.5,
    yieldPerUnit: 0,
    yieldGainHalved,
    percentile: 0.9,
    percentileGainHalvedDb: gainDb,
    percentileGainErrorDb: errorDb,
  })
  const cellOf = (rowId: string, run: object | null, array: object | null = null, channels = 12) => {
    const project = askPercentile(focused(), 90)
    project.requirements.channels = channels
    const [id] = project.candidates.map((each) => each.id)
    const { rows } = compareCandidates(
      project,
      tryEvaluate,
      new Map(
        run === null
          ? []
          : [
              [
                id!,
                {
                  percentiles: [],
                  temperaturesC: [],
                  yieldInterval: { low: 0, high: 1 },
                  samples: 1,
                  ...run,
                } as unknown as YieldResult,
              ],
            ],
      ),
      new Map(array === null ? [] : [[id!, array as unknown as ArrayResult]]),
    )
    return rows.find((each) => each.id === rowId)?.cells[0]
  }

  test('name the tolerance that gains most yield, whatever makes most of the spread', () => {
    const ranking = [tolerance('offset x', 0.01, 0.5, 0.01), tolerance('tilt y', 0.125, 0.25, 0.05)]
    expect(cellOf('tighten', { ranking })).toEqual({
      value: null,
      text: 'tilt y',
      reason: 'halved: +12.5 percentage points of yield, P90 −0.25 ± 0.05 dB',
    })
  })

  test('name those that gain most at the percentile where none gains yield, as many as chance leaves equal', () => {
    const ranking = [
      tolerance('gap', 0, 0.2, 0.01),
      tolerance('offset x', 0, 0.5, 0.05),
      // 0.12 dB apart with a standard error of 0.0707: within 1.96 of them.
      tolerance('offset y', 0, 0.38, 0.05),
      tolerance('roll', 0, 0.9, 0.6),
    ]
    expect(cellOf('tighten', { ranking })).toMatchObject({
      text: 'offset x or offset y',
      reason:
        'halved: 0.0 percentage points of yield, P90 −0.50 ± 0.05 dB; not distinguishable from each other',
    })
    expect(cellOf('tighten', { ranking: ranking.slice(0, 2) })).toMatchObject({ text: 'offset x' })
    expect(cellOf('tighten', { ranking: ranking.slice(3) })).toMatchObject({ text: 'not distinguishable' })
    expect(cellOf('tighten', { ranking: [] })).toMatchObject({ text: 'no tolerance' })
    expect(cellOf('tighten', null)).toMatchObject({ text: 'not evaluated' })
  })

  test('have the percentile that is required, the median and P99, each with its interval', () => {
    const percentiles = [0.5, 0.9, 0.95, 0.99].map((share) => ({
      share,
      lossDb: 10 * share,
      lowDb: 10 * share - 1,
      highDb: 10 * share + 1,
    }))
    expect(cellOf('p90', { percentiles, ranking: [] })).toEqual({
      value: 9,
      text: '9.00',
      reason: '8.00 to 10.00',
    })
    expect(cellOf('p50', { percentiles, ranking: [] })?.value).toBe(5)
    expect(cellOf('p99', { percentiles, ranking: [] })?.value).toBe(9.9)
  })

  test('take of an array the aim that the station has, and none of a single channel', () => {
    const aim = (name: string, share: number) => ({
      aim: name,
      allChannelsYield: share,
      allChannelsInterval: { low: share - 0.1, high: share + 0.1 },
      worstChannelYield: share + 0.05,
    })
    const array = { aim: 'ends', aims: [aim('middle', 0.25), aim('ends', 0.75)], samples: 64, seed: 7 }
    expect(cellOf('all-channels', null, array)).toEqual({
      value: 75,
      text: '75.0',
      reason: '65.0 to 85.0; 64 arrays, seed 7',
    })
    expect(cellOf('worst-channel', null, array)?.value).toBeCloseTo(80, 9)
    expect(cellOf('all-channels', null, array, 1)?.text).toBe('one channel')
    expect(cellOf('pitch', null, null, 1)?.text).toBe('one channel')
    expect(cellOf('all-channels', null, null, 2)?.text).toBe('not evaluated')
  })
})

test('bars side by side hold every line once', () => {
  const evaluation = evaluateCandidate(focused(), 'high-na-bonded')
  const shares = lossShares(evaluation.lines)
  expect(shares.reduce((sum, { lossDb }) => sum + lossDb, 0)).toBeCloseTo(evaluation.nominalDb, 9)
  const splice = evaluation.lines.find(({ kind }) => kind === 'splice')?.lossDb
  expect(shares.find(({ id }) => id === 'joined')?.lossDb).toBe(splice)
})

describe('small pictures of the offset', () => {
  test('reach 1.2 times the widest 1 dB offset, and show the closed form about the working point', () => {
    // Equal modes of w = 5.2 µm lose 1 dB at 2.4953 µm (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703): 2.994 µm, in whole ones 3.
    const [wide, narrow] = [equalModes(10.4), equalModes(4)]
    expect(pictureReachUm([{ joint: narrow }, { joint: wide }])).toBe(3)
    expect(pictureReachUm([{ joint: equalModes(1) }])).toBe(1)
    const { x, y } = offsetExcess({ joint: { ...wide, offsetXUm: 1 } }, 3)
    // About an offset of 1 µm: 4.342945 ((1 + d)² - 1) / 5.2² along x, 4.342945 d² / 5.2² along y; ends at ∓3 µm.
    const dB = (square: number) => (4.342945 * square) / 5.2 ** 2
    expect([x[0], x[24], x[48]].map((each) => Number(each?.toFixed(5)))).toEqual(
      [dB(3), 0, dB(15)].map((each) => Number(each.toFixed(5))),
    )
    expect(y[0]).toBeCloseTo(dB(9), 5)
    expect(y[36]).toBeCloseTo(dB(2.25), 5)
  })
})

describe('the alignment tolerance at the chip', () => {
  test('of matched round modes is the published 1 dB offset: MFD 3.2 um, 0.768 um either way', () => {
    // D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory).
    const joint = {
      wavelengthUm: 1.55,
      index: 1,
      emitterMfdXUm: 3.2,
      emitterMfdYUm: 3.2,
      receiverMfdXUm: 3.2,
      receiverMfdYUm: 3.2,
      offsetXUm: 0,
      offsetYUm: 0,
      gapUm: 12,
      tiltXRad: 0,
      tiltYRad: 0,
      rollRad: 0,
      waistXUm: 12,
      waistYUm: 12,
    }
    expect(chipWindow(joint, 'offsetXUm')?.distance).toBeCloseTo(0.767764145950093, 6)
    // A tilt about the facet: no lever of the working distance. Same source, 1 dB at lambda / (pi w) sqrt(0.23).
    const tilt = (1.55 / (Math.PI * 1.6)) * Math.sqrt(Math.LN10 / 10)
    expect(chipWindow(joint, 'tiltXRad')?.distance).toBeCloseTo(tilt, 6)
    expect(chipWindow(joint, 'tiltXRad')?.only).toBeNull()
  })

  test('of a gap that can only open has the sign of that side', () => {
    const cells = Object.values(cellsOf(focused(), 'z'))
    const open = cells.filter((cell) => cell?.reason === 'reached on one side only')
    expect(open.length).toBeGreaterThan(0)
    for (const cell of open) {
      expect(cell?.value).toBeGreaterThan(0)
      expect(cell?.text).toBe(`+${cell?.value?.toFixed(1)}`)
    }
    expect(cells.some((cell) => cell?.reason === undefined && /^\d/.test(cell?.text ?? ''))).toBe(true)
  })
})

describe('pitches', () => {
  test('that agree are met, and one that does not says by how much the outer channel misses', () => {
    const project = focused()
    const taper = project.candidates.find((each) => each.id === 'taper')
    if (taper === undefined) throw new Error('no taper')
    expect(pitchFinding(project, taper)).toMatchObject({ outerErrorUm: 0, mismatch: '', unknown: [] })
    const chip = project.converters.find((each) => each.id === 'taper')
    if (chip?.kind === 'taper chip') chip.outputPitch = quantityOf(125, 'um')
    const finding = pitchFinding(project, taper)
    // Eleven steps of 2 um over twelve channels, half to either side.
    expect(finding.outerErrorUm).toBeCloseTo(11, 12)
    expect(finding.mismatch).toContain('output of Glass taper chip has a pitch of 125 µm, chip 127 µm')
  })

  test('that a lens does not state are not known', () => {
    const project = focused()
    expect(cellsOf(project, 'verdict-pitch').relay).toMatchObject({ status: 'not known' })
    for (const lens of project.lenses) lens.pitch = quantityOf(127, 'um')
    expect(cellsOf(project, 'verdict-pitch').relay).toMatchObject({ status: 'met' })
  })
})
