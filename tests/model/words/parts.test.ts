import { describe, expect, test } from 'vitest'
import { CATALOGUE } from '../../../src/model/catalogue/catalogue'
import { TYPICAL } from '../../../src/model/catalogue/verify'
import { demoProject, parseProject } from '../../../src/model/index'
import { addParts } from '../../../src/model/parts/addParts'
import { matchesSearch } from '../../../src/model/parts/partSearch'
import { partsCsv, readPartsCsv } from '../../../src/model/parts/partsCsv'
import { checkParts, partsText, readPartsText } from '../../../src/model/parts/partsFile'
import { emptyProject } from '../../../src/model/project/emptyProject'
import { PART_LISTS } from '../../../src/model/project/references'
import { coreHalfWidth, coreValue, quantityOf } from '../../../src/model/quantity/quantity'

const catalogueProject = () => {
  const project = emptyProject()
  addParts(project, CATALOGUE)
  return project
}

describe('the starter catalogue', () => {
  test('is valid, has ids of its own, and every entry asks to be verified', () => {
    expect(() => parseProject(catalogueProject())).not.toThrow()
    const entries = PART_LISTS.flatMap((list) => [...CATALOGUE[list]])
    expect(entries.length).toBeGreaterThan(40)
    for (const entry of entries) expect(entry.remark, entry.id).toContain(TYPICAL)
    for (const list of PART_LISTS) {
      expect(new Set(CATALOGUE[list].map((entry) => entry.id)).size).toBe(CATALOGUE[list].length)
    }
  })

  test('holds no number that claims to be more than an estimate', () => {
    expect(JSON.stringify(CATALOGUE)).not.toMatch(/"provenance":"(data sheet|measured|computed)"/)
  })

  // ITU-T G.652 (2016), table of G.652.D, from memory: nominal MFD 8.6 to 9.2 um at 1310 nm, tolerance 0.4 um,
  // cladding 125.0 +- 0.7 um.
  test('knows the G.652.D class by its attribute table', () => {
    const fibre = CATALOGUE.fibres.find((each) => each.id === 'fibre-g652d-1310')
    if (fibre?.mode.kind !== 'mfd') throw new Error('no such fibre')
    expect(coreValue(fibre.mode.mfdX, 'mfd')).toBeGreaterThanOrEqual(8.6)
    expect(coreValue(fibre.mode.mfdX, 'mfd')).toBeLessThanOrEqual(9.2)
    expect(coreHalfWidth(fibre.mode.mfdX, 'mfd')).toBe(0.4)
    expect(coreHalfWidth(fibre.claddingDiameter, 'claddingDiameter')).toBe(0.7)
  })

  test('is found by any words of its entries, in any order', () => {
    const found = CATALOGUE.lenses.filter((lens) => matchesSearch(lens, 'ball sapphire'))
    expect(found.map((lens) => lens.id)).toEqual(['ball-300-sapphire', 'ball-500-sapphire'])
    expect(CATALOGUE.fibres.filter((fibre) => matchesSearch(fibre, 'no such words'))).toEqual([])
  })
})

describe('parts in a file of their own', () => {
  const lists = ({ fibres, facets, media, converters, lenses }: ReturnType<typeof emptyProject>) => ({
    fibres,
    facets,
    media,
    converters,
    lenses,
  })

  test('come back unchanged from JSON and from CSV', () => {
    for (const project of [catalogueProject(), parseProject(demoProject())]) {
      expect(readPartsText(partsText(project))).toMatchObject({ ok: true, value: lists(project) })
      expect(readPartsCsv(partsCsv(project))).toMatchObject({ ok: true, value: lists(project) })
    }
  })

  test.each(['uniform', 'normal', 'triangular'] as const)(
    'keep a %s tolerance in CSV as what it is',
    (distribution) => {
      const project = demoProject()
      for (const facet of project.facets)
        facet.mfdX = quantityOf(3.4, 'um', 'measured', { plusMinus: 0.2, distribution })
      const back = readPartsCsv(partsCsv(project))
      expect(back.ok && back.value.facets?.map(({ mfdX }) => mfdX.tolerance)).toEqual(
        project.facets.map(() => ({ plusMinus: 0.2, distribution })),
      )
    },
  )

  test.each([
    { tolerance: { plusMinus: 0.2, distribution: 'uniform', side: 'below' } },
    { tolerance: { plusMinus: 0.2, distribution: 'normal', coverage: 3, share: 'channel' } },
    { uncertainty: { plusMinus: 0.1, coverage: 1.96 } },
  ] as const)('keep in CSV which side, coverage, share and uncertainty a number has: %o', (spread) => {
    const project = demoProject()
    for (const facet of project.facets)
      facet.mfdX = { value: 3.4, unit: 'um', provenance: 'measured', ...spread }
    const back = readPartsCsv(partsCsv(project))
    expect(back.ok && back.value.facets?.map(({ mfdX }) => mfdX)).toEqual(
      project.facets.map(() => ({ value: 3.4, unit: 'um', provenance: 'measured', ...spread })),
    )
  })

  test('in CSV without the later columns are read as before', () => {
    const rows = partsCsv(catalogueProject()).split('\r\n')
    const short = rows.map((row) => row.replace(/,,,,,$/, '').replace(/,coverage.*$/, '')).join('\n')
    expect(readPartsCsv(short)).toMatchObject({ ok: true, value: lists(catalogueProject()) })
  })

  test('come back from a spreadsheet that separates by semicolons', () => {
    const text = partsCsv(catalogueProject())
    const rows = text.split('\r\n').map((row) => row.replaceAll(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/g, ';'))
    expect(readPartsCsv(`\uFEFF${rows.join('\n')}`).ok).toBe(true)
  })

  test('get a new id where theirs is taken', () => {
    const project = catalogueProject()
    const before = project.fibres.length
    expect(addParts(project, { fibres: CATALOGUE.fibres.slice(0, 1) })).toBe(1)
    expect(project.fibres).toHaveLength(before + 1)
    expect(project.fibres.at(-1)?.id).toBe('fibre-g652d-1310-1')
    expect(() => parseProject(project)).not.toThrow()
  })

  const faults = (result: ReturnType<typeof checkParts>) =>
    result.ok ? [] : result.issues.map((issue) => issue.message)

  test('are refused with every fault named: a number out of range, a missing field, no parts at all', () => {
    const lens = { ...CATALOGUE.lenses[0], clearAperture: { value: -3, unit: 'um', provenance: 'estimate' } }
    expect(faults(checkParts({ lenses: [lens] })).join()).toContain('clear aperture is −3 µm')
    expect(faults(checkParts({ fibres: [{ id: 'f' }] })).join()).toContain('fibres[0].name is missing')
    expect(faults(readPartsText('{"a": 1}'))).toEqual([
      'the file holds none of the lists fibres, facets, media, converters, lenses',
    ])
    expect(faults(readPartsText('{'))[0]).toContain('the file is not JSON')
  })

  test('in CSV are refused by line: an unknown list, a value that is no number, a field that reaches out', () => {
    const head = 'list,part,field,value,unit,plus minus,distribution,provenance,note'
    const of = (...rows: string[]) => faults(readPartsCsv([head, ...rows].join('\n')))
    expect(of('widgets,a,name,x,,,,,')).toEqual([
      'line 2: list is "widgets"; must be one of fibres, facets, media, converters, lenses',
    ])
    expect(of('fibres,a,mode.mfdX,wide,um,,,,')).toEqual(['line 2: value is "wide", which is not a number'])
    expect(of('fibres,a,__proto__.x,1,,,,,')).toEqual([
      'line 2: field is "__proto__.x", which is not a field name',
    ])
    expect(of('fibres,a,mode,core,,,,,', 'fibres,a,mode.kind,mfd,,,,,')).toEqual([
      'line 3: field "mode.kind" contradicts an earlier line',
    ])
    expect(faults(readPartsCsv('a,b\n1,2'))[0]).toContain('the table has no column list, part, field, value')
  })
})
