// A relay as the drawing needs it: lenses, device, beam edges and chief ray along the axis.

import type { RelayElement } from '../../../model/schema/candidate'
import {
  beamRadiusUm,
  chainMatrices,
  freeSpace,
  type PlacedBeam,
  rayleighRangeUm,
  transformBeam,
} from '../../../optics/index'
import type { LensView, RelayStation, RelayView } from '../../results/evaluation'
import { backwards } from '../faces/curvedMirror'
import type { Values } from '../vector/valueReaders'
import type { LensReaders } from './lensReaders'
import type { RelayLens } from './relayGeometry'
import { collimatedBeam, relayState, reversedRelay } from './relayOptics'
import { relayRays } from './relayRays'
import type { RelayAt, RelayReader } from './relayReader'

const STEPS = 16

function lensView(
  readers: LensReaders,
  lens: RelayLens,
  frontZUm: number,
  beam: RelayAt['state']['lens1'],
  fromChip: RelayAt['state']['lens1'],
  v: Values,
): LensView {
  const [frontRadiusUm, backRadiusUm] = readers.radiiUm(v)
  return {
    name: readers.lens.name,
    frontZUm,
    thicknessUm: lens.thicknessUm,
    apertureDiameterUm: readers.apertureDiameterUm(v),
    frontRadiusUm,
    backRadiusUm,
    offsetXUm: lens.offsetXUm,
    offsetYUm: lens.offsetYUm,
    tiltXRad: lens.tiltXRad,
    tiltYRad: lens.tiltYRad,
    beamRadiusXUm: beam.radiusXUm,
    beamRadiusYUm: beam.radiusYUm,
    fromChipRadiusXUm: fromChip.radiusXUm,
    fromChipRadiusYUm: fromChip.radiusYUm,
  }
}

export function relayView(element: RelayElement, relay: RelayReader, at: RelayAt, v: Values): RelayView {
  const { numbers, state } = at
  const { geometry, near, far } = numbers
  const { frontGapUm, stretchUm, backGapUm } = state
  const lens1Z = frontGapUm
  const lens2Z = frontGapUm + geometry.lens1.thicknessUm + stretchUm
  const endZ = lens2Z + geometry.lens2.thicknessUm + backGapUm
  const deviceLengthUm = geometry.deviceLengthUm
  const collimated = collimatedBeam(geometry, state)
  const back = relayState(reversedRelay(geometry, state, backwards))
  const atNear = (image: PlacedBeam) => 2 * beamRadiusUm(image, back.backGapUm - image.waistDistanceUm)
  return {
    elementId: element.id,
    near,
    far,
    lensPaths: [relay.lens1.path, relay.lens2.path],
    lenses: [
      lensView(relay.lens1, geometry.lens1, lens1Z, state.lens1, back.lens2, v),
      lensView(relay.lens2, geometry.lens2, lens2Z, state.lens2, back.lens1, v),
    ],
    device:
      relay.device === null || element.device === undefined
        ? null
        : {
            name: element.device.name,
            startZUm: lens1Z + geometry.lens1.thicknessUm + (stretchUm - deviceLengthUm) / 2,
            lengthUm: deviceLengthUm,
            apertureDiameterUm: relay.device.apertureDiameterUm(v),
          },
    lengthUm: endZ,
    stretchUm,
    collimatedMfdUm: 2 * collimated.waistRadiusUm,
    collimatedRayleighUm: rayleighRangeUm(collimated),
    fromChipAtNearUm: [atNear(back.imageX), atNear(back.imageY)],
    magnification: (2 * state.imageX.waistRadiusUm) / geometry.emitterMfdXUm,
    rays:
      relay.lens1.real === null && relay.lens2.real === null
        ? { x: [], y: [] }
        : relayRays(geometry, state, [relay.lens1.real?.(v) ?? null, relay.lens2.real?.(v) ?? null]),
    path: stations(at),
  }
}

/** Edges and chief ray in the three spaces; inside the lenses the drawing joins the ends by straight lines. */
function stations({ numbers: { geometry: g }, state }: RelayAt): readonly RelayStation[] {
  const { frontGapUm, stretchUm, backGapUm } = state
  const beam = (mfdUm: number, waistDistanceUm: number): PlacedBeam => ({
    waistRadiusUm: mfdUm / 2,
    waistDistanceUm,
    wavelengthUm: g.wavelengthUm,
    index: g.mediumIndex,
  })
  const lens1Back = chainMatrices([freeSpace(frontGapUm), g.lens1.matrix])
  const startX = beam(g.emitterMfdXUm, g.waistXUm)
  const startY = beam(g.emitterMfdYUm, g.waistYUm)
  const backZ = frontGapUm + g.lens1.thicknessUm + stretchUm + g.lens2.thicknessUm
  const exit = { x: state.chiefX, y: state.chiefY }
  const entry = {
    x: { heightUm: g.offsetXUm, slopeRad: g.tiltXRad },
    y: { heightUm: g.offsetYUm, slopeRad: g.tiltYRad },
  }
  const front = space(0, frontGapUm, startX, startY, entry.x, entry.y)
  const middleX = transformBeam(lens1Back, startX)
  const middleY = transformBeam(lens1Back, startY)
  const last = space(backZ, backGapUm, state.imageX, state.imageY, exit.x, exit.y)
  const [atLens1, atLens2] = [front.at(-1), last[0]]
  const chief1 = { x: atLens1?.chiefXUm ?? 0, y: atLens1?.chiefYUm ?? 0 }
  const chief2 = { x: atLens2?.chiefXUm ?? 0, y: atLens2?.chiefYUm ?? 0 }
  const length = Math.max(stretchUm, Number.MIN_VALUE)
  const middle = space(
    frontGapUm + g.lens1.thicknessUm,
    stretchUm,
    middleX,
    middleY,
    { heightUm: chief1.x, slopeRad: (chief2.x - chief1.x) / length },
    { heightUm: chief1.y, slopeRad: (chief2.y - chief1.y) / length },
  )
  return [...front, ...middle, ...last]
}

function space(
  fromZUm: number,
  lengthUm: number,
  x: PlacedBeam,
  y: PlacedBeam,
  chiefX: { readonly heightUm: number; readonly slopeRad: number },
  chiefY: { readonly heightUm: number; readonly slopeRad: number },
): readonly RelayStation[] {
  const radius = (beam: PlacedBeam, z: number) =>
    beam.waistRadiusUm * Math.hypot(1, (z - beam.waistDistanceUm) / rayleighRangeUm(beam))
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const z = (lengthUm * i) / STEPS
    return {
      zUm: fromZUm + z,
      radiusXUm: radius(x, z),
      radiusYUm: radius(y, z),
      chiefXUm: chiefX.heightUm + z * chiefX.slopeRad,
      chiefYUm: chiefY.heightUm + z * chiefY.slopeRad,
    }
  })
}
