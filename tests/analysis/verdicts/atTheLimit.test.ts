// Every verdict at, just within and just beyond its limit, on figures that are set here and not computed.

import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate } from '../../../src/analysis/index'
import type { Evaluation } from '../../../src/analysis/results/evaluation'
import type { PortReturn } from '../../../src/analysis/results/lightResults'
import type { Percentile, YieldResult } from '../../../src/analysis/yield/yieldResult'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import type { LossCriterion, Requirements } from '../../../src/model/schema/requirements'
import { familiesProject } from '../support/families'
import { matchedProject } from '../yield/cases'

const base = matchedProject(6, 2)
const computed = evaluateCandidate(base, 'matched')

/** The project with other requirements. */
const asking = (change: Partial<Requirements>, project = base): Project => ({
  ...project,
  requirements: { ...project.requirements, ...change },
})
const limited = (basis: LossCriterion['basis'], limitDb = 2): LossCriterion => ({
  id: 'loss',
  limit: quantityOf(limitDb, 'dB'),
  basis,
  percentile: 95,
  channels: 'one',
})
/** An evaluation with these figures. */
const having = (change: Partial<Evaluation>): Evaluation => ({ ...computed, ...change })
const figures = (nominalDb: number, rssDb: number, worstDb: number): Partial<Evaluation> => ({
  nominalDb,
  rootSumSquare: { ...computed.rootSumSquare, lossDb: rssDb },
  worstCorner: { ...computed.worstCorner, lossDb: worstDb },
})
const runOf = (...percentiles: readonly (readonly [share: number, lossDb: number])[]): YieldResult =>
  ({
    samples: 4096,
    percentiles: percentiles.map(
      ([share, lossDb]): Percentile => ({ share, lossDb, lowDb: lossDb - 0.1, highDb: lossDb + 0.2 }),
    ),
  }) as unknown as YieldResult

function found(id: string, project: Project, evaluation: Evaluation, run: YieldResult | null = null) {
  return checkRequirements(project, evaluation, run).find((each) => each.id === id)
}

describe('a loss limit of 2 dB', () => {
  test.each(['nominal', 'RSS', 'worst case'] as const)('on %s reads that figure alone', (basis) => {
    const at = (lossDb: number) => {
      const others = lossDb > 2 ? 0.5 : 7
      const of = (each: LossCriterion['basis']) => (each === basis ? lossDb : others)
      const evaluation = having(figures(of('nominal'), of('RSS'), of('worst case')))
      return found('loss', asking({ losses: [limited(basis)] }), evaluation)
    }
    expect(at(2)).toMatchObject({ status: 'met', value: '2.00', limit: '≤ 2 dB' })
    // As many digits as it takes to tell it from the limit.
    expect(at(2.0004)).toMatchObject({ status: 'not met', value: '2.0004' })
    expect(at(2.02)).toMatchObject({ status: 'not met', value: '2.02' })
    expect(at(1.97)).toMatchObject({ status: 'met', value: '1.97' })
  })

  test('on a percentile is answered by the run, and an RSS that passes beside it is said', () => {
    const project = asking({ losses: [limited('percentile')] })
    const verdictAt = (p95Db: number, rssDb: number) =>
      found('loss', project, having(figures(1, rssDb, 9)), runOf([0.5, 1], [0.95, p95Db], [0.99, 8]))
    expect(verdictAt(2, 1.5)).toMatchObject({ status: 'met', value: '2.00', limit: '≤ 2 dB' })
    expect(verdictAt(2, 1.5)?.reason).toBe(
      '2.00 dB (1.90 to 2.20 dB at 95 % confidence, 4\u202f096 samples); limit 2 dB',
    )
    expect(verdictAt(2.1, 2)?.reason).toContain('RSS of 2.00 dB passes')
    expect(verdictAt(2.1, 2)?.status).toBe('not met')
    expect(verdictAt(2.1, 2.05)?.reason).not.toContain('RSS')
    expect(verdictAt(1.9, 1.5)?.reason).not.toContain('RSS')
    expect(found('loss', project, computed, runOf([0.5, 1], [0.99, 2]))).toMatchObject({
      status: 'not known',
      needs: 'yield',
    })
  })

  test('on RSS carries the highest percentile of the run where that is beyond it', () => {
    const project = asking({ losses: [limited('RSS')] })
    const verdictAt = (rssDb: number, p99Db: number) =>
      found('loss', project, having(figures(1, rssDb, 9)), runOf([0.5, 3], [0.99, p99Db]))
    expect(verdictAt(1.9, 2.3)?.caveat).toBe('P99 is 2.30 dB')
    expect(verdictAt(2, 2.3)?.caveat).toBe('P99 is 2.30 dB')
    expect(verdictAt(1.9, 2)?.caveat).toBeUndefined()
    expect(verdictAt(2.1, 2.3)?.caveat).toBeUndefined()
  })

  test('is not known on provisional figures, but for the nominal one', () => {
    const status = (basis: LossCriterion['basis']) =>
      found('loss', asking({ losses: [limited(basis)] }), having({ ...figures(1, 1, 1), awaitsFit: true }))
    expect(status('RSS')).toMatchObject({ status: 'not known', provisional: true, value: '1.00' })
    expect(status('worst case')?.status).toBe('not known')
    expect(status('nominal')?.status).toBe('met')
  })
})

describe('the temperature range', () => {
  const temperature = {
    assemblyC: 20,
    worstC: -40,
    worstDb: 2,
    rootSumSquareDb: 2.5,
    worstCornerDb: 3,
    reachC: null,
  } as unknown as NonNullable<Evaluation['temperature']>
  const verdictOf = (losses: readonly LossCriterion[], change: Partial<Evaluation> = {}, wishes?: string[]) =>
    found(
      'temperature',
      asking({ losses: [...losses], ...(wishes && { wishes }) }),
      having({ temperature, ...change }),
      runOf([0.95, 2.2]),
    )

  test('asks each criterion of its own figure', () => {
    expect(verdictOf([limited('nominal', 2)])).toMatchObject({ status: 'met', value: '2.00' })
    expect(verdictOf([limited('nominal', 2)])?.reason).toBe('nominal 2.00 dB at −40 °C; limit 2 dB')
    expect(verdictOf([limited('nominal', 1.9)])?.status).toBe('not met')
    expect(verdictOf([limited('RSS', 2.4)])).toMatchObject({ status: 'not met', value: '2.50' })
    expect(verdictOf([limited('RSS', 2.5)])?.status).toBe('met')
    expect(verdictOf([limited('worst case', 3)])).toMatchObject({ status: 'met', value: '3.00' })
    expect(verdictOf([limited('percentile', 2.2)])).toMatchObject({ status: 'met', value: '2.20' })
    expect(verdictOf([limited('percentile', 2.1)])?.status).toBe('not met')
  })

  test('is as bad as the worst of them, desirable ones left out where others decide', () => {
    const bad = { ...limited('RSS', 1), id: 'second' }
    expect(verdictOf([limited('nominal', 2), bad])).toMatchObject({ status: 'not met', limit: '≤ 1 dB' })
    expect(verdictOf([limited('nominal', 2), bad], {}, ['second'])?.status).toBe('met')
    expect(verdictOf([bad], {}, ['second'])?.status).toBe('not met')
    expect(verdictOf([limited('nominal', 2)], { awaitsFit: true })).toMatchObject({
      status: 'not known',
      provisional: true,
    })
    expect(verdictOf([{ ...limited('percentile', 2), percentile: 99 }])).toMatchObject({
      status: 'not known',
      needs: 'yield',
    })
    expect(verdictOf([limited('nominal', 2)], { temperature: null })?.status).toBe('not known')
  })
})

describe('return loss of 40 dB towards the fibre', () => {
  const project = asking({ returnLossFibre: quantityOf(40, 'dB') })
  const total = (change: Partial<PortReturn>): PortReturn => ({
    incoherentDb: 50,
    coherentDb: 45,
    atLeast: false,
    atMostDb: null,
    ...change,
  })
  const verdictOf = (fibre: PortReturn, limitDb = 40, change: Partial<Evaluation> = {}) =>
    found(
      'return-loss-fibre',
      limitDb === 40 ? project : asking({ returnLossFibre: quantityOf(limitDb, 'dB') }),
      having({ returnLoss: { fibre, chip: total({ incoherentDb: 10 }) }, ...change }),
    )

  test('is met from 40.0 dB on, and not known beyond what can be trusted', () => {
    expect(verdictOf(total({ incoherentDb: 40 }))).toMatchObject({ status: 'met', value: '40.0' })
    expect(verdictOf(total({ incoherentDb: 39.96 }))?.status).toBe('not met')
    expect(verdictOf(total({ incoherentDb: null }))).toMatchObject({ status: 'met', value: '> 65' })
    expect(verdictOf(total({ incoherentDb: 75 }), 65)?.status).toBe('met')
    expect(verdictOf(total({ incoherentDb: 75 }), 66)?.status).toBe('not known')
    expect(verdictOf(total({ incoherentDb: 60 }), 66)?.status).toBe('not met')
  })

  test('of a face of unknown shape is not known, unless the other faces miss it by themselves', () => {
    expect(verdictOf(total({ incoherentDb: 30, atLeast: true, atMostDb: 40 }))).toMatchObject({
      status: 'not known',
      value: '≥ 30.0',
    })
    expect(verdictOf(total({ incoherentDb: 30, atLeast: true, atMostDb: 39.9 }))).toMatchObject({
      status: 'not met',
      value: '30.0 to 39.9',
    })
    expect(verdictOf(total({ incoherentDb: 42, atLeast: true }))).toMatchObject({ status: 'met' })
  })

  test('over a band is that of its worst wavelength, which is named', () => {
    const band = (lossDb: number) =>
      ({
        fromUm: 1.5,
        toUm: 1.6,
        worstDb: 1,
        worstUm: 1.5,
        dependentLossDb: 0,
        leastReturn: { fibre: { lossDb, atUm: 1.52 }, chip: null },
      }) as const
    const at = verdictOf(total({ incoherentDb: 50 }), 40, { band: band(38) })
    expect(at).toMatchObject({ status: 'not met', value: '38.0' })
    expect(at?.reason).toContain('38.0 dB at 1520 nm')
    expect(verdictOf(total({ incoherentDb: 50 }), 40, { band: band(50) })?.reason).not.toContain('1520')
  })
})

test('a band adds the ripple of every gap to its worst loss, and says it from 0.005 dB on', () => {
  const project = asking({ losses: [limited('nominal')], wavelengthMin: quantityOf(1500, 'nm') })
  const verdictOf = (worstDb: number, ...troughs: readonly number[]) =>
    found(
      'band',
      project,
      having({
        band: {
          fromUm: 1.5,
          toUm: 1.55,
          worstDb,
          worstUm: 1.5,
          dependentLossDb: 0,
          leastReturn: { fibre: null, chip: null },
        },
        ripples: troughs.map((troughLossDb) => ({ troughLossDb }) as Evaluation['ripples'][number]),
      }),
    )
  expect(verdictOf(1.5, 0.25, 0.25)).toMatchObject({ status: 'met', value: '2.00', limit: '≤ 2 dB' })
  expect(verdictOf(1.5, 0.25, 0.25)?.reason).toContain('including up to 0.50 dB ripple')
  expect(verdictOf(1.5, 0.25, 0.375)?.status).toBe('not met')
  expect(verdictOf(1.5, 0.004)?.reason).not.toContain('ripple')
  expect(verdictOf(1.5, 0.006)?.reason).toContain('ripple')
  expect(found('band', project, having({ band: null }))?.status).toBe('not known')
})

test('PDL is the greater of that at the wavelength and over the band, and not known where one mode stands for both', () => {
  const verdictOf = (hereDb: number, overBandDb: number | null, tm: boolean) => {
    const project = structuredClone(asking({ polarisationDependentLoss: quantityOf(0.3, 'dB') }))
    if (tm) project.facets[0]!.tm = { mfdX: quantityOf(6, 'um'), mfdY: quantityOf(6, 'um') }
    const band = { ...computed.band, dependentLossDb: overBandDb ?? 0 } as Evaluation['band']
    const polarisation = { ...computed.polarisation, dependentLossDb: hereDb }
    return found('pdl', project, having({ polarisation, band: overBandDb === null ? null : band }))?.status
  }
  expect(verdictOf(0.3, null, true)).toBe('met')
  expect(verdictOf(0.31, null, true)).toBe('not met')
  expect(verdictOf(0.1, 0.31, true)).toBe('not met')
  expect(verdictOf(0.1, 0.3, true)).toBe('met')
  expect(verdictOf(0.1, null, false)).toBe('not known')
  expect(verdictOf(0.31, null, false)).toBe('not met')
})

describe('what a design is made of', () => {
  const project = familiesProject()
  const fill = (relayMedium: string) => {
    const changed = structuredClone(project)
    for (const { chain } of changed.candidates)
      for (const each of chain) if (each.kind === 'relay') each.mediumId = relayMedium
    return changed
  }
  const bonding = (id: string, wanted: Requirements['bonding'], of = project) =>
    found('bonding', asking({ bonding: wanted }, of), evaluateCandidate(of, id))?.status

  test('is bonded where an adhesive fills a gap or a relay', () => {
    expect(bonding('cleaved-dry', 'bonded')).toBe('not met')
    expect(bonding('cleaved-dry', 'not bonded')).toBe('met')
    expect(bonding('taper', 'bonded')).toBe('met')
    expect(bonding('taper', 'not bonded')).toBe('not met')
    expect(bonding('relay', 'bonded')).toBe('not met')
    expect(bonding('taper', 'free choice')).toBeUndefined()
    const adhesive = project.media.find(({ state }) => state === 'adhesive')
    const filled = fill(adhesive?.id ?? '')
    expect(
      found('bonding', asking({ bonding: 'bonded' }, filled), { ...computed, candidateId: 'relay' })?.status,
    ).toBe('met')
  })

  test('collimates over at most twice the Rayleigh range', () => {
    const evaluation = evaluateCandidate(project, 'relay')
    const collimated = (stretchUm: number) =>
      found('collimated', asking({ collimatedSection: true }, project), {
        ...evaluation,
        relays: evaluation.relays.map((each) => ({ ...each, stretchUm, collimatedRayleighUm: 3000 })),
      })
    expect(collimated(6000)?.status).toBe('met')
    expect(collimated(6001)?.status).toBe('not met')
    expect(collimated(6001)?.reason).toMatch(
      /^6\.0 mm long; .*Rayleigh range 3\.0 mm; longer than twice that/,
    )
    expect(found('collimated', asking({ collimatedSection: true }), computed)?.reason).toBe(
      'no element of the path collimates the beam',
    )
  })
})
