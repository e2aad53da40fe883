import { describe, expect, test } from 'vitest'
import { newIsolator } from '../../src/model/designs/newElements'
import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { ChainElement } from '../../src/model/schema/candidate'
import { orderList } from '../../src/report/orderList'
import { familiesProject } from '../analysis/support/families'

type SpliceElement = Extract<ChainElement, { kind: 'splice' }>

const listOf = (id: string, project = familiesProject()) => {
  const list = orderList(project, id)
  if (list === null) throw new Error(`no ${id}`)
  return list
}

describe('an order list', () => {
  test('has a line for every part with quantity, dimension and tolerance in the same order', () => {
    const { lines } = listOf('high-na-bonded')
    expect(lines.map((line) => line.part)).toEqual([
      'Standard single-mode fibre',
      'Fusion splice',
      'High-NA bridge fibre',
      'UV-cured adhesive',
      'Silicon-nitride facet',
    ])
    expect(lines[0]).toMatchObject({
      quantity: '12',
      dimension: 'core 8.2 µm, NA 0.125, cladding 125 µm',
      tolerance: '± 0.2 µm, ± 0.003, ± 0.7 µm',
      pitch: '',
    })
    expect(lines[2]).toMatchObject({
      quantity: '12, or 1 array of 12',
      pitch: '127 µm ± 0.01 µm',
      medium: 'UV-cured adhesive',
    })
    expect(lines[2]?.notes).toContain('stub; length 10 mm')
    expect(lines[4]).toMatchObject({ quantity: '1 chip with 12 facets', faceAngle: '0°' })
  })

  test('orders the array that a design defines, and leaves the form open where none is', () => {
    const fibre = listOf('ssc-chip', demoProject()).lines[0]
    expect(fibre).toMatchObject({ part: 'Standard single-mode fibre', quantity: '1 array of 12' })
    expect(fibre?.notes).toContain('in an array: core position x')
    expect(listOf('cleaved-dry', demoProject()).lines[0]?.quantity).toBe('12, or 1 array of 12')
  })

  test('names both lenses, their coating and the device of a relay, along the path', () => {
    const { lines } = listOf('relay')
    expect(lines.map((line) => line.part)).toEqual([
      'Standard single-mode fibre',
      'Lens of 1000 um',
      'Isolator',
      'Lens of 300 um',
      'Silicon-nitride facet',
    ])
    expect(lines[1]).toMatchObject({ coating: 'at most 0.25 % per face', quantity: '12' })
    expect(lines[2]?.notes).toContain('isolation at least 30 dB')
  })

  test('keeps the adhesive off a lensed tip in words, and buys one filling once', () => {
    expect(listOf('ground-tip').lines[1]?.notes).toContain('keep adhesive away from the tip')
    // The back-reflection of a tip that is defined by its spot depends on a radius that has not been given yet.
    expect(listOf('spot-tip').lines[1]?.notes).toContain('supplier to state the tip radius')
    expect(listOf('ground-tip').lines[1]?.notes).not.toContain('supplier to state')
    const fillings = listOf('taper').lines.filter((line) => line.quantity === 'as needed')
    expect(fillings).toHaveLength(1)
  })

  test('says how a stub is ordered, the medium at its end, and what its block must hold', () => {
    const project = demoProject()
    const stub = project.candidates[1]?.chain[2]
    if (stub?.kind !== 'stub') throw new Error('no stub')
    stub.form = 'array'
    const line = listOf('high-na-bonded', project).lines[2]
    expect(line).toMatchObject({
      quantity: '1 array of 12',
      medium: 'UV-cured adhesive',
      pitch: '127 µm ± 0.02 µm',
    })
    expect(line?.notes).toContain('in an array: core position x ± 0.5 µm, y ± 0.5 µm, bow ± 0.2 µm')
    stub.form = 'single'
    expect(listOf('high-na-bonded', project).lines[2]?.quantity).toBe('12 individual')
  })

  test('asks about the loss of a splice that is entered as an estimate, and of no other', () => {
    const asked = (change: (splice: SpliceElement) => void) => {
      const project = demoProject()
      const splice = project.candidates.flatMap(({ chain }) => chain).find(({ kind }) => kind === 'splice')
      if (splice?.kind !== 'splice') throw new Error('no splice')
      change(splice)
      return listOf('high-na-bonded', project).questions.filter((each) => each.startsWith('Fusion splice'))
    }
    const estimate = quantityOf(0.1, 'dB', 'estimate', 0.05)
    expect(asked((splice) => Object.assign(splice, { basis: 'typed', loss: estimate }))).toEqual([
      'Fusion splice: loss 0.1 dB ± 0.05 dB is an estimate; please confirm value and tolerance.',
    ])
    expect(
      asked((splice) =>
        Object.assign(splice, { basis: 'typed', loss: { ...estimate, provenance: 'measured' } }),
      ),
    ).toEqual([])
    expect(asked((splice) => Object.assign(splice, { basis: 'abrupt', loss: estimate }))).toEqual([])
  })

  test('lists one device for the row only where its aperture spans the row', () => {
    const project = familiesProject()
    const device = () => listOf('relay', project).lines.find(({ part }) => part === 'Isolator')
    // 900 um against eleven pitches of 127 um.
    expect(device()?.quantity).toBe('12')
    project.requirements.channels = 4
    expect(device()?.quantity).toBe('1 for all 4 channels')
  })

  test('asks about the length of a stub and the block that holds it, where they are estimates', () => {
    const { questions } = listOf('high-na-bonded', demoProject())
    expect(questions).toContain('Stub: length 10 mm is an estimate; please confirm value and tolerance.')
    expect(questions.at(-1)).toMatch(/^Fibre array: please confirm .*; bow 0 µm ± 0\.2 µm\.$/)
  })

  test('asks about every number that is an estimate, and about nothing once all are known', () => {
    const { questions } = listOf('relay')
    const estimates = Object.values(newIsolator()).filter((each) => typeof each === 'object').length
    const [isolator, ...more] = questions.filter((each) => each.startsWith('Isolator:'))
    expect(more).toEqual([])
    expect(isolator?.split(';')).toHaveLength(estimates)
    expect(questions.find((each) => each.startsWith('Silicon-nitride facet:'))).toContain(
      'taper loss 0.25 dB ± 0.1 dB',
    )
    const project = JSON.parse(
      JSON.stringify(familiesProject()).replaceAll('"estimate"', '"data sheet"'),
    ) as ReturnType<typeof familiesProject>
    expect(listOf('relay', project).questions).toEqual([])
  })

  test('follows a tolerance that has been written into a part', () => {
    const project = familiesProject()
    const facet = project.facets[0]
    if (facet !== undefined) facet.mfdX = quantityOf(3.4, 'um', 'data sheet', 0.135)
    expect(listOf('relay', project).lines.at(-1)?.tolerance).toContain('± 0.135 µm')
  })

  test('of no design is none', () => {
    expect(orderList(familiesProject(), 'nope')).toBeNull()
  })
})

describe('angled and coated faces', () => {
  function angled() {
    const project = familiesProject()
    const gap = project.candidates.find((each) => each.id === 'cleaved-dry')?.chain[1]
    if (gap?.kind !== 'gap') throw new Error('no gap')
    gap.nearFaceAngle = quantityOf(8, 'deg', 'data sheet', 0.3)
    gap.nearCoating = {
      kind: 'films',
      films: [
        {
          index: { kind: 'material', material: 'silicon nitride' },
          thickness: quantityOf(210, 'nm', 'data sheet', 5),
        },
      ],
    }
    gap.farCoating = { kind: 'reflectance', reflectance: quantityOf(0.3, '%') }
    return project
  }

  // Snell by hand: n = 1.44277 (Malitson, 1653.7 nm), 8 degrees in the fibre is 11.58 degrees in air.
  test('are ordered with the turn of the fibre that Snell asks for, and with their films', () => {
    const { lines } = listOf('cleaved-dry', angled())
    expect(lines[0]).toMatchObject({
      faceAngle: '8° ± 0.3°',
      pointing: 'axis tilted by −3.58° in x',
      coating: 'films from the glass outwards: silicon nitride 210 nm ± 5 nm',
    })
    expect(lines.at(-1)?.coating).toBe('at most 0.3 %')
    expect(lines.at(-1)?.pointing).toBe('')
  })

  test('leave the column of turns empty where nothing is turned', () => {
    expect(listOf('cleaved-dry').lines.every((line) => line.pointing === '')).toBe(true)
  })
})

describe('the questions of an order', () => {
  const estimate = (value: number, plusMinus?: number) => quantityOf(value, 'um', 'estimate', plusMinus)

  test('list every estimate of a part once, by the words of its core, its mode and its place', () => {
    const project = familiesProject()
    const facet = project.facets[0]!
    const numbers = {
      mfdX: estimate(3, 0.1),
      mfdY: quantityOf(4, 'um', 'data sheet'),
      tm: { mfdX: estimate(2.8), mfdY: quantityOf(3, 'um', 'data sheet') },
      section: {
        cores: [{ name: 'core A', x: estimate(0.5), bottom: estimate(1.5), width: estimate(0.2) }],
        note: 'by hand',
        none: null,
      },
    }
    const list = orderList({ ...project, facets: [{ ...facet, ...numbers } as never] }, 'cleaved-dry')
    const own = list?.questions.filter((each) => each.startsWith(facet.name)) ?? []
    expect(own).toHaveLength(2)
    for (const words of [
      'MFD x 3 µm ± 0.1 µm',
      'centre x of core A 0.5 µm',
      'bottom edge of core A above the substrate 1.5 µm',
      'width of core A 0.2 µm',
    ])
      expect(own[0]).toContain(words)
    expect(own[0]).not.toMatch(/MFD y 4 µm|2\.8 µm/)
    expect(own[1]).toBe(
      `${facet.name}, TM mode: MFD x 2.8 µm is an estimate; please confirm value and tolerance.`,
    )
  })

  test('are about end faces of gaps, stubs, and devices too, and about a block of fibres', () => {
    const project = familiesProject()
    const candidate = project.candidates.find(({ id }) => id === 'cleaved-dry')!
    const gap = candidate.chain.find(({ kind }) => kind === 'gap')!
    const angle = (value: number) => quantityOf(value, 'deg', 'estimate', 0.3)
    const asked = (nearFaceAngle: unknown) =>
      orderList(
        {
          ...project,
          candidates: [
            {
              ...candidate,
              chain: candidate.chain.map((each) => (each === gap ? { ...each, nearFaceAngle } : each)),
            } as never,
          ],
        },
        'cleaved-dry',
      )?.questions.filter((each) => each.startsWith('End faces'))
    expect(asked(angle(8))).toEqual([
      'End faces: please confirm value and tolerance of these estimates: fibre-side face angle 8° ± 0.3°; chip-side face angle 0°.',
    ])
    expect(asked({ ...angle(8), provenance: 'data sheet' })).toEqual([
      'End faces: chip-side face angle 0° is an estimate; please confirm value and tolerance.',
    ])
  })
})
