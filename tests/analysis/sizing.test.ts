import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { allowances } from '../../src/analysis/sizing/allowances'
import { sizedDimensions } from '../../src/analysis/sizing/dimensions'
import { sizeCurve } from '../../src/analysis/sizing/sizeCurve'
import { sizedCandidate } from '../../src/analysis/sizing/wholeRow'
import { setCoreHalfWidth } from '../../src/model/quantity/coreQuantity'
import { quantityOf } from '../../src/model/quantity/quantity'
import { quantityAt } from '../../src/model/quantity/quantityAt'
import type { Project } from '../../src/model/schema/project'
import { familiesProject, relayElement } from './support/families'

const RSS = { criterion: 'RSS', share: 0.99 } as const

function compiledOf(project: Project, id: string) {
  const one = { ...project, requirements: { ...project.requirements, channels: 1 } }
  const result = sizedCandidate(one, id)
  if (!result.ok) throw new Error(result.issues[0]?.message)
  return result.value
}

/** Two equal round modes in contact, nothing else: closed forms hold. */
function matched(): Project {
  const project = familiesProject()
  const fibre = project.fibres[0]
  if (fibre !== undefined) {
    fibre.mode = { kind: 'mfd', mfdX: quantityOf(3.2, 'um') }
    fibre.index = { kind: 'value', index: quantityOf(1.475, '1') }
  }
  const facet = project.facets[0]
  if (facet !== undefined) {
    facet.mfdX = quantityOf(3.2, 'um', 'estimate', 0.1)
    facet.mfdY = quantityOf(3.2, 'um', 'estimate', 0.1)
    facet.taperLoss = quantityOf(0, 'dB')
    facet.index = { kind: 'value', index: quantityOf(1.475, '1') }
  }
  const gap = project.candidates[0]?.chain[1]
  const medium = project.media.find((each) => each.id === 'adhesive')
  if (medium !== undefined) medium.index = { kind: 'value', index: quantityOf(1.475, '1') }
  if (gap?.kind !== 'gap') throw new Error('no gap')
  gap.mediumId = 'adhesive'
  gap.gap = quantityOf(0, 'um')
  return project
}

describe('the largest tolerance one at a time', () => {
  const { rows } = allowances(compiledOf(matched(), 'cleaved-dry'), 1, RSS)
  const alone = (label: string) => rows.find((row) => row.label.startsWith(label))?.alone

  test('is the published offset for 1 dB of two modes of 3.2 um', () => {
    // D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory): w sqrt(ln(10) / 10).
    expect(alone('offset x')).toBeCloseTo(0.767764145950093, 5)
  })

  test('is the tilt lambda / (pi n w) sqrt(ln(10) / 10) of the same source', () => {
    const expected = (1.6537 / (Math.PI * 1.475 * 1.6)) * Math.sqrt(Math.LN10 / 10)
    expect(alone('tilt x')).toBeCloseTo(expected, 5)
  })

  test('is nothing where the nominal loss is over the limit, and null where a quantity never matters', () => {
    const over = allowances(compiledOf(familiesProject(), 'cleaved-dry'), 2, RSS)
    expect(over.possible).toBe(false)
    expect(over.rows.every((row) => row.alone === 0 && row.shared === null)).toBe(true)
    // Two round modes do not feel a roll.
    expect(alone('roll')).toBeNull()
  })
})

describe('a quantity without a tolerance', () => {
  const project = matched()
  const [facet] = project.facets
  if (facet !== undefined) facet.mfdX = quantityOf(3.2, 'um')
  const compiled = compiledOf(project, 'cleaved-dry')
  const row = (weight?: number) =>
    allowances(compiled, 1, RSS, weight === undefined ? undefined : () => weight).rows.find(({ label }) =>
      label.startsWith('MFD x of'),
    )

  test('gets its maximum width, and is allocated only on request', () => {
    // D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703: one axis of a mismatch m costs 10 log10((m + 1/m) / 2), and a
    // smaller mode costs sooner than a larger one.
    const sum = 2 * 10 ** 0.1
    const ratio = (sum + Math.sqrt(sum * sum - 4)) / 2
    expect(row()).toMatchObject({ now: 0, shared: null })
    expect(row()?.alone).toBeCloseTo(3.2 - 3.2 / ratio, 3)
    expect(row(1)?.shared).toBeGreaterThan(0)
    expect(row(1)?.shared).toBeLessThan(row()?.alone ?? 0)
  })
})

describe('tolerances shared out', () => {
  test.each(['RSS', 'worst case'] as const)('use the limit up and not more, by %s', (criterion) => {
    const project = familiesProject()
    const result = allowances(compiledOf(project, 'high-na-bonded'), 2, { criterion, share: 0.99 })
    expect(result.possible).toBe(true)
    // Written into the project as order tolerances, the evaluation itself says so.
    for (const row of result.rows) {
      const quantity = quantityAt(project, row.path)
      if (quantity !== undefined && row.shared !== null) setCoreHalfWidth(quantity, row.rule, row.shared, 9)
    }
    const { rootSumSquare, worstCorner } = evaluateCandidate(project, 'high-na-bonded')
    const total = criterion === 'worst case' ? worstCorner.lossDb : rootSumSquare.lossDb
    expect(total).toBeLessThan(2.0001)
    expect(total).toBeGreaterThan(1.9)
    expect(result.sharedDb).toBeCloseTo(total, 4)
  })

  test('give every tolerance the same excess loss, or one in proportion to its weight', () => {
    const compiled = compiledOf(matched(), 'cleaved-dry')
    const cost = (half: number) => (10 / Math.LN10) * (half / 1.6) ** 2
    const offsets = (weights: Record<string, number>) => {
      const { rows } = allowances(compiled, 1, RSS, (path) => weights[String(path.at(-1))] ?? 1)
      return ['offset x', 'offset y'].map((label) =>
        cost(rows.find((row) => row.label === label)?.shared ?? Number.NaN),
      )
    }
    const [x, y] = offsets({})
    expect(x).toBeCloseTo(y ?? 0, 6)
    const [hard, easy] = offsets({ offsetX: 3 })
    expect((hard ?? 0) / (easy ?? 1)).toBeCloseTo(3, 5)
  })
})

describe('the curve of a dimension', () => {
  const dimension = (project: Project, id: string, part: string) => {
    const compiled = compiledOf(project, id)
    const found = sizedDimensions(compiled).find((each) => each.id.includes(part))
    if (found === undefined) throw new Error(`no ${part}`)
    return sizeCurve(compiled, found, 1)
  }

  test('of a facet before a round fibre is best at the fibre mode, with the published band', () => {
    const { best, bestDb, band } = dimension(matched(), 'cleaved-dry', 'facets/0/mfdX')
    expect(best).toBeCloseTo(3.2, 3)
    expect(bestDb).toBeLessThan(1e-6)
    // Same source: a mismatch m costs 20 log10((m + 1/m) / 2); 1 dB at m + 1/m = 2 * 10^(1/20).
    const sum = 2 * 10 ** (1 / 20)
    const ratio = (sum + Math.sqrt(sum * sum - 4)) / 2
    expect(band?.from).toBeCloseTo(3.2 / ratio, 3)
    expect(band?.to).toBeCloseTo(3.2 * ratio, 3)
    expect(band?.open).toBe(false)
  })

  test('of a relay lens finds the magnification: f2 = f1 times the ratio of the modes', () => {
    const relay = relayElement({ device: undefined, stretch: quantityOf(1.3, 'mm') })
    const project = familiesProject(relay)
    const facet = project.facets[0]
    if (facet !== undefined) {
      facet.mfdX = quantityOf(3, 'um')
      facet.mfdY = quantityOf(3, 'um')
    }
    const fibre = project.fibres[0]
    if (fibre !== undefined) fibre.mode = { kind: 'mfd', mfdX: quantityOf(10, 'um') }
    const { best } = dimension(project, 'relay', 'lenses/1/shape/focalLength')
    expect(best).toBeGreaterThan(295)
    expect(best).toBeLessThan(305)
  })

  test('reads as the magnification of a relay, with its best where the image fits the facet', () => {
    const project = familiesProject(
      relayElement({ frontGap: quantityOf(1000, 'um'), backGap: quantityOf(301, 'um'), device: undefined }),
    )
    const [fibre] = project.fibres
    if (fibre !== undefined) fibre.mode = { kind: 'mfd', mfdX: quantityOf(10, 'um') }
    const { readings, lossesDb } = dimension(project, 'relay', 'magnification/relay')
    // Two Gaussians, geometric mean of the ellipse: minimum of the mismatch by hand.
    expect(readings?.best).toBeCloseTo(Math.sqrt(3.4 * 2.8) / 10, 3)
    // One dip is followed from end to end: no step between neighbours is larger than the curve's own slope allows.
    const steps = Array.from(lossesDb.subarray(1), (loss, i) => Math.abs(loss - (lossesDb[i] ?? 0)))
    expect(Math.max(...steps)).toBeLessThan(0.5)
  })

  test('of a core never passes the cut-off of the second mode, V = 2.405', () => {
    const project = familiesProject()
    const { values } = dimension(project, 'cleaved-dry', 'fibres/0/mode/na')
    const largest = values.at(-1) ?? Number.NaN
    // D. Gloge, Appl. Opt. 10 (1971) 2252: V = pi d NA / lambda.
    expect((Math.PI * 8.2 * largest) / 1.6537).toBeCloseTo(2.4048, 3)
  })

  test('of a number that the loss does not feel stays where it is', () => {
    const project = familiesProject()
    const { best, now } = dimension(project, 'spot-tip', 'mode/coreDiameter')
    expect(best).toBe(now)
  })

  test('of a lensed tip finds the spot of the facet, the gap following the working distance', () => {
    const project = familiesProject()
    const gap = project.candidates.find((each) => each.id === 'spot-tip')?.chain[1]
    if (gap?.kind === 'gap') gap.pinned = []
    const { best } = dimension(project, 'spot-tip', 'tip/spotX')
    // Geometric mean of 3.4 and 2.8 um to a few per cent: the best circle in an ellipse.
    expect(best).toBeGreaterThan(2.95)
    expect(best).toBeLessThan(3.2)
  })
})
