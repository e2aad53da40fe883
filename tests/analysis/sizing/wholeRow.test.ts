// Tolerances sized for a whole row, by every criterion, against closed forms. Two equal round modes of 3.2 um in contact, so
// an offset r costs (10 / ln 10) (r / 1.6)^2 dB (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703) and 1 dB is 0.767764 um.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { allowances } from '../../../src/analysis/sizing/allowances'
import type { SizingCriterion } from '../../../src/analysis/sizing/criteria'
import { sizedCandidate } from '../../../src/analysis/sizing/wholeRow'
import { setCoreHalfWidthWithin } from '../../../src/model/quantity/coreQuantity'
import { PROVENANCES, quantityOf, type Tolerance } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { FibreArray } from '../../../src/model/schema/fibreArray'
import type { Project } from '../../../src/model/schema/project'
import { matchedProject } from '../yield/cases'

const ONE_DB_UM = 0.767764145950093
const SHARE = 0.95
const normal = (plusMinus: number, share?: 'channel'): Tolerance => ({
  plusMinus,
  distribution: 'normal',
  ...(share && { share }),
})

function rowOf(channels: number, gap: Partial<GapElement>, array: Partial<FibreArray> = {}): Project {
  const project = matchedProject(3.2, 1, gap)
  const none = quantityOf(0, 'um')
  return {
    ...project,
    requirements: { ...project.requirements, channels, pitch: quantityOf(127, 'um') },
    candidates: project.candidates.map((each) => ({
      ...each,
      array: {
        pitch: quantityOf(127, 'um'),
        coreX: none,
        coreY: none,
        bow: none,
        aim: 'sum of all',
        ...array,
      },
    })),
  }
}

function rowsOf(project: Project, criterion: SizingCriterion = 'RSS', limitDb = 1) {
  const sized = sizedCandidate(project, 'matched')
  if (!sized.ok) throw new Error(sized.issues.map(({ message }) => message).join())
  return allowances(sized.value, limitDb, { criterion, share: SHARE })
}

const found = (result: ReturnType<typeof rowsOf>, label: string) => {
  const row = result.rows.find((each) => each.label === label)
  if (row === undefined)
    throw new Error(`${label} is none of ${result.rows.map((each) => each.label).join()}`)
  return row
}

describe('the outer channels of a row', () => {
  test('set the roll: the chord of the outer channel, (N - 1) pitch sin(roll / 2), is the offset for an excess loss of 1 dB', () => {
    for (const channels of [2, 8]) {
      const row = rowsOf(rowOf(channels, { roll: quantityOf(0, 'deg', 'estimate', 0.01) }))
      const armUm = ((channels - 1) / 2) * 127
      expect(found(row, 'roll').alone).toBeCloseTo(2 * Math.asin(ONE_DB_UM / (2 * armUm)), 7)
    }
    // One round channel feels no roll.
    const one = rowsOf(rowOf(1, { roll: quantityOf(0, 'deg', 'estimate', 0.01) }))
    expect(found(one, 'roll').alone).toBeNull()
  })

  test('set the pitch of the array: half the row times its error', () => {
    const result = rowsOf(rowOf(8, {}, { pitch: quantityOf(127, 'um', 'estimate', 0.05) }))
    expect(found(result, 'pitch of the fibres').alone).toBeCloseTo(ONE_DB_UM / 3.5, 6)
  })
})

describe('a percentile', () => {
  const offset = quantityOf(0, 'um', 'estimate', normal(0.2))

  test('of one channel allows both offsets what Rayleigh allows', () => {
    // r95 = sigma sqrt(-2 ln 0.05) is the offset of 1 dB; the half width of a normal tolerance is two sigma.
    const result = rowsOf(rowOf(1, { offsetX: offset, offsetY: offset }), 'percentile')
    const half = (2 * ONE_DB_UM) / Math.sqrt(-2 * Math.log(1 - SHARE))
    // Never wider, so that a longer run does not refuse what was proposed.
    expect((found(result, 'offset x').shared ?? 0) / half).toBeGreaterThan(0.96)
    expect((found(result, 'offset x').shared ?? 0) / half).toBeLessThanOrEqual(1)
    expect(result.sharedDb).toBeLessThanOrEqual(1)
    // Less than RSS of the single ends would say of these: each at 1 dB / sqrt 2.
    expect(found(rowsOf(rowOf(1, { offsetX: offset, offsetY: offset })), 'offset x').shared).toBeGreaterThan(
      0,
    )
  })

  test('of all channels at once allows core errors less, as independent normals do', () => {
    // One axis: (2 Phi(d / sigma) - 1)^8 = 0.95 at d / sigma = 2.7266 (scipy.stats.norm.ppf((1 + 0.95^(1/8)) / 2)).
    const project = rowOf(8, {}, { coreY: quantityOf(0, 'um', 'estimate', normal(0.2, 'channel')) })
    const all = found(rowsOf(project, 'all channels'), 'core position y').shared ?? 0
    expect(all / ((2 * ONE_DB_UM) / 2.7266)).toBeGreaterThan(0.96)
    expect(all / ((2 * ONE_DB_UM) / 2.7266)).toBeLessThanOrEqual(1)
    const one = found(rowsOf(project, 'percentile'), 'core position y').shared ?? 0
    expect(Math.abs(one / ((2 * ONE_DB_UM) / 1.95996) - 1)).toBeLessThan(0.04)
  })
})

test('a percentile is that of each assembly at its worst required temperature, RSS that of the alignment', () => {
  const project = rowOf(1, { offsetX: quantityOf(0, 'um', 'estimate', normal(0.3)) })
  const mounted: Project = {
    ...project,
    requirements: {
      ...project.requirements,
      temperatureMin: quantityOf(-40, 'degC'),
      temperatureMax: quantityOf(85, 'degC'),
    },
    candidates: project.candidates.map((each) => ({
      ...each,
      mount: {
        assemblyTemperature: quantityOf(23, 'degC'),
        fibreSide: [
          { expansion: { kind: 'material', material: 'alumina' }, axis: 'y', length: quantityOf(1, 'mm') },
        ],
        chipSide: [],
      },
    })),
  }
  // 1 mm of alumina (6.5e-6 per kelvin, from memory) moves the fibre by 0.41 um over 63 K; 95 % of offsets x lie within 1.96 sigma.
  const db = (rUm: number) => (rUm / ONE_DB_UM) ** 2
  const [spread, rise] = [1.96 * 0.15, 1000 * 6.5e-6 * 63]
  expect(rowsOf(mounted, 'percentile').nowDb).toBeCloseTo(db(spread) + db(rise), 1)
  expect(db(rise)).toBeGreaterThan(0.2)
  expect(rowsOf(mounted, 'RSS').nowDb).toBeCloseTo(db(0.3), 2)
})

test('no proposal reaches through contact, whatever the criterion and the limit, and none is refused when it is written', () => {
  for (const criterion of ['RSS', 'worst case', 'percentile'] as const) {
    const project = rowOf(1, {
      gap: quantityOf(0.29996, 'um', 'estimate', 0.1),
      offsetX: quantityOf(0, 'um', 'estimate', 0.1),
    })
    for (const { path, rule, shared, alone } of rowsOf(project, criterion, 5).rows) {
      if (path.at(-1) !== 'gap') continue
      expect(alone).toBeLessThanOrEqual(0.29996)
      expect(shared ?? 0).toBeLessThanOrEqual(0.29996)
      const gap = project.candidates[0]?.chain[1]
      if (gap?.kind !== 'gap') throw new Error('no gap')
      setCoreHalfWidthWithin(gap.gap, rule, shared ?? alone ?? 0, 3)
      expect(gap.gap.tolerance?.plusMinus).toBeLessThanOrEqual(0.29996)
      expect(evaluateCandidate(project, 'matched').nominalDb).toBeGreaterThanOrEqual(0)
    }
  }
})

test('where a number comes from changes no allowance', () => {
  const withProvenance = (provenance: (typeof PROVENANCES)[number]) => {
    const project = rowOf(8, {
      offsetX: quantityOf(0, 'um', provenance, 0.2),
      gap: quantityOf(1, 'um', provenance, 0.3),
      roll: quantityOf(0, 'deg', provenance, 0.01),
    })
    for (const { mfdX, mfdY } of project.facets) {
      mfdX.provenance = provenance
      mfdY.provenance = provenance
    }
    return rowsOf(project)
  }
  const [first, ...others] = PROVENANCES.map(withProvenance)
  for (const other of others) expect(other).toEqual(first)
})

test('one width behind both diameters is one quantity, in budget, worst case and sizing', () => {
  const project = rowOf(1, {})
  const [facet] = project.facets
  if (facet === undefined) throw new Error('no facet')
  facet.mfdX = quantityOf(3.2, 'um', 'estimate', 0.2)
  facet.mfdY = quantityOf(3.2, 'um', 'estimate', 0.2)
  // One axis of a mismatch m: 10 log10((m + 1/m) / 2) dB (Marcuse 1977).
  const axis = (m: number) => 10 * Math.log10((m + 1 / m) / 2)
  const apart = evaluateCandidate(project, 'matched')
  facet.oneWidth = true
  const together = evaluateCandidate(project, 'matched')
  const worse = axis(3 / 3.2)
  expect(apart.rootSumSquare.contributions).toHaveLength(2)
  expect(apart.rootSumSquare.lossDb - apart.nominalDb).toBeCloseTo(Math.SQRT2 * worse, 9)
  expect(together.rootSumSquare.contributions.map(({ label }) => label.slice(0, 11))).toEqual(['MFD x and y'])
  expect(together.rootSumSquare.lossDb - together.nominalDb).toBeCloseTo(2 * worse, 9)
  const rows = rowsOf(project).rows.filter(({ label }) => label.startsWith('MFD'))
  expect(rows.filter(({ path }) => path[0] === 'facets')).toHaveLength(1)
  // y that is stated to vary twice as much does so: its relative change is twice that of x.
  facet.mfdY = quantityOf(3.2, 'um', 'estimate', 0.4)
  const twice = evaluateCandidate(project, 'matched')
  expect(twice.rootSumSquare.lossDb - twice.nominalDb).toBeCloseTo(axis(3 / 3.2) + axis(2.8 / 3.2), 9)
})
