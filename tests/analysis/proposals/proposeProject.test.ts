import { describe, expect, test } from 'vitest'
import { compareCandidates } from '../../../src/analysis/compare/compareCandidates'
import { tryEvaluate } from '../../../src/analysis/index'
import { type Brief, defaultBrief, fibreComplaint, usualMode } from '../../../src/analysis/proposals/brief'
import { FAMILIES, FAMILY_IDS, type FamilyId } from '../../../src/analysis/proposals/families'
import { newDesign, proposeSteps, writeDesign } from '../../../src/analysis/proposals/proposeProject'
import { rankDesigns } from '../../../src/analysis/proposals/ranking'
import { emptyProject, parseProject } from '../../../src/model/index'
import { coreValue, quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { finish } from '../../../src/numerics/steps'

/** The family that a design belongs to by its elements; a mixture by its most specific one. */
function familyOf(project: Project, { chain }: Pick<Candidate, 'chain'>, plainFacetId: string): FamilyId {
  if (chain.some(({ kind }) => kind === 'relay')) return 'relay'
  if (chain.some(({ kind }) => kind === 'taper chip')) return 'ssc'
  if (chain.some((each) => (each.kind === 'fibre' || each.kind === 'stub') && each.tipId !== undefined)) {
    return 'lensed'
  }
  if (chain.some(({ kind }) => kind === 'stub')) return 'stub'
  const facet = chain.at(-1)
  if (facet?.kind === 'facet' && facet.facetId !== plainFacetId) return 'on-chip'
  const gap = chain.at(-2)
  const medium = gap?.kind === 'gap' ? project.media.find(({ id }) => id === gap.mediumId) : undefined
  return medium === undefined || medium.state === 'gas' ? 'cleaved-dry' : 'cleaved-gel'
}

const proposed = (change: Partial<Brief> = {}, solved = null as Parameters<typeof proposeSteps>[1]) =>
  finish(proposeSteps({ ...defaultBrief(), ...change }, solved))
const outcome = ({ outcomes }: ReturnType<typeof proposed>, id: string) =>
  outcomes.find(({ familyId }) => familyId === id)!

const usual = proposed()
/** A row that a chip with a change of pitch alone can serve: the quickest brief to answer. */
const TIGHT: Partial<Brief> = { channels: 16, pitch: quantityOf(50, 'um') }
/** A row too dense for lens arrays: every family but the relay, whose lenses take most of the search. */
const DENSE: Partial<Brief> = { channels: 4, pitch: quantityOf(126, 'um') }

describe('a project from the brief', () => {
  test('holds a design of every family, is a valid file, and every design can be computed', () => {
    const project = parseProject(JSON.parse(JSON.stringify(usual.project)))
    expect(project.candidates.map(({ id }) => id).toSorted()).toEqual([...FAMILY_IDS].toSorted())
    for (const { id } of project.candidates) {
      const result = tryEvaluate(project, id)
      expect(result.ok ? [] : result.issues).toEqual([])
    }
  })

  test('is the same for the same brief', () => {
    expect(JSON.stringify(proposed(DENSE))).toBe(JSON.stringify(proposed(DENSE)))
  })

  test('chooses the bridge fibre whose mode is nearest to that of the facet', () => {
    // Facet 3.4 x 3 µm. Of MFDs 1.9 to 5.6 the nearest to the geometric mean, 3.19 µm, in the logarithm wins.
    const stub = usual.project.candidates.find(({ id }) => id === 'stub')!
    const [, , element] = stub.chain
    const fibre = usual.project.fibres.find(
      (each) => element?.kind === 'stub' && each.id === element.fibreId,
    )!
    expect(fibre.mode).toMatchObject({ kind: 'core', coreDiameter: { value: 2.2 }, na: { value: 0.41 } })
    expect(stub.remark).toContain('mode mismatch 0.0')
  })

  test('settles the relay at the matched magnification, the ratio of the mean mode sizes', () => {
    const relay = tryEvaluate(usual.project, 'relay')
    if (!relay.ok) throw new Error('no relay')
    const { guides, relays } = relay.value
    const fibreUm = guides[0]!.exit.mfdXUm
    const matched = Math.sqrt(3.4 * 3) / fibreUm
    expect(relays[0]!.magnification / matched).toBeGreaterThan(0.93)
    expect(relays[0]!.magnification / matched).toBeLessThan(1.07)
    // What is left of the mismatch: (2m/(1+m²))² with m the ratio to the match, and the facet's own ellipse.
    const mismatch = relay.value.lines.find(({ kind }) => kind === 'mode mismatch')!.lossDb
    const ellipse = -10 * Math.log10((2 * 3.4 * Math.sqrt(10.2)) / (3.4 ** 2 + 10.2)) * 2
    expect(mismatch).toBeLessThan(ellipse + 0.05)
  })

  test('leaves no gain: each design is at its optimum, so another step in a distance loses more', () => {
    const { project } = usual
    const lensed = structuredClone(project)
    const gap = lensed.candidates.find(({ id }) => id === 'lensed')!.chain[1]!
    if (gap.kind !== 'gap') throw new Error('no gap')
    const lossAt = (gapUm: number) => {
      gap.gap = quantityOf(gapUm, 'um')
      const result = tryEvaluate(lensed, 'lensed')
      return result.ok ? result.value.nominalDb : Number.NaN
    }
    const settled = coreValue(gap.gap, 'gap')
    const best = lossAt(settled)
    expect(lossAt(settled + 1)).toBeGreaterThan(best)
    expect(lossAt(settled - 1)).toBeGreaterThan(best)
  })

  test('is ranked by the requirements: fewest not met, then not known, then RSS', () => {
    const comparison = compareCandidates(usual.project, tryEvaluate)
    const rss = comparison.rows.find(({ id }) => id === 'rss')!.cells
    const keys = comparison.columns.map(({ notMet, notKnown }, i) => [notMet, notKnown, rss[i]!.value!])
    const sorted = [...keys].sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]! || a[2]! - b[2]!)
    expect(keys).toEqual(sorted)
    expect(comparison.columns[0]!.notMet).toBe(0)
    expect(usual.project.candidates.at(-1)!.id).toBe('cleaved-dry')
  })

  test('holds every set axis as the station does', () => {
    const { lateral, axial } = usual.project.requirements.station
    const gap = usual.project.candidates.find(({ id }) => id === 'stub')!.chain.at(-2)!
    if (gap.kind !== 'gap') throw new Error('no gap')
    expect(gap.offsetX.tolerance?.plusMinus).toBe(lateral.value)
    expect(gap.gap.tolerance?.plusMinus).toBe(axial.value)
  })
})

test('an on-chip taper shows another mode by another width of its tip', () => {
  const { project } = usual
  const facetOf = (id: string) => {
    const element = project.candidates.find((each) => each.id === id)?.chain.at(-1)
    if (element?.kind !== 'facet') throw new Error('no facet')
    return project.facets.find((each) => each.id === element.facetId)!
  }
  const [plain, widened] = [facetOf('cleaved-dry'), facetOf('on-chip')]
  expect(widened.mfdX.value).toBeGreaterThan(plain.mfdX.value)
  expect(widened.tipWidth).toBeDefined()
  expect(widened.tipWidth).not.toEqual(plain.tipWidth)
  expect(outcome(usual, 'on-chip').text).toContain(`by a tip ${widened.tipWidth!.value} µm wide`)
})

describe('families that do not apply say why', () => {
  test('a wide facet needs no converter', () => {
    const wide = proposed({ platformId: 'facet-silica', ...usualMode('facet-silica') })
    for (const id of ['stub', 'lensed', 'ssc']) {
      expect(outcome(wide, id)).toMatchObject({
        candidateId: null,
        text: expect.stringContaining('close to the fibre'),
      })
    }
    expect(outcome(wide, 'on-chip').text).toContain('has a mode wider than')
    expect(wide.project.candidates.map(({ id }) => id).toSorted()).toEqual([
      'cleaved-dry',
      'cleaved-gel',
      'relay',
    ])
  })

  test('at 50 µm pitch only a chip that changes the pitch is left', () => {
    const tight = proposed(TIGHT)
    expect(tight.project.candidates.map(({ id }) => id)).toEqual(['ssc'])
    expect(outcome(tight, 'stub').text).toContain('125 µm cladding')
    expect(outcome(tight, 'relay').text).toContain('pitches of 127 µm and above')
    expect(tight.project.converters[0]).toMatchObject({
      inputPitch: { value: 127 },
      outputPitch: { value: 50 },
    })
  })

  test('at 980 nm the parts that are stated for telecom wavelengths are left out', () => {
    const short = proposed({
      ...DENSE,
      wavelength: quantityOf(980, 'nm'),
      fibreId: 'fibre-core-980',
      mfdX: quantityOf(2.2, 'um'),
      mfdY: quantityOf(2, 'um'),
    })
    expect(outcome(short, 'ssc').text).toContain('1260 to 1700 nm')
    const stub = short.project.fibres.find(({ id }) => id.startsWith('fibre-bridge'))!
    // V = 2π · 0.8 · 0.35 / 0.98 = 1.80, below 2.405: single-mode.
    expect(stub.mode).toMatchObject({ coreDiameter: { value: 1.6 } })
  })

  test('a fibre out of its band is refused with the one that fits', () => {
    expect(fibreComplaint({ ...defaultBrief(), wavelength: quantityOf(980, 'nm') })).toBe(
      'Fibre: "Standard single-mode" is single-mode from 1260 to 1700 nm; the wavelength is 980 nm. Use "Single-mode, 930 to 1260 nm".',
    )
    expect(fibreComplaint(defaultBrief())).toBeNull()
  })
})

describe('a row of channels', () => {
  const row = proposed({ channels: 4 })

  test('gets lens arrays of its pitch, over a section in which the beam stays parallel', () => {
    const relay = tryEvaluate(row.project, 'relay')
    if (!relay.ok) throw new Error('no relay')
    const [view] = relay.value.relays
    expect(row.project.lenses.every(({ pitch }) => pitch?.value === 127)).toBe(true)
    expect(view!.stretchUm).toBeLessThanOrEqual(2 * view!.collimatedRayleighUm)
    expect(relay.value.nominalDb).toBeLessThan(1.5)
    for (const { id, array } of row.project.candidates) {
      expect(array?.pitch.value).toBe(id === 'relay' ? undefined : 127)
    }
  })

  test('keeps polarisation where the fibre does', () => {
    const { project } = proposed({ fibreId: 'fibre-core-pm', ...TIGHT })
    expect(project.requirements.polarisation).toBe('maintained')
    expect(project.fibres.every(({ polarisationMaintaining }) => polarisationMaintaining)).toBe(true)
  })
})

describe('a facet known by its core', () => {
  test('gets the solved mode, its geometry, and says that it is computed', () => {
    const core = { width: quantityOf(0.6, 'um'), height: quantityOf(0.2, 'um') }
    const solved = { mfdXUm: 3.2, mfdYUm: 2.98, effectiveIndex: 1.4536 }
    const [facet] = proposed({ core, ...TIGHT }, solved).project.facets
    expect(facet).toMatchObject({
      mfdX: { value: 3.2, provenance: 'computed' },
      index: { index: { value: 1.4536, provenance: 'computed' } },
      guideWidth: { value: 0.6 },
      crossSection: { cores: [{ width: { value: 0.6 }, height: { value: 0.2 } }] },
    })
  })
})

describe('a further design in an open project', () => {
  test.each(FAMILIES)('$id comes with its parts, even into an empty project', (family) => {
    const project = emptyProject()
    const found = newDesign(project, family)
    if ('reason' in found) throw new Error(found.reason)
    writeDesign(project, found)
    const parsed = parseProject(JSON.parse(JSON.stringify(project)))
    const result = tryEvaluate(parsed, parsed.candidates[0]!.id)
    expect(result.ok ? [] : result.issues).toEqual([])
  })

  test('takes the parts and the facet of the project, a free name, and leaves the rest alone', () => {
    const project = structuredClone(usual.project)
    const before = structuredClone(project)
    const found = newDesign(project, FAMILIES.find(({ id }) => id === 'stub')!)
    if ('reason' in found) throw new Error(found.reason)
    expect(found.candidate.name).toBe('High-NA stub, bonded 2')
    writeDesign(project, found)
    expect(project.fibres).toEqual(before.fibres)
    expect(project.candidates).toHaveLength(before.candidates.length + 1)
  })

  test('is known by its elements', () => {
    const { project } = usual
    const facetId = project.facets[0]!.id
    for (const candidate of project.candidates) {
      expect(familyOf(project, candidate, facetId)).toBe(candidate.id)
    }
  })
})

describe('the ranking', () => {
  test('puts designs that cannot be computed last', () => {
    const broken = structuredClone(usual.project)
    broken.candidates[0]!.chain = []
    const order = rankDesigns(compareCandidates(broken, tryEvaluate), 'nominal')
    expect(order.at(-1)).toMatchObject({ candidateId: broken.candidates[0]!.id, meetsAll: false })
  })
})
