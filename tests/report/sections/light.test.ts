// The sections about light, on results that are known beforehand.

import { describe, expect, test } from 'vitest'
import type { JointView } from '../../../src/analysis/results/evaluation'
import type {
  ChainReflection,
  PortReturn,
  PowerFinding,
  Ripple,
} from '../../../src/analysis/results/lightResults'
import { figuresOf } from '../../../src/report/document/figureBlock'
import { crossSectionSection } from '../../../src/report/sections/light/crossSection'
import { fieldsSection } from '../../../src/report/sections/light/fields'
import { powerSection } from '../../../src/report/sections/light/power'
import { reflectionsSection } from '../../../src/report/sections/light/reflections'
import { spectrumSection } from '../../../src/report/sections/light/spectrum'
import { twoDesigns } from '../../support/twoDesigns'
import {
  contextOf,
  evaluatedAs,
  plainCandidate,
  readRows,
  tablesIn,
  wordsIn,
} from '../support/sectionContext'

const { evaluation, candidate } = plainCandidate()
const [joint] = evaluation.joints
if (joint === undefined) throw new Error('no joint')

test('fields are given with what they change, their numerical error and what is moved, or why they are not used', () => {
  const withLoss = (loss: unknown, moves?: string): JointView => ({
    ...joint,
    field: {
      spec: {},
      nearName: 'stub',
      farName: 'facet',
      loss,
      ...(moves && { moves }),
    } as unknown as NonNullable<JointView['field']>,
  })
  const joints = [
    withLoss({ gaussianDb: 1.25, fieldDb: 1.5, errorDb: 0.00234 }),
    withLoss({ gaussianDb: 1.25, fieldDb: 1, errorDb: 0.0001 }, 'moved'),
    withLoss({ gaussianDb: 1, fieldDb: 1, errorDb: 0.00009 }, 'moved'),
    withLoss({ refusal: 'no grid holds them' }),
    joint,
  ]
  expect(
    readRows(tablesIn(fieldsSection.build(contextOf([evaluatedAs({ joints })])))[0]).map((row) =>
      row.slice(1),
    ),
  ).toEqual([
    [
      'stub to facet',
      '1.250',
      '1.500',
      '0.250',
      '0.002',
      'tolerances are applied to the Gaussian joint; the difference is held constant',
    ],
    ['stub to facet', '1.250', '1.000', '−0.250', '0.0001', 'moved'],
    ['stub to facet', '1.000', '1.000', '0.000', 'under 0.0001', 'moved'],
    ['stub to facet', '', '', '', '', 'not used: no grid holds them'],
  ])
  expect(fieldsSection.build(contextOf([plainCandidate()]))).toEqual([])
})

test('power is in mW, irradiance in kW/cm², both with their share', () => {
  const location = {
    elementId: 'gap',
    label: 'Facet',
    powerUw: 1234.5,
    mfdXUm: 3.4567,
    mfdYUm: 2,
    irradiance: 25,
    limit: { what: 'adhesive', irradiance: 100 },
  }
  const power: PowerFinding = {
    inUw: 2000,
    outUw: 1000,
    fromChip: false,
    locations: [location, { ...location, limit: null }],
    shares: {
      delivered: 1000,
      reflected: 10,
      'not coupled': 900,
      'lost in components': 90,
    },
  }
  const [along, shares] = tablesIn(powerSection.build(contextOf([evaluatedAs({ power })])))
  // 1 µW/µm² is 1e-6 W / 1e-8 cm² = 100 W/cm² = 0.1 kW/cm².
  expect(readRows(along)).toEqual([
    ['Facet', '1.23', '3.46', '2', '2.5', '25', 'adhesive'],
    ['Facet', '1.23', '3.46', '2', '2.5', 'none set', ''],
  ])
  expect(readRows(shares)).toEqual([
    ['delivered', '1', '50.0'],
    ['reflected', '0.01', '0.5'],
    ['not coupled', '0.9', '45.0'],
    ['lost in components', '0.09', '4.5'],
    ['Launched', '2', '100.0'],
  ])
})

describe('reflections', () => {
  const face = (label: string, more: Partial<ChainReflection> = {}): ChainReflection => ({
    elementId: 'gap',
    face: 'near',
    label,
    reflectance: 0.0345,
    intoNearDb: 14.6,
    intoFarDb: null,
    atFibreDb: 15.6,
    atChipDb: 200,
    ...more,
  })
  const port = (atLeast: boolean): PortReturn => ({
    incoherentDb: 14.1,
    coherentDb: 9.5,
    atLeast,
    atMostDb: null,
  })
  const built = (more: Parameters<typeof evaluatedAs>[0]) =>
    reflectionsSection.build(contextOf([evaluatedAs(more)]))

  test('have reflectance in per cent, both sides of each face, and a note where there is one', () => {
    const rows = readRows(
      tablesIn(
        built({
          reflections: [face('Fibre end'), face('Facet', { note: 'tip' })],
        }),
      )[0],
    )
    expect(rows[0]?.slice(0, 5)).toEqual(['Fibre end', '3.45', '14.6', 'none', '15.6'])
    expect(rows[0]?.[5]).toMatch(/^> \d+$/)
    expect(rows.slice(0, 2).map((row) => row.at(-1))).toEqual(['', 'tip'])
  })

  test('have totals towards both ends, as bounds where a tip has no radius', () => {
    const notes = (fibre: boolean, chip: boolean) =>
      readRows(tablesIn(built({ returnLoss: { fibre: port(fibre), chip: port(chip) } }))[0]).slice(-2)
    expect(notes(false, false)).toEqual([
      ['Return loss, incoherent sum', '', '', '', '14.1', '14.1', ''],
      ['Return loss, coherent worst case', '', '', '', '9.5', '9.5', ''],
    ])
    expect(notes(true, false)[0]?.at(-1)).toBe('lower bound towards the fibre: tip radius not given')
    expect(notes(true, true)[1]?.at(-1)).toBe(
      'lower bound towards the fibre and the chip: tip radius not given',
    )
  })

  test('have the ripple of gaps from its least size on, with its periods', () => {
    const ripple = (peakToPeakDb: number, periodWavelengthUm: number | null): Ripple => ({
      elementId: candidate.chain.find(({ kind }) => kind === 'gap')?.id ?? '',
      path: [],
      peakToPeakDb,
      crestGainDb: 0.2,
      troughLossDb: 0.4,
      hereDb: 0,
      fromCrest: 0,
      periodGapUm: 0.775,
      periodWavelengthUm,
      periodTemperatureK: null,
    })
    const least = Number(/under ([\d.]+) dB/.exec(wordsIn(built({ ripples: [] }))[0] ?? '')?.[1])
    expect(least).toBeGreaterThan(0)
    const ripples = [ripple(0.6, 0.0155), ripple(least, null), ripple(0.99 * least, null)]
    expect(readRows(tablesIn(built({ ripples }))[1]).map((row) => row.slice(1))).toEqual([
      ['0.60', '0.20', '0.40', '0.775', '15.5'],
      [least.toFixed(2), '0.20', '0.40', '0.775', 'none'],
    ])
    expect(wordsIn(built({ ripples: [ripple(0.99 * least, null)] }))).toHaveLength(1)
  })
})

test('the path is drawn once: on the first page, or with the cross-section where that is left out', () => {
  const drawn = (project = twoDesigns()) => {
    const blocks = crossSectionSection.build(contextOf([plainCandidate()], {}, project))
    return figuresOf([{ id: 'cross-section', title: '', remark: '', blocks }]).map(({ id }) => id)
  }
  expect(drawn()).not.toContain('path')
  expect(drawn({ ...twoDesigns(), review: { left: ['summary'] } })[0]).toBe('path')
  expect(drawn().length).toBe(drawn({ ...twoDesigns(), review: { left: ['summary'] } }).length - 1)
})

test('the band gives wavelengths in nm, and the reason where it cannot be computed', () => {
  const [band, both] = tablesIn(
    spectrumSection.build(
      contextOf([
        evaluatedAs({
          polarisation: { teDb: 1, tmDb: 1.5, dependentLossDb: 0.5 },
        }),
      ]),
    ),
  )
  expect(readRows(band)[0]?.[2]).toBe('1653.7')
  expect(readRows(both)).toEqual([
    ['TE', '1.00'],
    ['TM', '1.50'],
    ['Polarisation-dependent loss', '0.50'],
  ])
  expect(
    readRows(band)
      .map(([, lossDb]) => Number(lossDb))
      .every((lossDb) => lossDb > 0 && lossDb < 5),
  ).toBe(true)
  const gone = contextOf([plainCandidate({ id: 'gone' })])
  expect(wordsIn(spectrumSection.build(gone))[0]).toContain('gone')
  expect(tablesIn(spectrumSection.build(gone))).toHaveLength(1)
})
