// The loss of a gap for many vectors at once: the same numbers as one by one, in columns.

import { fillEfficiencies, NO_LIGHT_RATIO } from '../../../optics/index'
import { type Column, type Columns, columnProduct, columnSum, constantColumn } from '../vector/columns'
import type { Movement } from '../vector/elementModels'
import type { FilledFace, GapJoint } from '../vector/gapJoint'
import type { Reader } from '../vector/valueReaders'

interface FaceColumns {
  readonly transmission: Column
  readonly slopeRad: Column
  readonly widthScale: Column
}

/** A bare face in every vector. */
function faceColumns(
  columns: Columns,
  { face, fill }: FilledFace,
  guide: Column,
  medium: Column,
  angle: Column,
): FaceColumns {
  const { size, held } = columns
  const same = (value: number) => constantColumn(size, value)
  if ([guide, medium, angle].every(({ constant }) => constant !== undefined)) {
    fill(held, guide()[0] as number, medium()[0] as number, angle()[0] as number)
    return {
      transmission: same(face.transmission),
      slopeRad: same(face.slopeRad),
      widthScale: same(face.widthScale),
    }
  }
  const slopeRad = new Float64Array(size)
  const widthScale = new Float64Array(size)
  const transmission = columns.derived((out, count) => {
    const guides = guide()
    const media = medium()
    const angles = angle()
    for (let i = 0; i < count; i++) {
      fill(held, guides[i] as number, media[i] as number, angles[i] as number)
      out[i] = face.transmission
      slopeRad[i] = face.slopeRad
      widthScale[i] = face.widthScale
    }
  })
  // A face that is not angled neither turns the beam nor stretches it.
  if (angle.constant === 0) return { transmission, slopeRad: same(0), widthScale: same(1) }
  const beside = (column: Float64Array): Column => {
    return () => {
      transmission()
      return column
    }
  }
  return { transmission, slopeRad: beside(slopeRad), widthScale: beside(widthScale) }
}

/** What the pointing of the guides leaves of the tilt between the beams, rad. */
function leftoverTilt(columns: Columns, pointingRad: number, near: Column, far: Column): Column {
  if (near.constant !== undefined && far.constant !== undefined) {
    return constantColumn(columns.size, pointingRad + near.constant - far.constant)
  }
  return columns.derived((out, count) => {
    const nearSlope = near()
    const farSlope = far()
    for (let i = 0; i < count; i++) {
      out[i] = pointingRad + (nearSlope[i] as number) - (farSlope[i] as number)
    }
  })
}

/** Loss of the joint and both faces, dB. Where no light to speak of arrives, `lossDb` says what counts. */
export function gapLosses(parts: GapJoint, columns: Columns): Column {
  const { near, far, movements } = parts
  const of = (reader: Reader) => columns.columnOf(reader)
  const index = of(parts.medium)
  const nearFace = faceColumns(columns, parts.nearFace, of(near.index), index, of(parts.nearAngle))
  const farFace = faceColumns(columns, parts.farFace, of(far.index), index, of(parts.farAngle))
  const inX = parts.plane === 'x'
  const stretched = (mfd: Reader, { widthScale }: FaceColumns, inPlane: boolean) =>
    inPlane ? columnProduct(columns, of(mfd), widthScale) : of(mfd)
  const leftover = leftoverTilt(columns, parts.pointingRad, nearFace.slopeRad, farFace.slopeRad)
  const tilted = (tilt: Reader, inPlane: boolean) =>
    inPlane ? columnSum(columns, [of(tilt), leftover]) : of(tilt)
  const moved = (value: Reader, axis: keyof Movement) =>
    columnSum(columns, [of(value), ...movements.map((movement) => of(movement[axis]))])
  const asked = moved(parts.gap, 'z')
  const numbers = {
    wavelengthUm: of(parts.wavelength),
    index,
    emitterMfdXUm: stretched(near.mfdXUm, nearFace, inX),
    emitterMfdYUm: stretched(near.mfdYUm, nearFace, !inX),
    receiverMfdXUm: stretched(far.mfdXUm, farFace, inX),
    receiverMfdYUm: stretched(far.mfdYUm, farFace, !inX),
    offsetXUm: moved(parts.offsetX, 'x'),
    offsetYUm: moved(parts.offsetY, 'y'),
    // A tolerance may reach past contact; glass and chip then touch.
    gapUm: columns.derived((out, count) => {
      const gaps = asked()
      for (let i = 0; i < count; i++) out[i] = Math.max(gaps[i] as number, parts.leastGapUm)
    }),
    tiltXRad: tilted(parts.tiltX, inX),
    tiltYRad: tilted(parts.tiltY, !inX),
    rollRad: of(parts.roll),
    waistXUm: of(near.waistXUm),
    waistYUm: of(near.waistYUm),
  }
  return columns.derived((out, count) => {
    fillEfficiencies(
      {
        wavelengthUm: numbers.wavelengthUm(),
        index: numbers.index(),
        emitterMfdXUm: numbers.emitterMfdXUm(),
        emitterMfdYUm: numbers.emitterMfdYUm(),
        receiverMfdXUm: numbers.receiverMfdXUm(),
        receiverMfdYUm: numbers.receiverMfdYUm(),
        offsetXUm: numbers.offsetXUm(),
        offsetYUm: numbers.offsetYUm(),
        gapUm: numbers.gapUm(),
        tiltXRad: numbers.tiltXRad(),
        tiltYRad: numbers.tiltYRad(),
        rollRad: numbers.rollRad(),
        waistXUm: numbers.waistXUm(),
        waistYUm: numbers.waistYUm(),
      },
      count,
      out,
    )
    const nearPassed = nearFace.transmission()
    const farPassed = farFace.transmission()
    for (let i = 0; i < count; i++) {
      const ratio = (out[i] as number) * (nearPassed[i] as number) * (farPassed[i] as number)
      out[i] = ratio > NO_LIGHT_RATIO ? 0 - 10 * Math.log10(ratio) : columns.valueAt(parts.lossDb, i)
    }
  })
}
