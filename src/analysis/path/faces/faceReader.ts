// An end face between a guide and a medium, bare or coated, read from the vector into one record.

import type { Path } from '../../../model/issue'
import type { Coating, Film } from '../../../model/schema/coating'
import { type Complex, complex } from '../../../numerics/complex'
import {
  type FilmStack,
  type PlanePolarisation,
  type StackResponse,
  stackResponse,
} from '../../../optics/index'
import type { ChainContext } from '../vector/elementModels'
import { indexReader } from '../vector/indexReader'
import { constantReader, type Reader, slotsOf, type Values } from '../vector/valueReaders'
import { type FaceNumbers, fillFace, newFace } from './faceNumbers'

/** What the light of the vector is to a face: s, p, or both in equal parts. */
type Seen = PlanePolarisation | 'both'

export interface FaceReader {
  /** Overwritten by every `fill`. */
  readonly face: FaceNumbers
  readonly fill: (v: Values, guideIndex: number, mediumIndex: number, angleRad: number) => void
  /** Reflected over incident amplitude inside the medium, for the face as last filled. */
  readonly inside: (v: Values, guideIndex: number, mediumIndex: number, of: PlanePolarisation) => Complex
  readonly seen: (v: Values) => Seen
  /** Places that `fill` may read, apart from what it is given; null where that is not known. */
  readonly reads: readonly number[] | null
}

interface FilmReader {
  (v: Values): FilmStack['films'][number]
  readonly reads: readonly number[] | null
}

/** Readers of films, from the guide outwards. */
export function filmReaders(
  context: ChainContext,
  films: readonly Film[],
  name: string,
  path: Path,
): readonly FilmReader[] {
  return films.map((film, i) => {
    const label = `film ${i + 1} of the ${name}`
    const own: Path = [...path, i]
    const index = indexReader(context, film.index, label, [...own, 'index'])
    const thickness = context.readers.quantity(film.thickness, 'filmThickness', `thickness of ${label}`, [
      ...own,
      'thickness',
    ])
    const extinction: Reader =
      film.extinction === undefined
        ? constantReader(0)
        : context.readers.quantity(film.extinction, 'extinction', `absorption of ${label}`, [
            ...own,
            'extinction',
          ])
    return Object.assign(
      (v: Values) => ({ index: index(v), thicknessUm: thickness(v), extinction: extinction(v) }),
      { reads: slotsOf([index, thickness, extinction]) },
    )
  })
}

/** TE has its field along x, the chip's surface: p for a face angled in x, s for one angled in y. */
function seenBy(context: ChainContext, plane: 'x' | 'y'): (v: Values) => Seen {
  const [te, tm]: readonly Seen[] = plane === 'x' ? ['p', 's'] : ['s', 'p']
  return (v) => {
    const polarisation = context.polarisation(v)
    return (polarisation === 1 ? te : polarisation === 2 ? tm : 'both') ?? 'both'
  }
}

/** Reader of a face angled in `plane`. `name` is that of the face in labels: "near face". */
export function faceReader(
  context: ChainContext,
  coating: Coating | undefined,
  plane: 'x' | 'y',
  name: string,
  path: Path,
): FaceReader {
  const face = newFace()
  const seen = seenBy(context, plane)
  const bare: FaceReader = {
    face,
    seen,
    reads: slotsOf([context.polarisation]),
    fill: (v, guideIndex, mediumIndex, angleRad) =>
      fillFace(face, guideIndex, mediumIndex, angleRad, angleRad === 0 ? 'both' : seen(v)),
    inside: (v, guideIndex, mediumIndex, of) =>
      stackResponse(insideStack(context, v, face, guideIndex, mediumIndex, []), of).amplitude,
  }
  if (coating === undefined) return bare
  if (coating.kind === 'reflectance') {
    const reflectance = context.readers.quantity(
      coating.reflectance,
      'reflectance',
      `reflectance of the ${name}`,
      [...path, 'reflectance'],
    )
    return {
      ...bare,
      reads: slotsOf([reflectance]),
      fill: (v, guideIndex, mediumIndex, angleRad) => {
        fillFace(face, guideIndex, mediumIndex, angleRad, 'both')
        if (face.blocked) return
        face.reflectance = reflectance(v)
        face.transmission = 1 - face.reflectance
      },
      // The phase of a reflectance is not known; that of the bare face is used.
      inside: (v, guideIndex, mediumIndex) =>
        complex((mediumIndex < guideIndex ? -1 : 1) * Math.sqrt(reflectance(v))),
    }
  }
  const films = filmReaders(context, coating.films, name, [...path, 'films'])
  return {
    ...bare,
    reads: slotsOf([context.wavelength, context.polarisation, ...films]),
    fill: (v, guideIndex, mediumIndex, angleRad) => {
      fillFace(face, guideIndex, mediumIndex, angleRad, 'both')
      if (face.blocked) return
      const stack: FilmStack = {
        wavelengthUm: context.wavelength(v),
        index1: guideIndex,
        index2: mediumIndex,
        films: films.map((film) => film(v)),
        incidenceRad: Math.abs(angleRad),
      }
      const through = responseFor(stack, angleRad === 0 ? 's' : seen(v))
      face.reflectance = through.reflectance
      face.transmission = through.transmittance
    },
    inside: (v, guideIndex, mediumIndex, of) => {
      const reversed = films.map((film) => film(v)).toReversed()
      return stackResponse(insideStack(context, v, face, guideIndex, mediumIndex, reversed), of).amplitude
    },
  }
}

function insideStack(
  context: ChainContext,
  v: Values,
  face: FaceNumbers,
  guideIndex: number,
  mediumIndex: number,
  films: FilmStack['films'],
): FilmStack {
  return {
    wavelengthUm: context.wavelength(v),
    index1: mediumIndex,
    index2: guideIndex,
    films,
    incidenceRad: Math.abs(face.mediumAngleRad),
  }
}

/** The stack for s, for p, or on average. */
function responseFor(stack: FilmStack, seen: Seen): Pick<StackResponse, 'reflectance' | 'transmittance'> {
  if (seen !== 'both') return stackResponse(stack, seen)
  const [s, p] = [stackResponse(stack, 's'), stackResponse(stack, 'p')]
  return {
    reflectance: (s.reflectance + p.reflectance) / 2,
    transmittance: (s.transmittance + p.transmittance) / 2,
  }
}
