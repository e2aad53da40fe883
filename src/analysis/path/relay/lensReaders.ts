// A lens entry as functions of the vector: its matrix, its size, what its faces reflect.

import type { Path } from '../../../model/issue'
import type { LensEntry } from '../../../model/schema/parts'
import {
  ballLens,
  FLAT_FACE,
  fresnelReflectance,
  gradientIndexRod,
  type LensFace,
  type LensShape,
  type RayMatrix,
  stackResponse,
  thickLens,
  thinLens,
} from '../../../optics/index'
import { filmReaders } from '../faces/faceReader'
import type { ChainContext } from '../vector/elementModels'
import { indexReader } from '../vector/indexReader'
import { constantReader, type Reader, type Values } from '../vector/valueReaders'

export interface LensReaders {
  readonly lens: LensEntry
  readonly path: Path
  /** From the first face to the last, in the medium on both sides. */
  readonly matrix: (v: Values) => RayMatrix
  readonly thicknessUm: Reader
  readonly apertureDiameterUm: Reader
  /** Power that one face reflects, and that passes both; 0..1. */
  readonly reflectance: Reader
  readonly transmission: Reader
  readonly glassIndex: Reader
  /** Radii of the faces along the path, positive when bulging outwards; Infinity for flat. */
  readonly radiiUm: (v: Values) => readonly [first: number, last: number]
  /** The lens as it is, from the side of the guide to that of the parallel beam; null for one defined by its focal length. */
  readonly real: ((v: Values) => LensShape) | null
}

type Shape = Pick<LensReaders, 'matrix' | 'thicknessUm' | 'radiiUm' | 'real'>

/** A face by its convex radius and the terms of its data sheet, A4 in mm^-3 and so on. */
const convex = (radiusUm: number, conic = 0, aspheric: readonly number[] = []): LensFace => ({
  radiusUm,
  conic,
  asphericPerUm: aspheric.map((term, i) => term * 10 ** (-3 * (2 * i + 3))),
})

/** The same face met from within the glass. */
const met = ({ radiusUm, conic, asphericPerUm }: LensFace): LensFace => ({
  radiusUm: -radiusUm,
  conic,
  asphericPerUm: asphericPerUm.map((term) => -term),
})

const FLAT = Number.POSITIVE_INFINITY

/**
 * The lens that an element names, as lens 1 or lens 2 of a relay: entries are described from their
 * collimated side, which for lens 1 is the last face the light meets.
 */
export function lensReaders(
  context: ChainContext,
  lensId: string,
  lensNumber: 1 | 2,
  mediumIndex: Reader,
): LensReaders {
  const at = context.project.lenses.findIndex((each) => each.id === lensId)
  const lens = context.project.lenses[at]
  if (lens === undefined) throw new Error(`no lens ${lensId}`)
  const path: Path = ['lenses', at]
  const { quantity } = context.readers
  const glass = indexReader(context, lens.glass, `the glass of ${lens.name}`, [...path, 'glass'])
  const face = lensFace(context, lens, path, glass, mediumIndex)
  return {
    lens,
    path,
    ...shapeOf(context, lens, path, lensNumber, glass, mediumIndex),
    apertureDiameterUm: quantity(lens.clearAperture, 'aperture', `clear aperture of ${lens.name}`, [
      ...path,
      'clearAperture',
    ]),
    glassIndex: glass,
    reflectance: face.reflectance,
    transmission: (v) => face.transmission(v) ** 2,
  }
}

/** The matrix of the last inputs again, as long as none of them has changed: a search moves one number at a time. */
function remembered(inputs: readonly Reader[], make: (v: Values) => RayMatrix): (v: Values) => RayMatrix {
  const last = new Float64Array(inputs.length).fill(Number.NaN)
  let matrix: RayMatrix = { a: 1, b: 0, c: 0, d: 1 }
  return (v) => {
    let same = true
    for (let i = 0; i < inputs.length; i++) {
      const value = inputs[i]?.(v) ?? 0
      if (value !== last[i]) {
        last[i] = value
        same = false
      }
    }
    if (!same) matrix = make(v)
    return matrix
  }
}

/** One face at normal incidence: its films, else its stated reflectance, else bare. */
function lensFace(
  context: ChainContext,
  lens: LensEntry,
  path: Path,
  glass: Reader,
  mediumIndex: Reader,
): Pick<LensReaders, 'reflectance' | 'transmission'> {
  if (lens.films !== undefined) {
    const films = filmReaders(context, lens.films, lens.name, [...path, 'films'])
    const response = (v: Values) =>
      stackResponse(
        {
          wavelengthUm: context.wavelength(v),
          index1: glass(v),
          index2: mediumIndex(v),
          films: films.map((film) => film(v)),
        },
        's',
      )
    return { reflectance: (v) => response(v).reflectance, transmission: (v) => response(v).transmittance }
  }
  const reflectance =
    lens.coating === undefined
      ? (v: Values) => fresnelReflectance({ index1: mediumIndex(v), index2: glass(v) }).unpolarised
      : context.readers.quantity(lens.coating, 'reflectance', `reflectance of ${lens.name}`, [
          ...path,
          'coating',
        ])
  return { reflectance, transmission: (v) => 1 - reflectance(v) }
}

function shapeOf(
  context: ChainContext,
  lens: LensEntry,
  lensPath: Path,
  lensNumber: 1 | 2,
  glass: Reader,
  medium: Reader,
): Shape {
  const { shape, name } = lens
  const path: Path = [...lensPath, 'shape']
  const { quantity } = context.readers
  const thick = (
    collimated: Reader,
    other: Reader,
    thicknessUm: Reader,
    terms: {
      readonly conic?: number | undefined
      readonly aspheric?: readonly number[] | undefined
      readonly otherConic?: number | undefined
      readonly otherAspheric?: readonly number[] | undefined
    } = {},
  ): Shape => {
    const [first, last] = lensNumber === 1 ? [other, collimated] : [collimated, other]
    return {
      thicknessUm,
      real: (v) => ({
        index: glass(v),
        mediumIndex: medium(v),
        thicknessUm: thicknessUm(v),
        first: convex(other(v), terms.otherConic, terms.otherAspheric),
        last: met(convex(collimated(v), terms.conic, terms.aspheric)),
      }),
      radiiUm: (v) => [first(v), last(v)],
      matrix: remembered([glass, first, last, thicknessUm, medium], (v) =>
        thickLens({
          index: glass(v),
          frontRadiusUm: first(v),
          backRadiusUm: -last(v),
          thicknessUm: thicknessUm(v),
          surroundingIndex: medium(v),
        }),
      ),
    }
  }
  switch (shape.kind) {
    case 'thin': {
      const focal = quantity(shape.focalLength, 'focalLength', `focal length of ${name}`, [
        ...path,
        'focalLength',
      ])
      return {
        thicknessUm: constantReader(0),
        radiiUm: () => [FLAT, FLAT],
        matrix: (v) => thinLens(focal(v)),
        real: null,
      }
    }
    case 'ball': {
      const diameter = quantity(shape.diameter, 'lensSize', `diameter of ${name}`, [...path, 'diameter'])
      return {
        thicknessUm: diameter,
        real: (v) => ({
          index: glass(v),
          mediumIndex: medium(v),
          thicknessUm: diameter(v),
          first: convex(diameter(v) / 2),
          last: met(convex(diameter(v) / 2)),
        }),
        radiiUm: (v) => [diameter(v) / 2, diameter(v) / 2],
        matrix: remembered([glass, diameter, medium], (v) =>
          ballLens({ index: glass(v), diameterUm: diameter(v), surroundingIndex: medium(v) }),
        ),
      }
    }
    case 'plano-convex': {
      const radius = quantity(shape.radius, 'radius', `radius of ${name}`, [...path, 'radius'])
      const thickness = quantity(shape.thickness, 'lensSize', `thickness of ${name}`, [...path, 'thickness'])
      return thick(radius, constantReader(FLAT), thickness, shape)
    }
    case 'biconvex': {
      const front = quantity(shape.frontRadius, 'radius', `collimated-side radius of ${name}`, [
        ...path,
        'frontRadius',
      ])
      const back = quantity(shape.backRadius, 'radius', `focused-side radius of ${name}`, [
        ...path,
        'backRadius',
      ])
      const thickness = quantity(shape.thickness, 'lensSize', `thickness of ${name}`, [...path, 'thickness'])
      return thick(front, back, thickness, {
        conic: shape.frontConic,
        aspheric: shape.frontAspheric,
        otherConic: shape.backConic,
        otherAspheric: shape.backAspheric,
      })
    }
    case 'gradient index': {
      const pitch = quantity(shape.rodPitch, 'rodPitch', `pitch of ${name}`, [...path, 'rodPitch'])
      const length = quantity(shape.length, 'lensSize', `length of ${name}`, [...path, 'length'])
      return {
        thicknessUm: length,
        radiiUm: () => [FLAT, FLAT],
        real: (v) => ({
          index: glass(v),
          mediumIndex: medium(v),
          thicknessUm: length(v),
          first: FLAT_FACE,
          last: FLAT_FACE,
          gradient: { perUm: (2 * Math.PI * pitch(v)) / length(v), fourth: shape.fourthOrder ?? 0 },
        }),
        matrix: remembered([glass, pitch, length, medium], (v) =>
          gradientIndexRod({
            axisIndex: glass(v),
            gradientPerUm: (2 * Math.PI * pitch(v)) / length(v),
            lengthUm: length(v),
            indexBefore: medium(v),
            indexAfter: medium(v),
          }),
        ),
      }
    }
  }
}
