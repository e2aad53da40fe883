import { beforeAll, describe, expect, test } from 'vitest'
import { tryEvaluate } from '../../src/analysis/index'
import { compileCandidate } from '../../src/analysis/path/compileCandidate'
import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import { quantityAt } from '../../src/model/quantity/quantityAt'
import { spreadEnds } from '../../src/model/quantity/spread'
import type { GapElement } from '../../src/model/schema/candidate'
import type { Project } from '../../src/model/schema/project'
import { SECTIONS } from '../../src/report/sections'
import { sheetWorkbook } from '../../src/report/workbook/workbook'
import { familiesProject, relayElement } from '../analysis/support/families'
import { twoDesigns } from '../support/twoDesigns'
import { type ComputedWorkbook, computed } from './support/evaluateCells'
import { changed, formulas, numberAt, readBook, recalculated, SOFFICE } from './support/recalculate'
import { sheetOf } from './support/sheets'

const evaluations = new Map<string, ReturnType<typeof tryEvaluate>>()

/** Each design of a project is evaluated once, whatever its document shows. */
function evaluate(project: Project, id: string) {
  const key = `${id} ${JSON.stringify({ ...project, review: undefined })}`
  const evaluation = evaluations.get(key) ?? tryEvaluate(project, id)
  evaluations.set(key, evaluation)
  return evaluation
}

function evaluated(project: Project, id: string) {
  const evaluation = evaluate(project, id)
  if (!evaluation.ok) throw new Error('not computable')
  return evaluation.value
}

const books = new Map<string, Promise<Uint8Array>>()

/** The workbook of a project, made once; without the hidden page of the document, which has no formulas, unless it is wanted. */
function workbookOf(project: Project, document: 'with' | 'without' = 'without'): Promise<Uint8Array> {
  const key = `${document} ${JSON.stringify(project)}`
  const left = document === 'with' ? [] : SECTIONS.map(({ id }) => id)
  const sheet = () => sheetOf({ ...project, review: { ...project.review, left } }, { evaluate })
  const book = books.get(key) ?? sheetWorkbook(sheet(), project)
  books.set(key, book)
  return book
}

function gapOf(project: Project, at: number): GapElement {
  const gap = project.candidates[at]?.chain.find((element) => element.kind === 'gap')
  if (gap?.kind !== 'gap') throw new Error('no gap')
  return gap
}

/** Digits that a spreadsheet program keeps; the core's own sums differ in the last ones. */
const PLACES = 9

/** Losses of the core: at the worst case whose signs were found for another state, and at the combination of the worse single limits. */
function cornersDb(project: Project, id: string, signsOf: Project) {
  const compiled = compileCandidate(project, id)
  if (!compiled.ok) throw new Error('not computable')
  const { variables, nominal, lossDb } = compiled.value
  const at = (signs: readonly (readonly [slot: number, sign: number])[]) => {
    const values = Float64Array.from(nominal)
    for (const [slot, sign] of signs) {
      const [low, high] = spreadEnds(variables[slot]!.spread)
      values[slot] = variables[slot]!.nominal + (sign < 0 ? low : high)
    }
    return lossDb(values)
  }
  const found = evaluated(signsOf, id).worstCorner.settings.map(({ path, sign }) => {
    return [variables.findIndex((variable) => variable.path.join() === path.join()), sign] as const
  })
  const single = found.map(([slot, sign]) => {
    const [lower, upper] = [at([[slot, -1]]), at([[slot, 1]])]
    return [slot, Math.abs(upper - lower) < 1e-9 ? sign : upper > lower ? 1 : -1] as const
  })
  const differing = single.filter(([, sign], i) => sign !== found[i]![1]).length
  return { foundDb: at(found), singleDb: at(single), differing }
}

/** The workbook's totals against the core's. The worst case is the largest of what cells can know. */
function expectTotals(named: (name: string) => number, project: Project, madeFor = project): void {
  for (const [i, { id, name }] of project.candidates.entries()) {
    const { nominalDb, worstCorner, rootSumSquare } = evaluated(project, id)
    const budget = (total: string) => named(`budget${i + 1}_${total}`)
    expect(budget('nominal'), `${name}, nominal`).toBeCloseTo(nominalDb, PLACES)
    expect(budget('efficiency'), `${name}, efficiency`).toBeCloseTo(10 ** (-nominalDb / 10), PLACES)
    expect(budget('root_sum_square'), `${name}, rss`).toBeCloseTo(rootSumSquare.lossDb, PLACES)
    expect(budget('worst_corner'), `${name}, never below RSS`).toBeGreaterThanOrEqual(
      budget('root_sum_square'),
    )
    if (madeFor === project) {
      expect(budget('worst_corner'), `${name}, worst corner`).toBeCloseTo(worstCorner.lossDb, PLACES)
    } else {
      const { foundDb, singleDb, differing } = cornersDb(project, id, madeFor)
      const known = Math.max(foundDb, singleDb, rootSumSquare.lossDb)
      expect(budget('worst_corner'), `${name}, worst corner`).toBeCloseTo(known, PLACES)
      expect(budget('signs_changed'), `${name}, signs`).toBe(differing)
      expect(known, `${name}, not above the search`).toBeLessThanOrEqual(worstCorner.lossDb + 1e-9)
    }
  }
}

/** A coated face, angled faces, roll, either pointing, one or no aligned offset, a sampled tilt: everything that the closed form depends on. */
function contortedProject(): Project {
  const project = twoDesigns()
  const [first, second] = [gapOf(project, 0), gapOf(project, 1)]
  first.nearFaceAngle = quantityOf(8, 'deg', 'data sheet', 0.3)
  first.farFaceAngle = quantityOf(7, 'deg', 'data sheet', 0.5)
  first.roll = quantityOf(20, 'deg', 'estimate', 1)
  first.tiltX = quantityOf(2, 'mrad', 'estimate', 3)
  first.offsetY = quantityOf(300, 'nm', 'estimate', 400)
  first.pointing = 'parallel'
  first.farCoating = { kind: 'reflectance', reflectance: quantityOf(0.3, '%', 'estimate', 0.1) }
  second.nearFaceAngle = quantityOf(4, 'deg', 'data sheet', 0.3)
  second.farFaceAngle = quantityOf(5, 'deg', 'data sheet', 0.3)
  second.facePlane = 'y'
  second.tiltX = quantityOf(1, 'deg', 'estimate', 0.3)
  second.tiltY = quantityOf(-0.5, 'deg', 'estimate', { plusMinus: 0.3, distribution: 'one-sided' })
  const third = structuredClone(project.candidates[1]!)
  const fourth = structuredClone(project.candidates[1]!)
  const fifth = structuredClone(project.candidates[1]!)
  project.candidates.push(
    { ...third, id: 'x-only' },
    { ...fourth, id: 'y-only' },
    { ...fifth, id: 'searched' },
  )
  gapOf(project, 2).aligned = ['offsetX']
  gapOf(project, 2).roll = quantityOf(5, 'deg', 'estimate', 1)
  gapOf(project, 3).aligned = ['offsetY']
  gapOf(project, 4).aligned = ['offsetX', 'offsetY', 'gap', 'tiltX', 'tiltY']
  return project
}

/** Fibres whose exact mode adds a line that no cell can compute. */
function fieldProject(): Project {
  const project = twoDesigns()
  for (const fibre of project.fibres) fibre.modeShape = { kind: 'core' }
  return project
}

/** A relay with two lenses that are known by their faces, alone in its project. */
function realRelayProject(): Project {
  const distances = { frontGap: quantityOf(810, 'um'), backGap: quantityOf(245, 'um') }
  const project = familiesProject(relayElement({ lens1Id: 'plano-1', lens2Id: 'plano-2', ...distances }))
  const relay = project.candidates.filter(({ id }) => id === 'relay')
  return { ...project, candidates: relay }
}

/** Thousands of formulas read one by one: time for a busy machine. */
const READING = { timeout: 240_000 }

describe('the cell formulas, computed by a reader that is not ours', READING, () => {
  test.each([
    ['the demo', demoProject],
    ['every family, relay and tips included', familiesProject],
    ['a relay through real lenses, whose aberration is carried', realRelayProject],
    ['modes beyond Gaussians', fieldProject],
    ['leaning and rolled faces, single aligned axes, tilts', contortedProject],
  ] as const)('give the core’s totals for %s, and the values that the file keeps', async (_, make) => {
    const project = make()
    const bytes = await workbookOf(project)
    const { at, named } = await computed(bytes)
    expectTotals(named, project)
    const all = formulas(await readBook(bytes))
    expect(all.length).toBeGreaterThan(project.candidates.length > 1 ? 1000 : 50)
    const off = all.filter(({ sheet, key, kept }) => !(Math.abs(at({ sheet, key }) - kept) < 1e-9))
    expect(off.map(({ sheet, key, formula }) => `${sheet} ${key} ${formula}`)).toEqual([])
  })

  test('give every line of the budget, and the lines add up to the total', async () => {
    const project = contortedProject()
    const workbook = await readBook(await workbookOf(project))
    for (const [i, { id }] of project.candidates.entries()) {
      const { lines, nominalDb } = evaluated(project, id)
      const page = workbook.sheets.find((each) => each.name === `Budget ${i + 1}`)
      const first = (page?.rows.findIndex((row) => row[0] === 'Line') ?? 0) + 1
      const values = lines.map((_, n) => Number(page?.rows[first + n]?.[1]))
      for (const [n, line] of lines.entries()) {
        expect(page?.rows[first + n]?.[0]).toBe(line.label)
        expect(values[n], line.label).toBeCloseTo(line.lossDb, PLACES)
      }
      expect(values.reduce((sum, db) => sum + db, 0)).toBeCloseTo(nominalDb, PLACES)
    }
  })
})

/** A change made in the workbook, and the same change made in the project. */
const CHANGES: readonly {
  readonly title: string
  readonly inputs: Readonly<Record<string, number>>
  readonly edit: (project: Project) => void
}[] = [
  {
    title: 'a gap and an offset',
    inputs: { budget1_gap: 6.5, budget1_offset_x: 0.7, budget2_gap: 4.25, budget2_cure_shift_x: 0.3 },
    edit: (project) => {
      gapOf(project, 0).gap.value = 6.5
      gapOf(project, 0).offsetX.value = 0.7
      gapOf(project, 1).gap.value = 4.25
      const shift = gapOf(project, 1).bondShift
      if (shift !== undefined) shift.x.value = 0.3
    },
  },
  {
    title: 'both diameters of the facet',
    inputs: {
      budget1_mfd_x_of_silicon_nitride_facet: 4.1,
      budget1_mfd_y_of_silicon_nitride_facet: 3.3,
      budget2_mfd_x_of_silicon_nitride_facet: 4.1,
      budget2_mfd_y_of_silicon_nitride_facet: 3.3,
    },
    edit: (project) => {
      const [facet] = project.facets
      if (facet === undefined) return
      facet.mfdX.value = 4.1
      facet.mfdY.value = 3.3
    },
  },
  {
    title: 'tilts, a roll and face angles',
    inputs: { budget1_tilt_y: 1.5, budget1_roll: 25, budget1_fibre_side_face_angle: 3, budget2_tilt_x: 0.8 },
    edit: (project) => {
      const gap = gapOf(project, 0)
      gap.tiltY.value = 1.5
      gap.roll.value = 25
      gap.nearFaceAngle.value = 3
      gapOf(project, 1).tiltX.value = 0.8
    },
  },
  {
    title: 'typed losses and an index',
    inputs: { budget2_splice_loss: 0.3, budget2_index_of_uv_cured_adhesive: 1.52 },
    edit: (project) => {
      const splice = project.candidates[1]?.chain.find((element) => element.kind === 'splice')
      if (splice?.kind === 'splice') splice.loss.value = 0.3
      const adhesive = project.media.find(({ id }) => id === 'adhesive')
      if (adhesive?.index.kind === 'value') adhesive.index.index.value = 1.52
    },
  },
]

describe.each(CHANGES)('changing $title in the workbook', READING, ({ inputs, edit }) => {
  const project = twoDesigns()
  edit(project)

  test('moves nominal loss, worst case and RSS to the core’s, by a reader that is not ours', async () => {
    const { named } = await computed(await workbookOf(twoDesigns()), inputs)
    expectTotals(named, project, twoDesigns())
  })
})

test('an overwritten computed number applies at nominal, and keeps its ratio to nominal at the worst case', async () => {
  const id = 'cleaved-dry'
  const project = twoDesigns()
  /** The demo's fibre, its core as the signs of the worst case have it: its mode is what the app computes. */
  const cornered = structuredClone(project)
  for (const { path, sign } of evaluated(project, id).worstCorner.settings) {
    const quantity = quantityAt(cornered, path)
    if (quantity !== undefined) quantity.value += sign * (quantity.tolerance?.plusMinus ?? 0)
  }
  const mfdUm = (own: Project) => evaluated(own, id).guides[0]!.exit.mfdXUm
  const ratio = mfdUm(cornered) / mfdUm(project)
  expect(Math.abs(ratio - 1)).toBeGreaterThan(0.005)
  const withMode = (own: Project, um: number) => {
    own.fibres[0]!.mode = { kind: 'mfd', mfdX: quantityOf(um, 'um') }
    return evaluated(own, id).nominalDb
  }
  const { named } = await computed(await workbookOf(project), {
    budget1_fibre_side_mfd_x_joint_1: 8,
    budget1_fibre_side_mfd_y_joint_1: 8,
  })
  expect(named('budget1_nominal')).toBeCloseTo(withMode(twoDesigns(), 8), PLACES)
  expect(named('budget1_worst_corner')).toBeCloseTo(withMode(cornered, 8 * ratio), PLACES)
})

test.skipIf(SOFFICE === undefined)(
  'all these changes at once give the core’s totals in LibreOffice too, to 1e-9 (skipped where none is installed: it opens and recalculates the file)',
  async () => {
    const project = twoDesigns()
    for (const { edit } of CHANGES) edit(project)
    const inputs = Object.assign({}, ...CHANGES.map((each) => each.inputs)) as Record<string, number>
    const bytes = await changed(await workbookOf(twoDesigns()), inputs)
    const book = await recalculated(bytes, String(SOFFICE))
    expectTotals((name) => numberAt(book, name), project, twoDesigns())
  },
  180_000,
)

describe('the workbook', () => {
  let book: ComputedWorkbook
  let bytes: Uint8Array
  beforeAll(async () => {
    bytes = await workbookOf(demoProject(), 'with')
    book = await computed(bytes)
  })

  test('names its inputs and totals, with a unit beside each', async () => {
    const workbook = await readBook(bytes)
    const page = workbook.sheets.find(({ name }) => name === 'Budget 2')
    expect(book.named('budget2_gap')).toBe(3)
    const row = page?.rows.find((each) => each[6] === 'budget2_gap')
    expect(row?.slice(0, 6)).toEqual(['gap', 3, 'µm', 1, 1, 'estimate'])
    const units = page?.rows.filter((each) => typeof each[1] === 'number').map((each) => each[2])
    expect(new Set(units)).toEqual(new Set(['µm', '°', 'dB', '']))
  })

  test('distinguishes inputs from results by their style', async () => {
    const workbook = await readBook(bytes)
    const cells = workbook.sheets.find(({ name }) => name === 'Budget 2')?.cells
    const row = workbook.sheets
      .find(({ name }) => name === 'Budget 2')
      ?.rows.findIndex((each) => each[6] === 'budget2_gap')
    expect(cells?.get(`${row},1`)?.style?.fill).toMatchObject({ type: 'pattern', pattern: 'solid' })
    const total = workbook.sheets
      .find(({ name }) => name === 'Budget 2')
      ?.rows.findIndex((each) => each[0] === 'Nominal')
    expect(cells?.get(`${total},1`)?.style?.fill).toBeUndefined()
  })

  test('has one letter throughout, and numbers level with their text', async () => {
    const { sheets } = await readBook(bytes)
    const styles = sheets.flatMap(({ cells }) => [...(cells?.values() ?? [])]).map(({ style }) => style)
    // The reader leaves out a font that is the workbook's own, which is the same.
    const fonts = styles.flatMap((style) => (style?.font === undefined ? [] : [style.font.name]))
    expect(new Set(fonts)).toEqual(new Set(['Calibri']))
    expect(new Set(styles.map((style) => style?.alignment?.vertical))).toEqual(new Set(['top']))
  })

  test('does not take a wavelength: modes and indices would not follow', async () => {
    const workbook = await readBook(bytes)
    const page = workbook.sheets.find(({ name }) => name === 'Budget 1')
    const row = page?.rows.findIndex((each) => each[0] === 'wavelength') ?? -1
    expect(page?.rows[row]?.[5]).toContain('not an input')
    expect(page?.cells?.get(`${row},1`)?.style?.fill).toBeUndefined()
    expect(workbook.namedRanges?.some(({ name }) => name.includes('wavelength'))).toBe(false)
  })

  test('refuses what no input may be, at every input and tolerance', async () => {
    const { sheets } = await readBook(bytes)
    const page = sheets.find(({ name }) => name === 'Budget 2')
    const limitOf = (range: string) => page?.dataValidations?.find((each) => each.range === range)
    const row = 1 + (page?.rows.findIndex((each) => each[6] === 'budget2_gap') ?? 0)
    // A gap lies between 0 and 100 mm; a tolerance is never negative.
    expect(limitOf(`B${row}`)).toMatchObject({ type: 'decimal', formula1: '0', formula2: '100000' })
    expect(limitOf(`D${row}`)).toMatchObject({ formula1: '0' })
    expect(limitOf(`B${row}`)?.errorMessage).toBe('gap: 0 to 100000 µm')
    const named = page?.rows.flatMap((each, i) =>
      typeof each[6] === 'string' && typeof each[3] === 'number' && each[6] !== '' ? [i + 1] : [],
    )
    expect(named?.length).toBeGreaterThan(5)
    for (const each of named ?? []) expect(limitOf(`B${each}`), `row ${each}`).toBeDefined()
  })

  test('shows limit, margin and verdict, which follow an input; a percentile stays that of the run', async () => {
    const project = twoDesigns()
    project.requirements.losses = [
      { id: 'loss', limit: quantityOf(2, 'dB'), basis: 'nominal', percentile: 99, channels: 'one' },
      { id: 'loss-2', limit: quantityOf(9, 'dB'), basis: 'worst case', percentile: 99, channels: 'one' },
      { id: 'loss-3', limit: quantityOf(2, 'dB'), basis: 'percentile', percentile: 99, channels: 'one' },
    ]
    const made = await workbookOf(project)
    const page = (await readBook(made)).sheets.find(({ name }) => name === 'Budget 2')
    const first = 1 + (page?.rows.findIndex((row) => row[0] === 'Loss limit') ?? 0)
    const verdictsOf = ({ wordAt }: ComputedWorkbook) =>
      [0, 1, 2].map((i) => wordAt({ sheet: 'Budget 2', key: `${first + i},5` }))
    const { nominalDb, worstCorner } = evaluated(project, project.candidates[1]!.id)
    const expected = [nominalDb <= 2, worstCorner.lossDb <= 9].map((met) => (met ? 'met' : 'not met'))
    expect(verdictsOf(await computed(made))).toEqual([...expected, 'not known'])
    const raised = await computed(made, { budget2_splice_loss: 8 })
    expect(verdictsOf(raised)).toEqual(['not met', 'not met', 'not known'])
    const margin = raised.at({ sheet: 'Budget 2', key: `${first},4` })
    expect(margin).toBeCloseTo(2 - raised.named('budget2_nominal'), PLACES)
    const stricter = await computed(made, { budget2_limit_1: 0.01 })
    expect(verdictsOf(stricter)[0]).toBe('not met')
    expect(page?.rows[first + 2]?.[6]).toContain('not recalculated here')
  })

  test('turns the signs of the worst case where an input makes the other end worse', async () => {
    const project = twoDesigns()
    const made = await workbookOf(project)
    // An offset of 2 um to one side, then to the other: the worse end of its tolerance changes sides.
    const worst = await Promise.all(
      [2, -2].map(async (offset) =>
        (await computed(made, { budget1_offset_x: offset })).named('budget1_worst_corner'),
      ),
    )
    for (const [i, offset] of [2, -2].entries()) {
      const moved = twoDesigns()
      gapOf(moved, 0).offsetX.value = offset
      const { worstCorner } = evaluated(moved, moved.candidates[0]!.id)
      expect(worst[i], `offset ${offset}`).toBeCloseTo(worstCorner.lossDb, 6)
    }
  })

  test('says of a relay which cells are live, and that only the program searches its corners', async () => {
    const project = familiesProject()
    const workbook = await readBook(await workbookOf(project))
    const at = project.candidates.findIndex(({ id }) => id === 'relay')
    const page = workbook.sheets.find(({ name }) => name === `Budget ${at + 1}`)
    expect(page?.rows[2]?.[0]).toContain('recalculated cells: Isolator. Lenses, distances, alignment')
    const worst = page?.rows.find((row) => row[0] === 'Worst case')
    expect(worst?.[5]).toContain('only the app can repeat the search')
  })

  test('marks what it only carries', async () => {
    const project = familiesProject()
    const workbook = await readBook(await workbookOf(project))
    const at = project.candidates.findIndex(({ id }) => id === 'relay')
    // Among designs that follow every input, one that does not must not look like one of them.
    const beside = workbook.sheets.find(({ name }) => name === 'What if')?.rows[4 + at]
    expect(beside?.[11]).toMatch(/^\d+ lines are fixed values and do not follow the inputs/)
    const page = workbook.sheets.find(({ name }) => name === `Budget ${at + 1}`)
    const focus = page?.rows.find((row) => row[0] === 'Defocus')
    expect(focus?.[5]).toContain('fixed value')
  })

  test('begins with the summary, ends with the joints, and keeps the document out of sight', async () => {
    const { sheets } = await readBook(bytes)
    expect(sheets.map(({ name }) => name)).toEqual([
      'Summary',
      'What if',
      ...demoProject().candidates.map((_, i) => `Budget ${i + 1}`),
      'Joints',
      'Document',
    ])
    expect(sheets.map(({ hidden }) => hidden === true)).toEqual(sheets.map(({ name }) => name === 'Document'))
    const front = sheets[0]?.rows.map((row) => row[0])
    expect(front).toContain('Methane leak-survey receiver')
    expect(front).toContain('Main risks')
  })

  test('is set to print on 12 pages at most, each page with its own area, and no names or chart cells of a budget', async () => {
    const { sheets } = await readBook(bytes)
    const shown = sheets.filter(({ hidden }) => hidden !== true)
    const pages = shown.map(({ pageSetup }) => Number(pageSetup?.fitToHeight))
    expect(pages.reduce((sum, each) => sum + each, 0)).toBeLessThanOrEqual(12)
    for (const { name, pageSetup } of shown) {
      expect(pageSetup, name).toMatchObject({ fitToWidth: 1, paperSize: 'a4' })
      const last = name.startsWith('Budget') ? 'F' : name === 'Joints' ? 'C' : name === 'Summary' ? 'F' : 'L'
      expect(pageSetup?.printArea, name).toMatch(new RegExp(`\\$A\\$1:\\$${last}\\$\\d+$`))
    }
  })

  test('keeps heads in sight, folds the scenarios of a joint, and draws the budget of every design', async () => {
    const { sheets } = await readBook(bytes)
    const page = (name: string) => sheets.find((each) => each.name === name)
    expect(page('What if')?.freezePane).toMatchObject({ rows: 4, columns: 1 })
    expect(page('Budget 1')?.freezePane).toMatchObject({ rows: 1 })
    const folded = [...(page('Joints')?.rowDefs?.values() ?? [])].filter(
      ({ outlineLevel }) => outlineLevel === 1,
    )
    expect(folded.length).toBeGreaterThan(100)
    for (const { name, charts } of sheets)
      expect(charts?.length ?? 0, name).toBe(/^(Budget|Summary)/.test(name) ? 1 : 0)
  })

  test('draws bars that begin where the one before ends, and end at the nominal loss', async () => {
    const { lines, nominalDb } = evaluated(demoProject(), 'ssc-chip')
    const page = (await readBook(bytes)).sheets.find(({ name }) => name === 'Budget 5')
    const first = 1 + (page?.rows.findIndex((row) => row[0] === 'Line') ?? 0)
    const bar = (row: number) =>
      [18, 19, 20].map((column) => book.at({ sheet: 'Budget 5', key: `${row},${column}` }))
    let sum = 0
    for (const [i, { lossDb }] of lines.entries()) {
      const [base = 0, rising = 0, falling = 0] = bar(first + i)
      expect(base).toBeCloseTo(Math.min(sum, sum + lossDb), PLACES)
      expect(rising - falling).toBeCloseTo(lossDb, PLACES)
      sum += lossDb
    }
    expect(bar(first + lines.length)[1]).toBeCloseTo(nominalDb, PLACES)
  })

  test('moves every design by an input that they share, worst case included, and says by how much', async () => {
    const project = twoDesigns()
    const made = await workbookOf(project)
    const before = await computed(made)
    const { named, at } = await computed(made, {
      what_if_mfd_x_of_silicon_nitride_facet: 4.1,
      what_if_mfd_y_of_silicon_nitride_facet: 3.3,
    })
    const moved = twoDesigns()
    moved.facets[0]!.mfdX.value = 4.1
    moved.facets[0]!.mfdY.value = 3.3
    expectTotals(named, moved, project)
    for (const i of [0, 1]) {
      const change = at({ sheet: 'What if', key: `${4 + i},3` })
      const nominal = (book: ComputedWorkbook) => book.named(`budget${i + 1}_nominal`)
      expect(change).toBeCloseTo(named(`budget${i + 1}_nominal`) - nominal(before), PLACES)
      expect(Math.abs(change)).toBeGreaterThan(0.005)
    }
  })
})
