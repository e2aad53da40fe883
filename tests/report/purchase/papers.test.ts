import { readXlsx } from 'hucre/xlsx'
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { demoProject, parseProject } from '../../../src/model/index'
import { projectText } from '../../../src/model/project/projectText'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { requirementText } from '../../../src/report/characteristics/characteristic'
import { documentCellText } from '../../../src/report/document/cells'
import { inspectionOf, samplingOf } from '../../../src/report/inspection/plan'
import { PAPER_FORMATS } from '../../../src/report/paperFormats'
import {
  buildPaper,
  type PaperKind,
  type PaperRequest,
  requestedSpecification,
  suppliersOf,
} from '../../../src/report/papers'
import { buildOf, piecesFor } from '../../../src/report/purchase/buildQuantity'
import { HOSTILE_NAMES } from '../support/hostile'
import { DATE } from '../support/sheets'

function requestOf(id = 'ssc-chip', project: Project = demoProject(), supplier?: string): PaperRequest {
  const candidate = project.candidates.find((each) => each.id === id)
  if (candidate === undefined) throw new Error(`no ${id}`)
  return {
    project,
    candidate,
    evaluation: evaluateCandidate(project, id),
    date: DATE,
    ...(supplier !== undefined && { supplier }),
  }
}

const rendered = async (id: string, kind: PaperKind, request: PaperRequest) => {
  const format = PAPER_FORMATS.find((each) => each.id === id)
  if (format === undefined) throw new Error(`no ${id}`)
  return String(await format.render(kind, request))
}

const rowsOf = (csv: string) =>
  Papa.parse<Record<string, string>>(csv.replace('\ufeff', ''), { header: true, skipEmptyLines: true }).data

describe('the quantity for a build', () => {
  test('starts enough assemblies for those that fail, adds spares, and rounds up', () => {
    // By hand: 20 / 0.92 = 21.7, so 22 are begun; 22 * 1.1 = 24.2 arrays, 22 * 12 * 1.1 = 290.4 fibres.
    const build = buildOf({ assemblies: 20, yieldLossPercent: 8, sparesPercent: 10 })
    expect(build).toMatchObject({ wanted: 20, begun: 22 })
    expect(build && piecesFor(build, 1)).toBe(25)
    expect(build && piecesFor(build, 12)).toBe(291)
    // 0.92^22 + 22 * 0.08 * 0.92^21 + 231 * 0.0064 * 0.92^20, at most two of 22 failing.
    expect(build?.enough).toBeCloseTo(0.92 ** 22 + 22 * 0.08 * 0.92 ** 21 + 231 * 0.0064 * 0.92 ** 20, 12)
  })

  test('counts the spare parts as assemblies too: at most four of 24 failing', () => {
    const build = buildOf({ assemblies: 20, yieldLossPercent: 8, sparesPercent: 10 })
    // Binomial coefficients of 24 over 0 to 4.
    const expected = [1, 24, 276, 2024, 10_626].reduce(
      (sum, ways, failed) => sum + ways * 0.08 ** failed * 0.92 ** (24 - failed),
      0,
    )
    expect(build?.enoughWithSpares).toBeCloseTo(expected, 12)
  })

  test('buys nothing extra where binary fractions would', () => {
    const build = buildOf({ assemblies: 90, yieldLossPercent: 10, sparesPercent: 10 })
    expect(build?.begun).toBe(100)
    expect(build && piecesFor(build, 1)).toBe(110)
  })

  test('treats an empty field as zero, and is empty without a number of assemblies', () => {
    expect(buildOf({ assemblies: 5 })).toMatchObject({ begun: 5, spares: 0, yieldLoss: 0, enough: 1 })
    expect(buildOf({})).toBeNull()
    expect(buildOf(undefined)).toBeNull()
  })
})

describe('the purchase specification', () => {
  test('has one row for each characteristic, with limits, and one sheet for each part', async () => {
    const rows = rowsOf(await rendered('csv', 'specification', requestOf()))
    const core = rows.find((row) => row.Characteristic === 'Core diameter')
    expect(core).toMatchObject({ Requirement: '8.2 ± 0.2 µm', From: '8', To: '8.4', Pieces: '25' })
    const loss = rows.find((row) => row.Characteristic === 'Insertion loss')
    expect(loss).toMatchObject({ Requirement: '≤ 0.45 dB', From: '', To: '0.45', Unit: 'dB' })
    const { sections } = buildPaper('specification', requestOf())
    expect(sections.map(({ title }) => title)).toEqual([
      'Parts to order',
      '1. Fibre array: Standard single-mode fibre',
      '2. Adhesive: UV-cured adhesive, index of glass',
      '3. Spot-size converter chip: SSC chip, 10 to 3.3 µm',
      '4. Adhesive: UV-cured adhesive',
      '5. Photonic chip: Silicon-nitride facet',
    ])
    const kinds = sections.slice(1).map(({ blocks }) => blocks.filter(({ kind }) => kind === 'figure').length)
    expect(kinds).toEqual([1, 0, 2, 0, 1])
  })

  test.each(['cleaved-dry', 'high-na-bonded', 'lensed-fibre', 'relay', 'ssc-chip', 'on-chip-taper'])(
    'of %s names every part of the path once, each characteristic once',
    (id) => {
      const { items } = requestedSpecification(requestOf(id))
      expect(new Set(items.map(({ key }) => key)).size).toBe(items.length)
      for (const { characteristics } of items)
        expect(new Set(characteristics.map((each) => each.id)).size).toBe(characteristics.length)
      expect(items.map(({ kind }) => kind)).toContain('Photonic chip')
    },
  )

  test('buys both lenses of one kind together, and asks for what nobody has stated', () => {
    const project = demoProject()
    const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (relay?.kind !== 'relay') throw new Error('no relay')
    relay.lens2Id = relay.lens1Id
    delete project.purchase
    const { items } = requestedSpecification(requestOf('relay', project))
    const lenses = items.find(({ kind }) => kind === 'Lens array')
    expect(lenses?.perAssembly).toBe(2)
    expect(lenses?.pieces).toBeNull()
    const fibre = items.find(({ kind }) => kind === 'Fibre')
    expect(fibre?.perAssembly).toBe(12)
    expect(fibre?.openQuestions).toEqual(
      expect.arrayContaining([
        'Supplier: not stated.',
        'Connector at the far end: not stated.',
        'Fibre length: not stated.',
        'End-face angle 0°, tolerance to be agreed.',
      ]),
    )
  })

  test('states every number of a lens and of the device between the lenses, as the project has them', () => {
    const project = demoProject()
    const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (relay?.kind !== 'relay' || relay.device === undefined) throw new Error('no device')
    const said = () =>
      requestedSpecification(requestOf('relay', project))
        .items.slice(1, 3)
        .map(({ kind, perAssembly, characteristics }) => [
          `${perAssembly} × ${kind}`,
          ...characteristics.map((each) => `${each.label} ${requirementText(each)}, ${each.method}`),
        ])
    const isolator = [
      'Insertion loss ≤ 0.4 dB, insertionLoss',
      'Isolation ≥ 30 dB, isolation',
      'Length along the beam 2.5 mm, tolerance to be agreed, length',
      'Clear aperture ≥ 1.8 mm, size',
      'Polarisation rotation 45°, tolerance to be agreed, rotation',
    ]
    expect(said()).toEqual([
      [
        '1 × Lens array',
        'Radius 700 ± 7 µm, curvature',
        'Thickness 500 ± 5 µm, size',
        'Clear aperture ≥ 116 µm, size',
        'Reflectance per face ≤ 0.25 %, reflectance',
        'Pitch 127 ± 0.02 µm, pitch',
      ],
      ['1 × Component in the collimated section', ...isolator],
    ])
    // Eleven pitches of 127 µm are 1.397 mm: an aperture of as much does not hold the outer channels.
    relay.device.clearAperture = quantityOf(1.397, 'mm')
    expect(said()[1]?.[0]).toBe('12 × Component in the collimated section')
    relay.device.clearAperture = quantityOf(1.4, 'mm')
    expect(said()[1]?.[0]).toBe('1 × Component in the collimated section')
    const lens = project.lenses.find(({ id }) => id === relay.lens1Id)
    if (lens === undefined) throw new Error('no lens')
    delete lens.pitch
    expect(said()[0]?.[0]).toBe('12 × Lens')
  })

  test('says whether a fibre keeps polarisation and is made to order', () => {
    const facts = (change: object) => {
      const project = demoProject()
      Object.assign(project.fibres[0]!, change)
      const [fibre] = requestedSpecification(requestOf('cleaved-dry', project)).items
      return fibre?.facts.find(([label]) => label === 'Polarisation')?.[1]
    }
    const kept = { polarisationMaintaining: true }
    expect([facts({}), facts(kept), facts({ ...kept, madeToOrder: true })]).toEqual([
      'not maintained',
      'polarisation-maintaining',
      'polarisation-maintaining, made to order',
    ])
  })

  test('asks whether stubs come singly or as an array, unless that is said or there is only one', () => {
    const asks = (channels: number, form?: 'single' | 'array') => {
      const project = demoProject()
      project.requirements.channels = channels
      const candidate = project.candidates.find(({ id }) => id === 'high-na-bonded')
      const stub = candidate?.chain.find(({ kind }) => kind === 'stub')
      if (candidate === undefined || stub?.kind !== 'stub') throw new Error('no stub')
      delete candidate.array
      if (form === undefined) delete stub.form
      else stub.form = form
      const { items } = requestedSpecification(requestOf('high-na-bonded', project))
      return items
        .find(({ name }) => name === 'High-NA bridge fibre')
        ?.openQuestions.some((each) => /individual stubs or as one array/.test(each))
    }
    expect([asks(12), asks(12, 'single'), asks(12, 'array'), asks(1)]).toEqual([true, false, false, false])
  })

  test('holds the outline that contact was computed with, and no pitch of a single channel', () => {
    const project = demoProject()
    const fibre = project.candidates.find(({ id }) => id === 'cleaved-dry')?.chain[0]
    if (fibre?.kind !== 'fibre') throw new Error('no fibre')
    const said = () =>
      requestedSpecification(requestOf('cleaved-dry', project)).items.map(({ characteristics }) =>
        characteristics.map((each) => `${each.label} ${requirementText(each)}`),
      )
    fibre.outline = {
      kind: 'tapered',
      endDiameter: quantityOf(30, 'um', 'data sheet', 2),
      coneAngle: quantityOf(10, 'deg'),
    }
    expect(said()[0]).toEqual(
      expect.arrayContaining(['Diameter of the tapered tip ≤ 32 µm', 'Cone half-angle ≤ 10°']),
    )
    fibre.outline = {
      kind: 'block',
      width: quantityOf(2.5, 'mm'),
      below: quantityOf(1, 'mm', 'data sheet', 0.1),
      above: quantityOf(1.5, 'mm'),
    }
    expect(said()[0]).toEqual(
      expect.arrayContaining(['Block below axis ≤ 1.1 mm', 'Block above axis ≤ 1.5 mm']),
    )
    const hasPitch = () => said().some((each) => each.some((text) => text.startsWith('Pitch')))
    expect(hasPitch()).toBe(true)
    project.requirements.channels = 1
    delete fibre.outline
    expect(hasPitch()).toBe(false)
  })

  test('lists every part with how many an assembly takes and the build needs, or that no build is stated', () => {
    const partsOf = (project: Project) => {
      const [summary] = buildPaper('specification', requestOf('ssc-chip', project)).sections
      const parts = summary?.blocks.find((block) => block.kind === 'table')
      if (parts?.kind !== 'table') throw new Error('no table of parts')
      return parts.rows.map(({ cells: row }) =>
        [row[2], row[5], row[6]].map((cell) => documentCellText(cell ?? '')),
      )
    }
    const build = buildOf(demoProject().purchase)
    const array = String(build && piecesFor(build, 1))
    expect(partsOf(demoProject())).toEqual([
      ['Fibre array', '1', array],
      ['Adhesive', 'as needed', ''],
      ['Spot-size converter chip', '1', array],
      ['Adhesive', 'as needed', ''],
      ['Photonic chip', '1', array],
    ])
    const unplanned = demoProject()
    delete unplanned.purchase
    expect(partsOf(unplanned).map(([, , pieces]) => pieces)).toEqual([
      'not stated',
      '',
      'not stated',
      '',
      'not stated',
    ])
  })

  test('names the spot of a lensed fibre by its axes only where they differ', () => {
    const labelsOf = (elliptical: boolean) => {
      const project = demoProject()
      for (const each of project.converters) {
        if (each.kind !== 'lensed tip' || each.tip.kind !== 'spot') continue
        if (elliptical) each.tip.spotY = quantityOf(4, 'um')
        else delete each.tip.spotY
      }
      const { items } = requestedSpecification(requestOf('lensed-fibre', project))
      return items
        .flatMap(({ characteristics }) => characteristics.map(({ label }) => label))
        .filter((label) => label.startsWith('Spot size'))
    }
    expect(labelsOf(false)).toEqual(['Spot size (MFD at focus)'])
    expect(labelsOf(true)).toEqual(['Spot size x (MFD at focus)', 'Spot size y (MFD at focus)'])
  })

  test('for one supplier holds its parts and nothing of the others', async () => {
    const request = requestOf('ssc-chip', demoProject(), 'Supplier B')
    expect(suppliersOf(requestedSpecification(requestOf()))).toEqual([
      'Foundry C',
      'Supplier A',
      'Supplier B',
    ])
    const html = await rendered('html', 'specification', request)
    expect(html).toContain('SSC chip, 10 to 3.3')
    for (const foreign of ['Supplier A', 'Foundry C', 'FA-12-127-SM', 'Parts to order'])
      expect(html).not.toContain(foreign)
  })

  test('counts the channels of every part that has them, and of no adhesive', () => {
    const rows = (channels: number) => {
      const project = demoProject()
      project.requirements.channels = channels
      return buildPaper('specification', requestOf('high-na-bonded', project))
        .sections.filter(({ blocks }) => JSON.stringify(blocks).includes(`${channels} at a pitch of 127 µm`))
        .map(({ title }) => title.replace(/^\d+\. /, '').replace(/:.*/, ''))
    }
    expect(rows(12)).toEqual(['Fibre', 'Stub array', 'Photonic chip'])
    expect(rows(1)).toEqual([])
  })

  test('carries the same limits as JSON, as numbers', async () => {
    const { parts, format } = JSON.parse(await rendered('json', 'specification', requestOf()))
    expect(format).toBe('modeseam-purchase-specification')
    const [fibre] = parts
    expect(fibre).toMatchObject({
      number: 1,
      pieces: 25,
      perAssembly: 1,
      fibreLength: { value: 1.5, unit: 'm' },
    })
    expect(fibre.characteristics[0]).toMatchObject({
      id: 'coreDiameter',
      nominal: 8.2,
      lower: 8,
      upper: 8.4,
      unit: 'um',
    })
  })
})

describe('the inspection plan', () => {
  test('guards the limits, takes the whole of a small lot and a sample of a large one', async () => {
    const project = demoProject()
    const coreOf = async () =>
      rowsOf(await rendered('csv', 'inspection', requestOf('ssc-chip', project))).find(
        (row) => row.Characteristic === 'Core diameter',
      )
    expect(await coreOf()).toMatchObject({
      'Accept from': '8.083',
      'Accept to': '8.317',
      Sample: '25',
      'Rejection rule': 'set aside every part that fails',
    })
    project.purchase = { ...project.purchase, assemblies: 1000, inspection: { allowedFailures: 1 } }
    expect(await coreOf()).toMatchObject({
      Sample: '93',
      'Rejection rule': 'reject the lot at 2 failures or more',
    })
    // An uncertainty of 0.3 µm leaves 1.6449 * 0.15 = 0.247 µm from either side of a tolerance of 0.4 µm: nothing.
    project.purchase.inspection = { uncertainties: { coreGeometry: 0.3 } }
    expect(await coreOf()).toMatchObject({ 'Basis of U': 'entered', 'Accept from': '', 'Accept to': '' })
    const { sections } = buildPaper('inspection', requestOf('ssc-chip', project))
    // Half of 0.4 µm left: 0.4 / (2 * 1.6449) = 0.12 µm.
    expect(JSON.stringify(sections)).toContain('method too uncertain: U ≤ 0.12 µm needed')
  })

  test('inspects a lot that is as large as the sample in full, and a sample of one more', () => {
    const width = quantityOf(8.2, 'um', 'data sheet', 0.2)
    const characteristic = {
      id: 'core',
      label: 'Core',
      quantity: width,
      sense: 'within',
      method: 'coreGeometry',
    } as const
    const of = (lot: number | null) =>
      inspectionOf(characteristic, lot, samplingOf(undefined), undefined, new Map([[width, 0.07]]))
    expect(of(59)).toMatchObject({ sample: 59, whole: true, excessDb: 0.07 })
    expect(of(60)).toMatchObject({ sample: 59, whole: false })
    expect(of(null)).toMatchObject({ sample: null, whole: false })
    // 1.6449 times half of 0.1 µm.
    expect(of(60).guard).toBeCloseTo(0.082243, 6)
  })

  test('says in words what the sample may hold, and has no part for which nothing is measured', () => {
    const project = demoProject()
    const titled = () => buildPaper('inspection', requestOf('high-na-bonded', project)).sections
    project.purchase = { ...project.purchase, inspection: { allowedFailures: 1 } }
    // Tabulated for 95 % confidence and 5 % defective: 59 parts without, 93 with at most one failure.
    expect(JSON.stringify(titled())).toContain('Sample: 93 parts with at most 1 failure. A lot with 5 %')
    project.purchase.inspection = { allowedFailures: 0 }
    expect(JSON.stringify(titled())).toContain('Sample: 59 parts with no failure. A lot with 5 %')
    const adhesive = project.media.find(({ id }) => id === 'adhesive')
    if (adhesive === undefined) throw new Error('no adhesive')
    const said = () => titled().filter(({ title }) => title.includes('Adhesive'))
    expect(JSON.stringify(said())).toContain('1.475 ± 0.005')
    adhesive.index = { kind: 'material', material: 'air' }
    adhesive.thermoOptic = undefined
    expect(said()).toEqual([])
  })

  test('states the risk of both sides', () => {
    expect(samplingOf(undefined)).toMatchObject({ size: 59, allowed: 0 })
    // 1 - 0.995^59
    expect(samplingOf(undefined).goodRejected).toBeCloseTo(1 - 0.995 ** 59, 12)
  })

  test('gives the excess loss of the design at each limit', async () => {
    const request = requestOf()
    const rows = rowsOf(await rendered('csv', 'inspection', request))
    const loss = rows.find((row) => row.Characteristic === 'Insertion loss')
    // The loss itself moves by its tolerance.
    expect(Number(loss?.['Excess loss at the limit, dB'])).toBeCloseTo(0.1, 9)
  })
})

describe('the process sheet', () => {
  test('says below which gap nobody may drive where the chip has an edge, and the order states that edge', () => {
    const request = requestOf('high-na-bonded')
    const facets = request.project.facets.map((facet) => ({
      ...facet,
      chipEdge: {
        recess: quantityOf(2, 'um', 'data sheet', 0.5),
        ledgeDepth: quantityOf(40, 'um'),
        chipThickness: quantityOf(700, 'um'),
      },
    }))
    const edged = { ...request, project: { ...request.project, facets } }
    const said = JSON.stringify(buildPaper('process', edged).sections)
    expect(said).toContain(
      'Never drive the gap below 2.0 µm: the 125 µm cladding touches the ledge at a gap of 2 µm.',
    )
    const ordered = JSON.stringify(buildPaper('specification', edged).sections)
    expect(ordered).toContain('≤ 2.5 µm')
    expect(ordered).toContain('≥ 40 µm')
  })

  test('rejects a bonded joint above the loss of all its limits together: every combination of them evaluated', () => {
    const request = requestOf('high-na-bonded')
    const said = JSON.stringify(buildPaper('process', request).sections)
    const limitDb = Number(/loss after cure exceeds ([\d.]+) dB/.exec(said)?.[1])
    let highestDb = 0
    for (let mask = 0; mask < 32; mask++) {
      const moved = structuredClone(request.project)
      const chain = moved.candidates.find(({ id }) => id === 'high-na-bonded')?.chain ?? []
      const gap = chain.find((element) => element.kind === 'gap')
      if (gap?.kind !== 'gap' || gap.bondShift === undefined) throw new Error('no bonded gap')
      const { x, y, z } = gap.bondShift
      const together = [[gap.offsetX, x], [gap.offsetY, y], [gap.gap, z], [gap.tiltX], [gap.tiltY]]
      together.forEach((quantities, i) => {
        for (const quantity of quantities) {
          const sign = (mask >> i) & 1 ? 1 : -1
          quantity.value += sign * (quantity.tolerance?.plusMinus ?? 0)
          quantity.tolerance = undefined
        }
      })
      const { lines } = evaluateCandidate(moved, 'high-na-bonded')
      const own = lines.filter(({ elementId }) => elementId === gap.id)
      highestDb = Math.max(
        highestDb,
        own.reduce((sum, { lossDb }) => sum + lossDb, 0),
      )
    }
    expect(highestDb).toBeGreaterThan(0.5)
    expect(limitDb).toBeCloseTo(highestDb, 1)
  })

  test('has the assembly sequence, each kind of step with its caution', () => {
    const { sections } = buildPaper('process', requestOf('high-na-bonded'))
    const text = JSON.stringify(sections.find(({ id }) => id === 'assembly-sequence'))
    expect(text).toContain('1. Place: stub to facet')
    expect(text).toContain('on power at both outer channels; residual offset x 0 µm ± 0.2 µm')
    expect(text).toContain('reject above 2 dB')
    for (const said of ['glass shards', 'Laser light, usually invisible', 'Uncured adhesive', 'UV lamps'])
      expect(text).toContain(said)
  })

  test('has a step for every joint and splice with its limits, and the cautions first', () => {
    const { sections } = buildPaper('process', requestOf('high-na-bonded'))
    expect(sections.map(({ title }) => title)).toEqual([
      'Cautions',
      'Assembly sequence',
      '1. Fusion splice',
      '2. Align and fix stub to facet',
      'Final test and record',
    ])
    const text = JSON.stringify(sections)
    for (const part of ['0.1 ± 0.05 dB', 'Cure shift y', '−0.2 ± 0.6 µm', 'responsible safety officer'])
      expect(text).toContain(part)
  })

  test('names at each joint the medium that is in it', () => {
    for (const { id, chain } of demoProject().candidates) {
      const steps = buildPaper('process', requestOf(id)).sections
      const named = [...JSON.stringify(steps).matchAll(/Medium: ([^"]*?)\. Nominal joint loss/g)].map(
        ([, name]) => name,
      )
      const own = chain.flatMap((element) =>
        element.kind === 'gap' || element.kind === 'relay'
          ? [demoProject().media.find((medium) => medium.id === element.mediumId)?.name]
          : [],
      )
      expect(named, id).toEqual(own)
    }
  })

  test('aligns nothing that is placed by its marks, and cures nothing without adhesive', () => {
    const project = demoProject()
    const joints = project.candidates
      .find(({ id }) => id === 'high-na-bonded')
      ?.chain.filter((element) => element.kind === 'gap')
    for (const joint of joints ?? []) joint.aligned = []
    const placed = JSON.stringify(buildPaper('process', requestOf('high-na-bonded', project)).sections)
    expect(placed).toContain('Place and fix stub to facet')
    expect(placed).toContain('record the power after placement, without adhesive.')
    expect(placed).toContain('Check the power with adhesive in the gap')
    expect(placed).not.toMatch(/Realign|best alignment/)
    const air = project.media.find(({ state }) => state === 'gas')?.id ?? ''
    for (const joint of joints ?? []) joint.mediumId = air
    const dry = JSON.stringify(buildPaper('process', requestOf('high-na-bonded', project)).sections)
    expect(dry).toContain('Record the power after placement and after fixing.')
    expect(dry).toContain('"Fix"')
    expect(dry).not.toContain('"Cure"')
  })

  test('inserts the component of the collimated section, an isolator the way that light goes', () => {
    const project = demoProject()
    project.requirements.direction = 'chip to fibre'
    const printed = () => JSON.stringify(buildPaper('process', requestOf('relay', project)).sections)
    const words = 'Insert Isolator into the collimated section before the last element is aligned or placed'
    expect(printed()).toContain(`${words}: centred on the beam, passing light from chip to fibre.`)
    project.requirements.direction = 'both'
    expect(printed()).toContain(`${words}: centred on the beam.`)
    for (const element of project.candidates.flatMap(({ chain }) => chain))
      if (element.kind === 'relay') delete element.device
    expect(printed()).not.toContain('Insert Isolator')
  })

  test('states the plane of angled end faces only', () => {
    const project = demoProject()
    const joint = project.candidates
      .find(({ id }) => id === 'high-na-bonded')
      ?.chain.find((element) => element.kind === 'gap')
    if (joint?.kind !== 'gap') throw new Error('no gap')
    joint.nearFaceAngle = quantityOf(8, 'deg')
    joint.farFaceAngle = quantityOf(0, 'deg')
    const step = () => JSON.stringify(buildPaper('process', requestOf('high-na-bonded', project)).sections)
    expect(step()).toMatch(/chip side 0°, angled in the [xy]–z plane\./)
    joint.nearFaceAngle = quantityOf(0, 'deg')
    expect(step()).toContain('fibre side 0°, chip side 0°.')
  })

  test('of a relay without active alignment places its members in the stated order', () => {
    const project = demoProject()
    const relay = project.candidates
      .find(({ id }) => id === 'relay')
      ?.chain.find((element) => element.kind === 'relay')
    if (relay?.kind !== 'relay') throw new Error('no relay')
    relay.aligned = []
    relay.lens1.aligned = []
    relay.lens2.aligned = []
    const text = JSON.stringify(buildPaper('process', requestOf('relay', project)).sections)
    expect(text).toContain('Order of placement: lens 1, lens 2, fibre side')
  })

  test('of a relay aligns its members in the stated order', () => {
    const text = JSON.stringify(buildPaper('process', requestOf('relay')).sections)
    expect(text).toContain('Order of alignment: lens 1, lens 2, fibre side')
    expect(text).toContain('2.7 ± 0.05 mm')
  })
})

describe('every paper as a workbook', () => {
  test('prints every column that a text runs over, and numbers with the decimals of the paper', async () => {
    const format = PAPER_FORMATS.find(({ id }) => id === 'xlsx')
    for (const kind of ['specification', 'process', 'inspection'] as const) {
      const { sheets } = await readXlsx((await format?.render(kind, requestOf())) as Uint8Array, {
        readStyles: true,
      })
      for (const { name, pageSetup, merges, cells } of sheets) {
        const last = /:\$([A-Z])\$\d+$/.exec(pageSetup?.printArea ?? '')?.[1] ?? ''
        const furthest = Math.max(...(merges ?? []).map(({ endCol }) => endCol))
        expect(last.charCodeAt(0) - 65, `${kind}, ${name}`).toBeGreaterThanOrEqual(furthest)
        for (const { value, style } of cells?.values() ?? []) {
          if (typeof value === 'number' && !Number.isInteger(value))
            expect(style?.numFmt, `${value}`).toMatch(/^0(\.0+)?;−0(\.0+)?$/)
        }
      }
    }
  })
})

describe('every paper in every format', () => {
  test('is the same file each time and holds hostile texts as text', async () => {
    const project = demoProject()
    const own = Object.fromEntries(
      ['supplier', 'partNumber', 'connector', 'finish', 'note'].map((field, i) => [
        field,
        Object.values(HOSTILE_NAMES)[i],
      ]),
    )
    project.purchase = { ...project.purchase, parts: { 'fibre/fibre-standard': own } }
    const read = parseProject(JSON.parse(projectText(project)))
    for (const { id, kinds } of PAPER_FORMATS) {
      for (const kind of kinds) {
        const request = requestOf('ssc-chip', read)
        const content = await rendered(id, kind, request)
        expect(content.length).toBeGreaterThan(500)
        expect(content).toBe(await rendered(id, kind, request))
        expect(content).not.toMatch(id === 'html' || id === 'md' ? /NaN|undefined|<script/ : /NaN|undefined/)
        if (id === 'csv') expect(content).not.toMatch(/(^|[,\n])"?[=+@]/)
      }
    }
  })
})
