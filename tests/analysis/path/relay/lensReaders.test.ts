// A lens of each kind, as lens 1 and as lens 2, against textbook matrices and the values of its data sheet.

import { describe, expect, test } from 'vitest'
import { lensReaders } from '../../../../src/analysis/path/relay/lensReaders'
import type { ChainContext } from '../../../../src/analysis/path/vector/elementModels'
import { constantReader, readerAt, readerTable } from '../../../../src/analysis/path/vector/valueReaders'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { LensEntry, LensShapeEntry } from '../../../../src/model/schema/parts'
import { familiesProject, thinLensEntry } from '../../support/families'
import { um } from '../../support/realRelays'

const [GLASS, MEDIUM] = [1.5, 1.1]
const entryOf = (shape: LensShapeEntry, change: Partial<LensEntry> = {}): LensEntry => ({
  ...thinLensEntry('lens', 1000),
  ...{ coating: undefined, glass: { kind: 'value', index: quantityOf(GLASS, '1') } },
  shape,
  ...change,
})

function readersOf(entry: LensEntry, lensNumber: 1 | 2) {
  const readers = readerTable()
  const zero = readers.addSlot('offset', 'nothing', ['nothing'])
  const context = {
    project: { ...familiesProject(), lenses: [entry] },
    readers,
    wavelengthUm: 1.55,
    wavelength: constantReader(1.55),
    temperatureRise: readerAt(zero),
  } as unknown as ChainContext
  const lens = lensReaders(context, 'lens', lensNumber, constantReader(MEDIUM))
  const v = Float64Array.from(readers.variables, ({ nominal }) => nominal)
  const slotOf = (field: string) => readers.variables.findIndex(({ path }) => path.at(-1) === field)
  return { lens, v, slotOf }
}

type Four = readonly [a: number, b: number, c: number, d: number]
const times = ([a, b, c, d]: Four, [e, f, g, h]: Four): Four => [
  a * e + b * g,
  a * f + b * h,
  c * e + d * g,
  c * f + d * h,
]
/** Refraction at a sphere of radius R (centre behind it: positive), in heights and slopes (Saleh & Teich, eq. 1.4-5). */
const sphere = (from: number, to: number, radiusUm: number): Four => [
  1,
  0,
  -(to - from) / (to * radiusUm),
  from / to,
]
/** Two faces that bulge outwards by their radii, with the glass between. */
const between = (firstUm: number, lastUm: number, thicknessUm: number): Four =>
  times(sphere(GLASS, MEDIUM, -lastUm), times([1, thicknessUm, 0, 1], sphere(MEDIUM, GLASS, firstUm)))
const matrixOf = ({ lens, v }: ReturnType<typeof readersOf>) => {
  const { a, b, c, d } = lens.matrix(v)
  return [a, b, c, d]
}
const close = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 10))
const FLAT = Number.POSITIVE_INFINITY

describe.each([1, 2] as const)('as lens %i of a relay', (lensNumber) => {
  /** Entries are described from the parallel beam, which lens 1 sends on and lens 2 meets. */
  const inOrder = <T>(collimated: T, other: T): readonly [T, T] =>
    lensNumber === 1 ? [other, collimated] : [collimated, other]

  test('a plano-convex lens turns its sphere to the parallel beam', () => {
    const read = readersOf(
      entryOf({ kind: 'plano-convex', radius: um(450), thickness: um(300), conic: -0.6, aspheric: [2, -30] }),
      lensNumber,
    )
    expect(read.lens.radiiUm(read.v)).toEqual(inOrder(450, FLAT))
    expect(matrixOf(read)).toEqual(close(between(...inOrder(450, FLAT), 300)))
    expect(read.lens.thicknessUm(read.v)).toBe(300)
    // As rays meet it from the guide: a plane, then the sphere from within. 2 / mm^3 are 2e-9 / um^3, -30 / mm^5 are -3e-14 / um^5.
    expect(read.lens.real?.(read.v)).toEqual({
      ...{ index: GLASS, mediumIndex: MEDIUM, thicknessUm: 300 },
      first: { radiusUm: FLAT, conic: 0, asphericPerUm: [] },
      last: {
        ...{ radiusUm: -450, conic: -0.6 },
        asphericPerUm: [expect.closeTo(-2e-9, 20), expect.closeTo(3e-14, 25)],
      },
    })
    // Another radius makes another matrix, and what was asked before is no matter.
    read.v[read.slotOf('radius')] = 500
    expect(matrixOf(read)).toEqual(close(between(...inOrder(500, FLAT), 300)))
    read.v[read.slotOf('thickness')] = 200
    expect(matrixOf(read)).toEqual(close(between(...inOrder(500, FLAT), 200)))
    expect(read.lens.matrix(read.v)).toBe(read.lens.matrix(read.v))
  })

  test('a biconvex lens has a face of its own on either side', () => {
    const read = readersOf(
      entryOf({
        ...{ kind: 'biconvex', frontRadius: um(700), backRadius: um(400), thickness: um(250) },
        ...{ frontConic: -1, frontAspheric: [5], backConic: 0.5, backAspheric: [7] },
      }),
      lensNumber,
    )
    expect(read.lens.radiiUm(read.v)).toEqual(inOrder(700, 400))
    expect(matrixOf(read)).toEqual(close(between(...inOrder(700, 400), 250)))
    expect(read.lens.real?.(read.v)).toMatchObject({
      first: { radiusUm: 400, conic: 0.5, asphericPerUm: [expect.closeTo(7e-9, 20)] },
      last: { radiusUm: -700, conic: -1, asphericPerUm: [expect.closeTo(-5e-9, 20)] },
    })
  })

  test('a ball has half of its diameter on both sides', () => {
    const read = readersOf(entryOf({ kind: 'ball', diameter: um(500) }), lensNumber)
    expect(read.lens.radiiUm(read.v)).toEqual([250, 250])
    expect(matrixOf(read)).toEqual(close(between(250, 250, 500)))
    expect(read.lens.real?.(read.v)).toMatchObject({
      thicknessUm: 500,
      first: { radiusUm: 250, conic: 0 },
      last: { radiusUm: -250, conic: 0 },
    })
    expect(read.lens.thicknessUm(read.v)).toBe(500)
  })

  test('a rod of graded index is a sine over its pitch', () => {
    const shape = {
      kind: 'gradient index',
      rodPitch: quantityOf(0.23, '1'),
      length: um(4000),
      fourthOrder: 0.7,
    } as const
    const read = readersOf(entryOf(shape), lensNumber)
    const g = (2 * Math.PI * 0.23) / 4000
    const [cos, sin] = [Math.cos(g * 4000), Math.sin(g * 4000)]
    // Saleh & Teich, eq. 1.3-11, with refraction at the flat ends.
    const rod: Four = [cos, sin / g, -g * sin, cos]
    const ends = times([1, 0, 0, GLASS / MEDIUM], times(rod, [1, 0, 0, MEDIUM / GLASS]))
    expect(matrixOf(read)).toEqual(close(ends))
    expect(read.lens.real?.(read.v)).toMatchObject({
      thicknessUm: 4000,
      gradient: { perUm: expect.closeTo(g, 15), fourth: 0.7 },
      first: { radiusUm: FLAT },
      last: { radiusUm: FLAT },
    })
    expect(read.lens.radiiUm(read.v)).toEqual([FLAT, FLAT])
  })

  test('a thin lens is its focal length, and no ray is traced through it', () => {
    const read = readersOf(entryOf({ kind: 'thin', focalLength: um(800) }), lensNumber)
    expect(matrixOf(read)).toEqual(close([1, 0, -1 / 800, 1]))
    expect(read.lens.real).toBeNull()
    expect(read.lens.thicknessUm(read.v)).toBe(0)
  })
})

describe('the faces of a lens', () => {
  const shape = { kind: 'thin', focalLength: um(800) } as const
  const facesOf = (change: Partial<LensEntry>) => {
    const { lens, v } = readersOf(entryOf(shape, change), 1)
    return [lens.reflectance(v), lens.transmission(v)]
  }
  test('reflect as bare glass does, as stated, or as their film does; light passes two', () => {
    const bare = ((GLASS - MEDIUM) / (GLASS + MEDIUM)) ** 2
    expect(facesOf({})).toEqual(close([bare, (1 - bare) ** 2]))
    expect(facesOf({ coating: quantityOf(0.25, '%') })).toEqual(close([0.0025, 0.9975 ** 2]))
    // A quarter wave of index n1 turns Y to n1^2 / n of the glass (Macleod, Thin-Film Optical Filters, ch. 2).
    const film = 1.2
    const films: LensEntry['films'] = [
      {
        index: { kind: 'value', index: quantityOf(film, '1') },
        thickness: quantityOf(1550 / 4 / film, 'nm'),
      },
    ]
    const admittance = (film * film) / GLASS
    const coated = ((MEDIUM - admittance) / (MEDIUM + admittance)) ** 2
    expect(facesOf({ films })).toEqual(close([coated, (1 - coated) ** 2]))
  })
})
