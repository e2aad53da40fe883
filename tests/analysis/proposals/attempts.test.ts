// Every family of designs on parts of the project's own with modes of known mismatch: (2ab / (a^2 + b^2))^2 for round ones.

import { describe, expect, test } from 'vitest'
import type { Comparison } from '../../../src/analysis/compare/comparison'
import { onChipTaper } from '../../../src/analysis/proposals/bareFibre'
import { highNaStub, lensedFibre, sscChip } from '../../../src/analysis/proposals/converters'
import { type Attempt, mediumBetween, type Site, siteOf } from '../../../src/analysis/proposals/ground'
import { rankDesigns } from '../../../src/analysis/proposals/ranking'
import { rowLenses } from '../../../src/analysis/proposals/rowLenses'
import { CATALOGUE } from '../../../src/model/catalogue/catalogue'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { ConverterEntry, FacetEntry, FibreEntry } from '../../../src/model/schema/parts'
import { familiesProject, thinLensEntry } from '../support/families'
import { matchedProject } from '../yield/cases'

const um = (value: number) => quantityOf(value, 'um')
const project = matchedProject(10, 2)
const [fibre, facet] = [project.fibres[0]!, project.facets[0]!]
const chip = familiesProject().converters.find((each) => each.kind === 'taper chip')!
if (chip.kind !== 'taper chip') throw new Error('a taper chip')

/** Loss of two round modes on each other, dB. */
const roundDb = (a: number, b: number) => -20 * Math.log10((2 * a * b) / (a * a + b * b))

/** A fibre of 10 um before a facet, with these parts of the project's own and nothing that suits in the catalogue. */
function siteFor(
  facetUm: number,
  own: { facets?: FacetEntry[]; fibres?: FibreEntry[]; converters?: ConverterEntry[] },
  change: Partial<Site['requirements']> = {},
): Site {
  const site = siteOf({
    requirements: { ...project.requirements, ...change },
    fibre,
    facet: { ...facet, mfdX: um(facetUm), mfdY: um(facetUm) },
    widerIds: [],
    own: { ...project, facets: [], fibres: [], converters: [], ...own },
  })
  if (site === null) throw new Error('the fibre has a mode')
  return site
}
const reasonOf = (attempt: Attempt) => ('reason' in attempt ? attempt.reason : null)
const choiceOf = (attempt: Attempt) => ('choice' in attempt ? attempt.choice : null)

describe('a widened taper', () => {
  const wide = (mfdUm: number, taperDb: number, leakageDb?: number): FacetEntry => ({
    ...facet,
    ...{ id: `wide-${mfdUm}`, name: 'Wide', mfdX: um(mfdUm), mfdY: um(mfdUm), tipWidth: um(0.1) },
    taperLoss: quantityOf(taperDb, 'dB'),
    ...(leakageDb !== undefined && { substrateLeakage: quantityOf(leakageDb, 'dB') }),
  })
  const attempt = (...facets: FacetEntry[]) => onChipTaper(siteFor(4, { facets }))

  test('counts its own losses against those of the facet as it is', () => {
    // 4 um: 3.23 dB and no loss of its own. 8 um: 0.21 dB of mismatch.
    expect(roundDb(10, 4)).toBeCloseTo(3.227, 3)
    expect(choiceOf(attempt(wide(8, 1, 0.5)))).toContain('mismatch and taper 1.71 dB instead of 3.23 dB')
    expect(choiceOf(attempt(wide(8, 1, 2.0)))).not.toBeNull()
    expect(reasonOf(attempt(wide(8, 1, 2.1)))).toContain(
      'gives 3.31 dB, its own losses included; the unmodified facet gives 3.23 dB',
    )
    // The better of two counts, leakage included.
    expect(choiceOf(attempt(wide(8, 0.2, 2), wide(6, 0.5)))).toContain('widened to 6 µm')
    expect(choiceOf(attempt(wide(8, 0.2, 0.1), wide(6, 0.5)))).toContain('widened to 8 µm')
  })

  test('is looked for in the catalogue at its wavelengths only, and said to be missing otherwise', () => {
    const at = (nm: number, facets: FacetEntry[]) =>
      onChipTaper(siteFor(4, { facets }, { wavelength: quantityOf(nm, 'nm') }))
    expect(reasonOf(at(1800, []))).toBe('Widened tapers in the catalogue are given for 1260 to 1700 nm.')
    expect(reasonOf(at(1550, []))).toBe(
      'No taper of this platform in the catalogue has a mode wider than 4 µm.',
    )
    expect(choiceOf(at(1800, [wide(8, 0)]))).toContain('widened to 8 µm')
  })

  test('is wider from a ratio of 1.15 on, and known by its tip', () => {
    expect(reasonOf(attempt(wide(4.59, 0)))).toContain('has a mode wider than 4 µm')
    expect(choiceOf(attempt(wide(4.61, 0)))).toContain('a tip 0.1 µm wide')
    expect(reasonOf(attempt({ ...wide(8, 0), tipWidth: undefined }))).not.toBeNull()
  })
})

describe('a converter', () => {
  const stub = (mfdUm: number): FibreEntry => ({
    ...fibre,
    id: `stub-${mfdUm}`,
    mode: { kind: 'mfd', mfdX: um(mfdUm) },
  })
  const tip = (spotUm: number): ConverterEntry => ({
    ...{ kind: 'lensed tip', id: 'tip', name: 'Tip' },
    tip: { kind: 'spot', spotX: um(spotUm), workingDistance: um(12) },
  })

  test('that is a stub or a tip must gain 0.2 dB over the plain fibre', () => {
    // A facet of 8 um loses 0.21 dB already; one of 8.1 um 0.19 dB.
    expect(roundDb(10, 8)).toBeGreaterThan(0.2)
    expect(roundDb(10, 8.1)).toBeLessThan(0.2)
    expect(choiceOf(highNaStub(siteFor(8, { fibres: [stub(8)] })))).toContain('mode mismatch 0.00 dB')
    expect(reasonOf(highNaStub(siteFor(8.1, { fibres: [stub(8.1)] })))).toContain('is already close to')
    expect(choiceOf(lensedFibre(siteFor(8, { converters: [tip(8)] })))).toContain('Spot 8 µm')
    expect(reasonOf(lensedFibre(siteFor(8.1, { converters: [tip(8.1)] })))).toContain('a spot of 8.1 µm')
  })

  test('that is a stub keeps polarisation where the fibre does, and is another fibre', () => {
    const site = siteFor(4, {
      fibres: [
        fibre,
        { ...stub(4.4), polarisationMaintaining: false },
        { ...stub(4.7), polarisationMaintaining: true },
      ],
    })
    expect(choiceOf(highNaStub(site))).toContain('Stub mode 4.4 µm')
    const maintained = { ...site, fibre: { ...fibre, polarisationMaintaining: true } }
    expect(choiceOf(highNaStub(maintained))).toContain('Stub mode 4.7 µm')
  })

  const taper = (inUm: number, outUm: number, lossDb: number, outPitchUm = 127): ConverterEntry => ({
    ...chip,
    ...{ inputMfdX: um(inUm), inputMfdY: um(inUm), outputMfdX: um(outUm), outputMfdY: um(outUm) },
    ...{ transmissionLoss: quantityOf(lossDb, 'dB'), inputPitch: um(250), outputPitch: um(outPitchUm) },
  })
  const row = (channels: number, pitchUm: number) => ({ channels, pitch: um(pitchUm) })

  test('that is a chip adds both mismatches and its own loss, and narrows the mode', () => {
    const here = (lossDb: number) =>
      sscChip(siteFor(4, { converters: [taper(8, 5, lossDb)] }, { wavelength: quantityOf(1800, 'nm') }))
    // 10 to 8 um, 5 to 4 um: 0.21 dB each, and 0.6 dB inside. The catalogue has no chip for 1800 nm.
    expect(choiceOf(here(0.6))).toContain(
      `${(2 * roundDb(10, 8) + 0.6).toFixed(2)} dB for its insertion loss`,
    )
    const spare = roundDb(10, 4) - 0.2 - 2 * roundDb(10, 8)
    expect(choiceOf(here(spare - 0.01))).not.toBeNull()
    expect(reasonOf(here(spare + 0.01))).toContain('an SSC chip with an output')
    const widening = siteFor(4, { converters: [taper(5, 8, 0)] }, { wavelength: quantityOf(1800, 'nm') })
    expect(reasonOf(sscChip({ ...widening, plainDb: 30 }))).not.toBeNull()
  })

  test('that is a chip has the pitch of the row, else it is made to order, fanning in from a pitch no finer than the row', () => {
    const parts = (attempt: Attempt) => ('parts' in attempt ? (attempt.parts.converters ?? []) : undefined)
    const fitting = (pitchUm: number) =>
      sscChip(siteFor(4, { converters: [taper(10, 4, 0.1, 80)] }, row(4, pitchUm)))
    expect(parts(fitting(80))).toEqual([])
    expect(parts(fitting(80.04))).toEqual([])
    const [ordered] = parts(fitting(80.06)) ?? []
    expect(ordered).toMatchObject({ name: expect.stringContaining('made to order at a pitch of 80.06 µm') })
    if (ordered?.kind !== 'taper chip') throw new Error('a chip')
    // It fans in from its own pitch where that is coarser than the row.
    const { inputPitch } = CATALOGUE.converters.find(
      ({ id }) => `${id}-to-order` === ordered.id,
    ) as typeof ordered
    expect([ordered.inputPitch.value, ordered.outputPitch.value]).toEqual([inputPitch.value, 80.06])
    expect(inputPitch.value).toBeGreaterThan(80.06)
    expect(inputPitch.value).toBeLessThan(400)
    const [coarse] = parts(fitting(400)) ?? []
    if (coarse?.kind !== 'taper chip') throw new Error('a chip')
    expect([coarse.inputPitch.value, coarse.outputPitch.value]).toEqual([400, 400])
    // One channel takes any.
    expect(parts(sscChip(siteFor(4, { converters: [taper(10, 4, 0.1, 80)] }, row(1, 500))))).toEqual([])
  })
})

test('a medium reflects least between two indices at their geometric mean', () => {
  const of = (index: number) => ({ index: { kind: 'value', index: quantityOf(index, '1') } }) as const
  const media = [1.3, 1.5, 1.7, 1.9].map(
    (index) => ({ ...of(index), id: `${index}`, name: '', state: 'gel' }) as const,
  )
  const site = { ...siteFor(4, {}), own: { ...project, media: [...media] } }
  const chosen = (near: number, far: number) => mediumBetween(site, 'gel', of(near), of(far)).medium.id
  expect(chosen(1.45, 1.55)).toBe('1.5')
  expect(chosen(1.45, 2)).toBe('1.7')
  expect(chosen(1.2, 1.4)).toBe('1.3')
  expect(chosen(1.8, 2.1)).toBe('1.9')
  expect(mediumBetween(site, 'gel', of(1.4), of(1.4)).parts).toEqual({})
})

test('lenses serve a row by their own pitch, side by side from 1 mm on, or made to order from the next finer array', () => {
  const single = { ...thinLensEntry('single', 500), clearAperture: um(900) }
  const array = (pitchUm: number) => ({ ...single, id: `array-${pitchUm}`, pitch: um(pitchUm) })
  const own = [single, array(250), array(500)]
  const ids = (channels: number, pitchUm: number, of = own) =>
    rowLenses(of, { channels, pitch: um(pitchUm) }).map(({ id }) => id)
  expect(ids(1, 250)).toEqual(['single'])
  expect(ids(4, 250)).toEqual(['array-250'])
  expect(ids(4, 500.04)).toEqual(['array-500'])
  expect(ids(4, 500.06)).not.toContain('array-500')
  expect(ids(4, 1000)).toEqual(['single'])
  expect(ids(4, 999)).not.toContain('single')
  expect(ids(4, 1000, [{ ...single, clearAperture: um(1000) }])).not.toContain('single')
  expect(ids(4, 1000, [{ ...single, clearAperture: um(999) }])).toEqual(['single'])
  // Made to order at 400 um: the arrays of 250 um of the catalogue, none of a coarser pitch.
  const pitchesOf = (lenses: typeof CATALOGUE.lenses) =>
    lenses.flatMap(({ pitch }) => (pitch === undefined ? [] : [pitch.value]))
  const finest = Math.min(...pitchesOf(CATALOGUE.lenses))
  const made = rowLenses([], { channels: 4, pitch: um(finest + 0.5) })
  expect(made.length).toBe(CATALOGUE.lenses.filter(({ pitch }) => pitch?.value === finest).length)
  expect(made.every(({ id, pitch }) => id.endsWith('-to-order') && pitch?.value === finest + 0.5)).toBe(true)
  expect(rowLenses([], { channels: 4, pitch: um(finest - 1) })).toEqual([])
})

describe('designs are ranked', () => {
  type Column = readonly [id: string, notMet: number, notKnown: number, broken: boolean]
  const of = (columns: readonly Column[], figures: Readonly<Record<string, readonly (number | null)[]>>) =>
    ({
      columns: columns.map(([candidateId, notMet, notKnown, broken]) => ({
        ...{ candidateId, notMet, notKnown },
        issues: broken ? [{}] : [],
      })),
      rows: Object.entries(figures).map(([id, values]) => ({
        id,
        cells: values.map((value) => ({ value })),
      })),
    }) as unknown as Comparison
  const ids = (comparison: Comparison, by: Parameters<typeof rankDesigns>[1]) =>
    rankDesigns(comparison, by).map(({ candidateId }) => candidateId)

  test('by what is not met, then not known, then the loss; broken ones last', () => {
    const columns: readonly Column[] = [
      ['broken', 0, 0, true],
      ['two missed', 2, 0, false],
      ['one missed', 1, 3, false],
      ['one open', 0, 1, false],
      ['lossy', 0, 0, false],
      ['best', 0, 0, false],
    ]
    const comparison = of(columns, { rss: [null, 0.1, 0.1, 0.1, 2, 1] })
    expect(ids(comparison, 'RSS')).toEqual([
      'best',
      'lossy',
      'one open',
      'one missed',
      'two missed',
      'broken',
    ])
    expect(rankDesigns(comparison, 'RSS').map(({ meetsAll, at }) => [meetsAll, at])).toEqual([
      [true, 5],
      [true, 4],
      [false, 3],
      [false, 2],
      [false, 1],
      [false, 0],
    ])
  })

  test('by the percentile only where every design that can be computed has it', () => {
    const columns: readonly Column[] = [
      ['a', 0, 0, false],
      ['b', 0, 0, false],
      ['broken', 0, 0, true],
    ]
    const rss = [1, 2, null]
    expect(ids(of(columns, { percentile: [3, 2.5, null], rss }), 'percentile')).toEqual(['b', 'a', 'broken'])
    expect(ids(of(columns, { percentile: [3, null, null], rss }), 'percentile')).toEqual(['a', 'b', 'broken'])
    expect(ids(of(columns, { nominal: [2, 1, null], rss }), 'nominal')).toEqual(['b', 'a', 'broken'])
    expect(ids(of(columns, { worst: [2, 1, null], rss }), 'worst case')).toEqual(['b', 'a', 'broken'])
  })
})
