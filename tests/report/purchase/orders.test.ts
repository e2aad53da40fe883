// What orders and process sheets say of parts that the demo does not have, or has in one form only.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import type { Evaluation } from '../../../src/analysis/results/evaluation'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { AssemblyStep } from '../../../src/model/schema/build/assembly'
import type { ElementKind, ElementOf } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { requirementText } from '../../../src/report/characteristics/characteristic'
import { plainBlocks } from '../../../src/report/document/blocks'
import { rejectRule } from '../../../src/report/inspection/inspectionRows'
import { orderList } from '../../../src/report/orderList'
import { buildPaper, type PaperKind, requestedSpecification } from '../../../src/report/papers'
import { specificationData } from '../../../src/report/purchase/specificationRows'
import { readRows, tablesIn, wordsIn } from '../support/sectionContext'
import { DATE } from '../support/sheets'

function designOf(project: Project, id: string) {
  const candidate = project.candidates.find((each) => each.id === id)
  if (candidate === undefined) throw new Error(`no ${id}`)
  return candidate
}

function elementOf<K extends ElementKind>(project: Project, id: string, kind: K, at = 0): ElementOf<K> {
  const found = designOf(project, id).chain.filter((each): each is ElementOf<K> => each.kind === kind)[at]
  if (found === undefined) throw new Error(`no ${kind}`)
  return found
}

const asInDemo = new Map<string, Evaluation>()
/** The design as the demo has it: enough where a test changes words, not losses. */
function evaluated(id: string): Evaluation {
  const found = asInDemo.get(id) ?? evaluateCandidate(demoProject(), id)
  asInDemo.set(id, found)
  return found
}

const requestOf = (project: Project, id: string, evaluation = evaluated(id)) => ({
  project,
  candidate: designOf(project, id),
  evaluation,
  date: DATE,
})
const itemsOf = (project: Project, id: string) => requestedSpecification(requestOf(project, id)).items
const itemOf = (project: Project, id: string, kind: string) => {
  const item = itemsOf(project, id).find((each) => each.kind === kind)
  if (item === undefined) throw new Error(`no ${kind}`)
  return item
}
const saidOf = (project: Project, id: string, kind: string) =>
  itemOf(project, id, kind).characteristics.map((each) => `${each.label} ${requirementText(each)}`)
const factsOf = (project: Project, id: string, kind: string) =>
  Object.fromEntries(itemOf(project, id, kind).facts)
const sectionsOf = (kind: PaperKind, project: Project, id: string) =>
  buildPaper(kind, requestOf(project, id)).sections
const blocksOf = (kind: PaperKind, project: Project, id: string, title: RegExp) =>
  sectionsOf(kind, project, id).find((each) => title.test(each.title))?.blocks ?? []

describe('the sheet of a part', () => {
  test('states the band where both its ends are given', () => {
    const conditions = (change: object) => {
      const project = demoProject()
      Object.assign(project.requirements, { wavelengthMin: undefined, wavelengthMax: undefined, ...change })
      return wordsIn(blocksOf('specification', project, 'cleaved-dry', /^1\./)).find((each) =>
        each.startsWith('Optical values'),
      )
    }
    const [from, to] = [quantityOf(1600, 'nm'), quantityOf(1700, 'nm')]
    const start = 'Optical values are at 1653.7 nm'
    expect(conditions({ wavelengthMin: from, wavelengthMax: to })).toContain(
      `${start}, used from 1600 nm to 1700 nm. Optical`,
    )
    for (const one of [{}, { wavelengthMin: from }, { wavelengthMax: to }])
      expect(conditions(one)).toContain(`${start}. Optical`)
  })

  test('defines the mode-field diameter only where one is measured, axes only at a joint, end faces only where there are any', () => {
    const words = (title: RegExp) =>
      wordsIn(blocksOf('specification', demoProject(), 'ssc-chip', title)).join('\n')
    expect(words(/Spot-size converter chip/)).toMatch(
      /MFD and spot size: full width[\s\S]*Axes: x lies[\s\S]*End faces: no scratch/,
    )
    expect(words(/Adhesive/)).not.toMatch(/MFD and spot size|Axes: x lies|End faces: no/)
    expect(words(/Adhesive/)).toContain('measured values of every batch')
    expect(words(/Photonic chip/)).toContain('measured values of every piece or lot')
    expect(wordsIn(blocksOf('specification', demoProject(), 'ssc-chip', /Fibre array/)).join()).not.toContain(
      'MFD and spot size',
    )
  })

  test('states what has been entered for it, and asks for the rest', () => {
    const project = demoProject()
    const key = itemsOf(project, 'cleaved-dry')[0]?.key ?? ''
    const order = (own: object) => {
      project.purchase = { ...project.purchase, parts: { [key]: own } }
      return readRows(tablesIn(blocksOf('specification', project, 'cleaved-dry', /^1\./))[0]).map((row) =>
        row.join(': '),
      )
    }
    const stated = order({
      connector: ' FC/APC ',
      length: quantityOf(1.5, 'm', 'estimate', 0.1),
      note: 'Rolls only.',
    })
    for (const row of [
      'Supplier: not stated',
      'Connector at the far end: FC/APC',
      'Fibre length: 1.5 m ± 0.1 m',
    ])
      expect(stated).toContain(row)
    expect(stated.at(-1)).toMatch(/: Rolls only\.$/)
    expect(order({})).toContain('Fibre length: not stated')
    expect(order({}).at(-1)).toMatch(/^Channels: 12 at a pitch/)
    expect(itemsOf(project, 'cleaved-dry')[0]?.openQuestions).toContain('Fibre length: not stated.')
    order({ length: quantityOf(1.5, 'm') })
    expect(itemsOf(project, 'cleaved-dry')[0]?.openQuestions).not.toContain('Fibre length: not stated.')
    const [part] = specificationData(requestedSpecification(requestOf(project, 'cleaved-dry'))).parts
    expect(part).toMatchObject({ fibreLength: { value: 1.5, unit: 'm' }, supplier: '', connector: '' })
  })

  test('says how the number of pieces comes about', () => {
    const summary = (purchase: Project['purchase']) =>
      wordsIn(blocksOf('specification', { ...demoProject(), purchase }, 'cleaved-dry', /Parts to order/))[0]
    expect(summary({})).toContain('Number of assemblies: not stated. Quantities are for one assembly.')
    expect(summary({ assemblies: 20, sparesPercent: 2.5 })).toMatch(
      /20 good assemblies are required\. With an expected yield loss of 0 %, 20 are started; 2\.5 % spares are added and every quantity is rounded up\.$/,
    )
    // 20 / 0.92 rounded up, and with a tenth more, rounded down.
    expect(summary({ assemblies: 20, yieldLossPercent: 8, sparesPercent: 10 })).toMatch(
      /at least 20 good assemblies from 22 started: [\d.]+ %; from the 24 that 10 % spares complete: [\d.]+ %/,
    )
    const quantity = (purchase: Project['purchase']) =>
      readRows(
        tablesIn(blocksOf('specification', { ...demoProject(), purchase }, 'cleaved-dry', /^1\./))[0],
      )[1]?.[1]
    expect(quantity({})).toMatch(/^\d+ per assembly \(/)
    expect(quantity({ assemblies: 3 })).toMatch(/^\d+; \d+ per assembly \(/)
    expect(
      readRows(tablesIn(blocksOf('specification', demoProject(), 'ssc-chip', /Adhesive/))[0])[1]?.[1],
    ).toBe('as needed; smallest pack')
  })
})

describe('the end faces of a part', () => {
  test('have their coating, the medium in front of them and the plane of an angle, each at its own side', () => {
    const project = demoProject()
    const first = elementOf(project, 'ssc-chip', 'gap', 0)
    const second = elementOf(project, 'ssc-chip', 'gap', 1)
    first.farCoating = { kind: 'reflectance', reflectance: quantityOf(0.3, '%') }
    first.farFaceAngle = quantityOf(0, 'deg')
    second.nearFaceAngle = quantityOf(5, 'deg')
    second.facePlane = 'y'
    second.nearCoating = {
      kind: 'films',
      films: [
        {
          index: { kind: 'material', material: 'silicon nitride' },
          thickness: quantityOf(210, 'nm', 'data sheet', 5),
        },
        { index: { kind: 'value', index: quantityOf(1.46, '1') }, thickness: quantityOf(100, 'nm') },
      ],
    }
    expect(factsOf(project, 'ssc-chip', 'Spot-size converter chip')).toMatchObject({
      'End-face coating, fibre side': 'at most 0.3 %',
      'Medium at the end face, fibre side': 'UV-cured adhesive, index of glass',
      'End-face coating, chip side':
        'films from the glass outwards: silicon nitride 210 nm ± 5 nm, index 1.46 100 nm',
      'Medium at the end face, chip side': 'UV-cured adhesive',
      'Plane of the end-face angle, chip side': 'plane of y and z',
    })
    expect(Object.keys(factsOf(project, 'ssc-chip', 'Spot-size converter chip'))).not.toContain(
      'Plane of the end-face angle, fibre side',
    )
    expect(
      saidOf(project, 'ssc-chip', 'Spot-size converter chip').filter((each) => /film|Reflectance/.test(each)),
    ).toEqual([
      'Reflectance of the coated end face, fibre side ≤ 0.3 %',
      'Thickness of film 1 from the glass, chip side 210 ± 5 nm',
      'Thickness of film 2 from the glass, chip side 100 nm, tolerance to be agreed',
    ])
    expect(factsOf(project, 'ssc-chip', 'Photonic chip')).toMatchObject({ 'End-face coating': 'none' })
    // A joint that is dry names air; a medium that is gone has no name.
    expect(factsOf(demoProject(), 'cleaved-dry', 'Fibre')['Medium at the end face']).toBe('Air')
  })

  test('of a lensed fibre have no angle, of a cleaved one they have', () => {
    expect(saidOf(demoProject(), 'lensed-fibre', 'Lensed fibre').join()).not.toContain('End-face angle')
    expect(itemOf(demoProject(), 'lensed-fibre', 'Lensed fibre').has.endFace).toBe(false)
    expect(saidOf(demoProject(), 'cleaved-dry', 'Fibre').join()).toContain('End-face angle')
  })
})

describe('the numbers of a part', () => {
  test('of a single channel hold no pitch, and pieces are counted by channels', () => {
    const project = demoProject()
    const pieces = () =>
      ['Fibre array', 'Spot-size converter chip', 'Photonic chip'].map((kind) => {
        const item = itemsOf(project, 'ssc-chip').find((each) => each.kind === kind)
        return (
          item &&
          `${item.perAssembly} ${item.piece}; ${item.characteristics.filter(({ label }) => label.startsWith('Pitch')).length}`
        )
      })
    expect(pieces()).toEqual([
      '1 array of 12 fibres; 1',
      '1 chip with 12 channels; 2',
      '1 chip with 12 facets; 1',
    ])
    project.requirements.channels = 1
    expect(pieces()).toEqual([undefined, '1 chip; 0', '1 chip; 0'])
    expect(itemOf(project, 'ssc-chip', 'Fibre').perAssembly).toBe(1)
  })

  test('of a stub tell an array, single stubs and the fibre before them apart', () => {
    const kinds = (form: 'single' | 'array' | undefined, hasArray: boolean) => {
      const project = demoProject()
      const candidate = designOf(project, 'high-na-bonded')
      const stub = elementOf(project, 'high-na-bonded', 'stub')
      if (form === undefined) delete stub.form
      else stub.form = form
      if (!hasArray) delete candidate.array
      return itemsOf(project, 'high-na-bonded')
        .slice(0, 2)
        .map(({ kind, perAssembly }) => `${perAssembly} × ${kind}`)
    }
    expect(kinds('array', false)).toEqual(['12 × Fibre', '1 × Stub array'])
    expect(kinds('single', false)).toEqual(['12 × Fibre', '12 × Fibre stub'])
    expect(kinds(undefined, false)).toEqual(['12 × Fibre', '12 × Fibre stub'])
    expect(kinds('single', true)).toEqual(['12 × Fibre', '1 × Stub array'])
  })

  test('of an array ask for the errors of its cores where the design states none, and name axes at a joint only', () => {
    const asked = (hasArray: boolean) => {
      const project = demoProject()
      const candidate = designOf(project, 'high-na-bonded')
      elementOf(project, 'high-na-bonded', 'stub').form = 'array'
      if (!hasArray) delete candidate.array
      else candidate.array ??= structuredClone(demoProject().candidates.find(({ array }) => array)?.array)
      return { project, questions: itemOf(project, 'high-na-bonded', 'Stub array').openQuestions.join() }
    }
    const bare = asked(false)
    expect(bare.questions).toContain('Core position error and bow of the array are not stated')
    expect(asked(true).questions).not.toContain('are not stated')
    // The fibre before the splice meets no joint with axes; the stub behind it does.
    const words = (title: RegExp) =>
      wordsIn(blocksOf('specification', bare.project, 'high-na-bonded', title)).join()
    expect(words(/Fibre: /)).not.toBe('')
    expect(words(/Fibre: /)).not.toContain('Axes: x lies')
    expect(words(/Stub array/)).toContain('Axes: x lies')
  })

  test('of a fibre are its mode by diameter or by core, with the key of one that keeps polarisation', () => {
    const project = demoProject()
    const [fibre] = project.fibres
    if (fibre === undefined) throw new Error('no fibre')
    const gap = elementOf(project, 'cleaved-dry', 'gap')
    gap.keyAngle = quantityOf(0, 'deg', 'data sheet', 3)
    expect(saidOf(project, 'cleaved-dry', 'Fibre').join()).not.toContain('slow axis')
    expect(factsOf(project, 'cleaved-dry', 'Fibre')['Resulting MFD, for information']).toMatch(
      /^\d+\.\d\d µm at 1653\.7 nm$/,
    )
    fibre.polarisationMaintaining = true
    fibre.concentricity = quantityOf(0.5, 'um')
    fibre.mode = { kind: 'mfd', mfdX: quantityOf(10, 'um', 'data sheet', 0.4) }
    const said = saidOf(project, 'cleaved-dry', 'Fibre')
    expect(said.slice(0, 1)).toEqual(['MFD 10 ± 0.4 µm'])
    expect(said).toContain('Core-cladding concentricity error ≤ 0.5 µm')
    expect(said).toContain('Angle between the slow axis and the axis of the next waveguide 0 ± 3°')
    expect(Object.keys(factsOf(project, 'cleaved-dry', 'Fibre'))).not.toContain(
      'Resulting MFD, for information',
    )
    fibre.mode = { ...fibre.mode, mfdY: quantityOf(9, 'um') }
    expect(
      saidOf(project, 'cleaved-dry', 'Fibre')
        .slice(0, 2)
        .map((each) => each.replace(/ \d.*/, '')),
    ).toEqual(['MFD x', 'MFD y'])
    const questions = itemOf(project, 'cleaved-dry', 'Fibre').openQuestions
    expect(questions).toContain('Key orientation: not stated.')
  })

  test('of a device that rotates ask for the input polarisation to be marked, and of no other', () => {
    const project = demoProject()
    const relay = elementOf(project, 'relay', 'relay')
    if (relay.device === undefined) throw new Error('no device')
    const asked = () =>
      itemOf(project, 'relay', 'Component in the collimated section').openQuestions.filter((each) =>
        /rientation/.test(each),
      )
    expect(asked()).toEqual(['Orientation of the input polarisation: not stated.'])
    delete relay.device.rotation
    expect(asked()).toEqual([])
  })

  test('of a lens name its glass, its films and the terms of its surface', () => {
    const project = demoProject()
    const relay = elementOf(project, 'relay', 'relay')
    const lens = project.lenses.find(({ id }) => id === relay.lens1Id)
    if (lens === undefined) throw new Error('no lens')
    lens.glass = { kind: 'value', index: quantityOf(1.8, '1', 'data sheet', 0.001) }
    lens.films = [
      { index: { kind: 'material', material: 'silicon nitride' }, thickness: quantityOf(200, 'nm') },
    ]
    const said = saidOf(project, 'relay', 'Lens array')
    expect(said).toContain('Refractive index of the glass 1.8 ± 0.001')
    expect(said).toContain('Thickness of film 1 from the glass 200 nm, tolerance to be agreed')
    expect(said.join()).not.toContain('Reflectance per face')
    expect(factsOf(project, 'relay', 'Lens array')).toMatchObject({
      Use: 'lens 1 of the relay',
      Glass: 'index 1.8',
    })
    Object.assign(lens.shape, { conic: -1.25, asphericTerms: [1e-5, -2e-9] })
    expect(factsOf(project, 'relay', 'Lens array')).toMatchObject({
      Conic: '-1.25',
      'Aspheric terms': '0.00001, -2e-9',
    })
  })

  test('of a medium are its index or its material; an adhesive is asked about its cure, a gel is not', () => {
    const project = demoProject()
    const medium = project.media.find(({ id }) => id === 'adhesive')
    if (medium === undefined) throw new Error('no adhesive')
    const cure = (kind: string) =>
      itemOf(project, 'high-na-bonded', kind).questions.filter((each) => each.includes('cure schedule'))
        .length
    expect([cure('Adhesive'), factsOf(project, 'high-na-bonded', 'Adhesive')]).toEqual([1, {}])
    medium.state = 'gel'
    medium.index = { kind: 'material', material: 'fused silica' }
    expect([cure('Index-matching gel'), factsOf(project, 'high-na-bonded', 'Index-matching gel')]).toEqual([
      0,
      { Material: 'fused silica' },
    ])
    medium.state = 'gas'
    expect(itemsOf(project, 'high-na-bonded').some(({ key }) => key === 'medium/adhesive')).toBe(false)
  })
})

describe('the order list', () => {
  const lineOf = (project: Project, id: string, at: number) => orderList(project, id)?.lines[at]

  test('counts chips, lenses and splices of one channel singly, without a pitch', () => {
    const project = demoProject()
    project.requirements.channels = 1
    const quantities = (id: string) =>
      orderList(project, id)?.lines.map(({ quantity, pitch }) => `${quantity}${pitch}`)
    expect(quantities('high-na-bonded')).toEqual(['1', '1', '1', 'as needed', '1 chip'])
    expect(quantities('relay')?.slice(0, 1)).toEqual(['1'])
  })

  test('says what holds a tolerance, and what was measured on one part only', () => {
    const project = demoProject()
    const [fibre] = project.fibres
    if (fibre === undefined) throw new Error('no fibre')
    fibre.claddingDiameter = {
      ...quantityOf(125, 'um'),
      uncertainty: { plusMinus: 0.1 },
    } as typeof fibre.claddingDiameter
    fibre.mode = { kind: 'mfd', mfdX: quantityOf(10.4, 'um') }
    expect(lineOf(project, 'cleaved-dry', 0)?.tolerance).toBe(
      'none given, production tolerance to be agreed; the value was measured on one part',
    )
  })

  test('says once that the numbers at the end of a line have no tolerance', () => {
    const project = demoProject()
    const [facet] = project.facets
    if (facet === undefined) throw new Error('no facet')
    for (const field of ['tipWidth', 'routingWidth', 'taperLength'] as const)
      facet[field] = quantityOf(1, 'um')
    const facetLine = () => orderList(project, 'cleaved-dry')?.lines.at(-1)?.tolerance
    expect(facetLine()).toMatch(/^± [\d.]+ µm, ± [\d.]+ µm, others: none given$/)
    facet.mfdX = quantityOf(3, 'um')
    expect(facetLine()).toMatch(/^none given, ± [\d.]+ µm, others: none given$/)
    delete facet.tipWidth
    delete facet.routingWidth
    expect(facetLine()).toMatch(/^none given, ± [\d.]+ µm, none given$/)
  })

  test('gives a splice by its basis and a loss without a tolerance as a bound', () => {
    const project = demoProject()
    const splice = elementOf(project, 'high-na-bonded', 'splice')
    const note = () => lineOf(project, 'high-na-bonded', 1)?.notes
    splice.basis = 'typed'
    splice.loss = quantityOf(0.1, 'dB')
    expect(note()).toBe('with core diffusion, loss at most 0.1 dB')
    splice.loss = quantityOf(0.1, 'dB', 'estimate', 0.05)
    expect(note()).toBe('with core diffusion, loss 0.1 dB ± 0.05 dB')
    splice.basis = 'abrupt'
    expect(note()).toBe('without core diffusion: abrupt mismatch')
  })

  test('names at each guide the face, the coating and the medium towards the next one', () => {
    const project = demoProject()
    const first = elementOf(project, 'ssc-chip', 'gap', 0)
    const second = elementOf(project, 'ssc-chip', 'gap', 1)
    first.farFaceAngle = quantityOf(3, 'deg')
    second.nearFaceAngle = quantityOf(5, 'deg')
    second.nearCoating = { kind: 'reflectance', reflectance: quantityOf(0.5, '%') }
    first.farCoating = { kind: 'reflectance', reflectance: quantityOf(0.2, '%') }
    const lines = orderList(project, 'ssc-chip')?.lines ?? []
    expect(lines.find(({ part }) => part.startsWith('SSC chip'))).toMatchObject({
      faceAngle: '3°; 5°',
      coating: 'at most 0.2 %; at most 0.5 %',
      medium: 'UV-cured adhesive',
    })
    expect(lines.at(-1)).toMatchObject({ medium: '', quantity: '1 chip with 12 facets' })
    expect(lines[0]?.medium).toBe('UV-cured adhesive, index of glass')
  })
})

describe('the process sheet', () => {
  test('splices as often as there are channels, each by its basis, and records the worst of several', () => {
    const project = demoProject()
    const splice = elementOf(project, 'high-na-bonded', 'splice')
    const said = () => wordsIn(blocksOf('process', project, 'high-na-bonded', /Fusion splice/))[0]
    splice.basis = 'typed'
    splice.loss = quantityOf(0.1, 'dB', 'estimate', 0.05)
    expect(said()).toMatch(/^12 splices per assembly, with core diffusion\. Nominal loss: 0\.10 dB\.$/)
    expect(
      readRows(tablesIn(blocksOf('process', project, 'high-na-bonded', /Fusion splice/))[0])[0]?.slice(0, 3),
    ).toEqual(['Splice loss', '0.1 ± 0.05 dB', 'splice program'])
    const last = () => tablesIn(blocksOf('process', project, 'high-na-bonded', /Final test/))
    expect(last()[0]?.caption).toBe('Insertion loss of every channel')
    expect(readRows(last()[1]).at(-1)?.[0]).toBe('Final test, worst channel')
    splice.basis = 'abrupt'
    project.requirements.channels = 1
    expect(said()).toMatch(/^1 splice per assembly, without core diffusion\./)
    expect(last()[0]?.caption).toBe('Insertion loss')
    expect(readRows(last()[1]).map(([step]) => step)).toEqual([
      '1. Fusion splice',
      '2. Align and fix stub to facet',
      'Final test',
    ])
  })

  test('says of each axis whether it is aligned, and what each costs at its limit', () => {
    const project = demoProject()
    const gap = elementOf(project, 'high-na-bonded', 'gap')
    gap.aligned = ['offsetX']
    const rows = readRows(tablesIn(blocksOf('process', project, 'high-na-bonded', /Align and fix/))[0])
    expect(rows.map(([label, , by]) => [label, by])).toEqual([
      ['Gap', 'passive placement'],
      ['Lateral offset x', 'active alignment; limits are the residual'],
      ['Lateral offset y', 'passive placement'],
      ['Tilt x', 'passive placement'],
      ['Tilt y', 'passive placement'],
      ['Roll', 'passive placement'],
    ])
    const { contributions } = evaluateCandidate(project, 'high-na-bonded').rootSumSquare
    const own = contributions.find(({ path }) => path.at(-1) === 'offsetX' && !path.includes('array'))
    expect(rows[1]?.[3]).toBe(own?.addedDb.toFixed(2))
  })

  test('states the shift of a joint in its words: cure of an adhesive, drift of a holder', () => {
    const project = demoProject()
    const gap = elementOf(project, 'cleaved-dry', 'gap')
    gap.bondShift = { x: quantityOf(0.1, 'um'), y: quantityOf(0.2, 'um'), z: quantityOf(0.3, 'um') }
    const table = tablesIn(blocksOf('process', project, 'cleaved-dry', /Align and fix|Place and fix/))[1]
    expect(table?.caption).toBe('Holding')
    expect(readRows(table).map(([label]) => label)).toEqual([
      'Holder drift x',
      'Holder drift y',
      'Holder drift z',
    ])
    const relay = elementOf(project, 'relay', 'relay')
    delete relay.bondShift
    const captions = () =>
      tablesIn(blocksOf('process', project, 'relay', /relay/)).map(({ caption }) => caption)
    expect(captions()).toEqual(['Distances', 'Alignment'])
    relay.bondShift = gap.bondShift
    expect(captions()).toEqual(['Distances', 'Alignment', 'Bonding'])
    expect(
      readRows(tablesIn(blocksOf('process', project, 'relay', /relay/))[1])
        .map(([label]) => label)
        .slice(0, 5),
    ).toEqual([
      'Lens 1, decentre x',
      'Lens 1, decentre y',
      'Lens 1, axial shift z',
      'Lens 1, tilt x',
      'Lens 1, tilt y',
    ])
  })

  test('says in words what each step of the sequence sets, moves and rejects, and where it goes back to', () => {
    const project = demoProject()
    const candidate = designOf(project, 'high-na-bonded')
    const step = (
      id: string,
      kind: AssemblyStep['kind'],
      more: Partial<AssemblyStep> = {},
    ): AssemblyStep => ({
      id,
      name: `step ${id}`,
      kind,
      minutes: 2.5,
      scrapCost: 0,
      spoiledPercent: 0.5,
      ...more,
    })
    const check = { limit: quantityOf(2, 'dB'), uncertainty: quantityOf(0.05, 'dB') }
    const rework = (repeats: number, fromId = 'b') => ({ fromId, repeats, cost: 1 })
    candidate.assembly = {
      costPerHour: 100,
      steps: [
        step('a', 'place', {
          sets: { gap: quantityOf(10, 'um', 'estimate', 2), offsetX: quantityOf(0, 'um') },
        }),
        step('b', 'align', { sets: { offsetY: quantityOf(0, 'um', 'estimate', 0.2) } }),
        step('c', 'cure', { moves: { y: quantityOf(-0.2, 'um'), z: quantityOf(0.1, 'um') } }),
        step('d', 'check', { ...check, rework: rework(1) }),
        step('e', 'check', { limit: check.limit, rework: rework(3) }),
        step('f', 'check', { limit: check.limit, rework: rework(2, 'gone') }),
        step('g', 'check'),
      ],
    }
    const blocks = blocksOf('process', project, 'high-na-bonded', /Assembly sequence/)
    expect(wordsIn(blocks).slice(0, 2)).toEqual([
      'As planned for this design.',
      'Splices are made before these steps.',
    ])
    const joint = 'stub to facet'
    expect(readRows(tablesIn(blocks)[0])).toEqual([
      ['1. step a', 'Place', joint, 'offset x 0 µm; gap 10 µm ± 2 µm', '2.5', '0.5'],
      [
        '2. step b',
        'Align actively',
        joint,
        'on transmitted power; residual offset y 0 µm ± 0.2 µm',
        '2.5',
        '0.5',
      ],
      ['3. step c', 'Cure', joint, 'shift y −0.2 µm; shift z 0.1 µm', '2.5', '0.5'],
      [
        '4. step d',
        'Check',
        '',
        'reject above 2 dB, standard uncertainty 0.05 dB; repeat from step 2, at most once',
        '2.5',
        '0.5',
      ],
      ['5. step e', 'Check', '', 'reject above 2 dB; repeat from step 2, at most 3 times', '2.5', '0.5'],
      ['6. step f', 'Check', '', 'reject above 2 dB', '2.5', '0.5'],
      ['7. step g', 'Check', '', 'record the loss', '2.5', '0.5'],
    ])
    const cautions = plainBlocks(blocks).flatMap((block) => (block.kind === 'list' ? block.items : []))
    expect(cautions.map((each) => each.slice(0, each.indexOf(':')))).toEqual([
      'Place (step 1)',
      'Align actively (step 2)',
      'Cure (step 3)',
      'Check (steps 4, 5, 6, 7)',
    ])
    const typical = wordsIn(blocksOf('process', demoProject(), 'cleaved-dry', /Assembly sequence/))
    expect(typical[0]).toMatch(/^Typical sequence/)
    expect(typical.join()).not.toContain('Splices are made')
  })
})

describe('the inspection plan', () => {
  test('says what becomes of a lot, how large it is, and which uncertainty it counts on', () => {
    const sampling = (allowed: number) => ({ allowed }) as Parameters<typeof rejectRule>[0]
    expect(rejectRule(sampling(0), false)).toBe('reject the lot at 1 failure or more')
    expect(rejectRule(sampling(2), false)).toBe('reject the lot at 3 failures or more')
    expect(rejectRule(sampling(2), true)).toBe('set aside every part that fails')
    const project = demoProject()
    const parts = () =>
      sectionsOf('inspection', project, 'ssc-chip')
        .slice(2)
        .map(({ blocks }) => wordsIn(blocks)[0])
    const samples = () =>
      sectionsOf('inspection', project, 'ssc-chip')
        .slice(2)
        .map(({ blocks }) => readRows(tablesIn(blocks)[0])[0]?.[7])
    expect(parts()[0]).toBe('Part number FA-12-127-SM. Lot size: 25 pieces.')
    expect(parts()[1]).toContain('Bought by volume: check every batch and its expiry date.')
    expect(samples().slice(0, 2)).toEqual(['all 25', '1'])
    project.purchase = { inspection: { uncertainties: { coreGeometry: 0.05 } } }
    expect(parts()[0]).toBe('Lot size: not known, because no number of assemblies is given.')
    expect(samples()[0]).toBe('lot size not known')
    const methods = readRows(tablesIn(sectionsOf('inspection', project, 'ssc-chip')[1]?.blocks ?? [])[0])
    expect(methods.filter((row) => row.at(-1) === 'entered').map((row) => row.slice(2, 4))).toEqual([
      ['0.05', 'µm'],
    ])
    expect(new Set(methods.map(([name]) => name)).size).toBe(methods.length)
  })
})
