// A gap between two flat faces square to the axis, once more for tests: upright modes, so that roll is ignored.

import { db, echoShare, type OwnJoint, planeLossDb, reflectance, type Side } from './planes'
import { type Data, type Read, type Register, still } from './quantities'

/** `medium` is the one of the project that the gap names. */
export function ownGap(
  { quantity, index }: Register,
  element: Data,
  medium: Data,
  [from, to]: readonly [Side, Side],
  wavelengthUm: number,
): OwnJoint {
  const of = (field: string) => quantity(`${element.id} ${field}`, element[field])
  const shift = (axis: string): Read =>
    element.bondShift === undefined
      ? still(0)
      : quantity(`${element.id} shift ${axis}`, element.bondShift[axis])
  const between = index(medium.id, medium.index)
  const gap = of('gap')
  const alongUm = shift('z')
  const aligned: readonly string[] = element.aligned ?? []
  const planes = (['X', 'Y'] as const).map((axis) => ({
    offset: of(`offset${axis}`),
    tilt: of(`tilt${axis}`),
    moved: shift(axis.toLowerCase()),
    isAligned: aligned.includes(`offset${axis}`),
    radii: [from[`radius${axis}`], to[`radius${axis}`]] as const,
  }))
  const wave = (v: Float64Array) => (2 * Math.PI * between(v)) / wavelengthUm
  const faces = (v: Float64Array) => [
    reflectance(from.index(v), between(v)),
    reflectance(to.index(v), between(v)),
  ]
  return {
    lossDb: (v, raisedUm) => {
      const k = wave(v)
      const alignedGapUm = Math.max(0, gap(v))
      const gapUm = Math.max(0, alignedGapUm + alongUm(v))
      const joint = planes.reduce((sum, { offset, tilt, moved, isAligned, radii }, plane) => {
        // A tilted guide turns about its end face, so its beam has run off by tilt times gap where it arrives.
        const at = (across: number, g: number) =>
          planeLossDb(radii[0](v), radii[1](v), g - from.waistUm(v), across + g * tilt(v), tilt(v), k)
        // The vertex of the parabola that the loss is: the station goes there, and is off by its residual.
        const [low, mid, high] = [at(-0.1, alignedGapUm), at(0, alignedGapUm), at(0.1, alignedGapUm)]
        const best = isAligned ? (0.1 * (low - high)) / (2 * (low + high - 2 * mid)) : 0
        return sum + at(best + offset(v) + moved(v) + (plane === 1 ? raisedUm : 0), gapUm)
      }, 0)
      return joint + faces(v).reduce((sum, face) => sum + db(1 - face), 0)
    },
    echoes: (v) => {
      const k = wave(v)
      const [near = 0, far = 0] = faces(v)
      const back = (side: 0 | 1, fromWaistUm: number) =>
        planes.reduce((all, { radii }) => {
          const beam = { height: 0, slope: 0, qRe: fromWaistUm, qIm: (k * radii[side](v) ** 2) / 2 }
          return all * echoShare(beam, k)
        }, 1)
      return {
        toFibre: near + far * (1 - near) ** 2 * back(0, gap(v) - from.waistUm(v)),
        toChip: far + near * (1 - far) ** 2 * back(1, gap(v)),
      }
    },
  }
}
