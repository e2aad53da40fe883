// A relay as a join: the joint of the image with the far guide, what the apertures clip, what faces and device take.

import type { Path } from '../../../model/issue'
import type { RelayElement } from '../../../model/schema/candidate'
import {
  atMostNoLight,
  coupledTruncation,
  jointEfficiencyAt,
  jointLossDb,
  lossDb,
  NO_LIGHT_RATIO,
  rayleighRangeUm,
} from '../../../optics/index'
import type { LineKind } from '../../results/evaluation'
import { angledFaceNotes } from '../faces/angledFaceNotes'
import { parallelReachUm } from '../faces/parallelBeam'
import { jointLines } from '../gap/jointLines'
import { MOST_ERROR_DB } from '../guides/movedAberration'
import type { ChainContext, JoinModel, LineModel, PortReaders } from '../vector/elementModels'
import type { Reader, Values } from '../vector/valueReaders'
import { aberrationNotes } from './aberrationNotes'
import { throughAperture } from './clipping'
import { lensesInLight } from './lensesInLight'
import { emptyForm, fillMemberForm } from './memberForm'
import { relayNotes, reportRelayFaults } from './relayChecks'
import { isInLine, type RelayGeometry } from './relayGeometry'
import {
  atReceiver,
  fillRelayState,
  newRelayState,
  type RelayState,
  relayJoint,
  relayState,
} from './relayOptics'
import { type RelayAt, relayReader } from './relayReader'
import { relayReflections } from './relayReflections'
import { relayView } from './relayView'

type Aperture = 'lens1' | 'device' | 'lens2'

/** Loss of the joint that the image makes at the far face, uncapped; the short way past the record and its checks. */
function imageLossDb(g: RelayGeometry, state: RelayState): number {
  const { chiefX, chiefY, imageX, imageY, backGapUm } = state
  const efficiency = jointEfficiencyAt(
    g.wavelengthUm,
    g.mediumIndex,
    2 * imageX.waistRadiusUm,
    2 * imageY.waistRadiusUm,
    g.receiverMfdXUm,
    g.receiverMfdYUm,
    chiefX.heightUm + backGapUm * chiefX.slopeRad,
    chiefY.heightUm + backGapUm * chiefY.slopeRad,
    0,
    chiefX.slopeRad,
    chiefY.slopeRad,
    g.rollRad,
    imageX.waistDistanceUm - backGapUm,
    imageY.waistDistanceUm - backGapUm,
  )
  // A sampled core without a mode has a NaN width, and its loss stays NaN.
  if (!(efficiency <= NO_LIGHT_RATIO)) return -10 * Math.log10(efficiency)
  return jointLossDb(atReceiver(relayJoint(g, state)))
}

/** Distances from the end face to lens 1 for which the beam is parallel over the stretch. */
function parallelDistancesUm(
  g: RelayGeometry,
  frontUm: number,
  focalUm: number,
): readonly [from: number, to: number] | null {
  const { wavelengthUm, mediumIndex: index } = g
  const waist = { waistRadiusUm: g.emitterMfdXUm / 2, wavelengthUm, index }
  const reach = parallelReachUm(focalUm, rayleighRangeUm(waist), g.stretchUm)
  const middle = frontUm + g.waistXUm
  return reach === null ? null : [Math.max(0, middle - reach), middle + reach]
}

export function relayJoin(
  context: ChainContext,
  element: RelayElement,
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel {
  const relay = relayReader(context, element, path, near, far)
  const { lens1, lens2, device } = relay
  const at = (v: Values): RelayAt => {
    const numbers = relay.read(v)
    return { numbers, state: relayState(numbers.geometry) }
  }
  const joint = (v: Values) => {
    const { numbers, state } = at(v)
    return relayJoint(numbers.geometry, state)
  }
  reportRelayFaults(context, element, path, relay)
  const line = (kind: LineKind, tag: string, label: string, reader: Reader): LineModel => ({
    id: `${element.id}/${tag}`,
    label,
    kind,
    provenance: 'computed',
    elementId: element.id,
    lossDb: reader,
  })
  const clipped = (state: RelayState, of: Aperture, diameterUm: number) =>
    lossDb(coupledTruncation(throughAperture(diameterUm, state[of])))
  const clipping = (of: Aperture, diameter: Reader): Reader => {
    return (v) => clipped(at(v).state, of, diameter(v))
  }
  const nearFaceLoss: Reader = (v) => lossDb(at(v).numbers.nearFace.transmission)
  const farFaceLoss: Reader = (v) => lossDb(at(v).numbers.farFace.transmission)
  const { aberration } = relay
  const aberrationDb = (geometry: RelayGeometry, state: RelayState, v: Values): number =>
    (aberration?.differenceDb(geometry, state) ?? 0) + (near.tip?.real?.aberrationDb(v) ?? 0)
  const hasAberration = aberration !== null || near.tip?.real !== undefined
  const whole = jointLines(element.id, (v) => atReceiver(joint(v)), 'Defocus')
  const deviceLines: readonly LineModel[] =
    device === null || element.device === undefined
      ? []
      : [
          {
            ...line('device', 'device', element.device.name, device.lossDb),
            provenance: element.device.loss.provenance,
          },
          line(
            'clipping',
            'clipping device',
            `Clipping, ${element.device.name}`,
            clipping('device', device.apertureDiameterUm),
          ),
        ]
  /** In the order of the light: near face, lens 1, device, lens 2, far face. */
  const others: readonly LineModel[] = [
    line('fresnel', 'fresnel near', 'Fresnel loss, fibre-side face', nearFaceLoss),
    line('fresnel', 'fresnel lens 1', 'Fresnel loss, lens 1', (v) => lossDb(lens1.transmission(v))),
    line('clipping', 'clipping lens 1', 'Clipping, lens 1', clipping('lens1', lens1.apertureDiameterUm)),
    ...deviceLines,
    line('clipping', 'clipping lens 2', 'Clipping, lens 2', clipping('lens2', lens2.apertureDiameterUm)),
    line('fresnel', 'fresnel lens 2', 'Fresnel loss, lens 2', (v) => lossDb(lens2.transmission(v))),
    line('fresnel', 'fresnel far', 'Fresnel loss, chip-side face', farFaceLoss),
  ]
  const pictureState = newRelayState()
  const form = emptyForm()
  /** The sum of the lines from one look at the optics. */
  const lossAtOnce = (v: Values, capped: boolean): number => {
    const geometry = relay.draw(v)
    fillRelayState(geometry, pictureState)
    const image = imageLossDb(geometry, pictureState)
    const joint = capped ? atMostNoLight(image) : image
    const faces = lossDb(relay.nearFace.transmission) + lossDb(relay.farFace.transmission)
    const lenses = lossDb(lens1.transmission(v)) + lossDb(lens2.transmission(v))
    const edges =
      clipped(pictureState, 'lens1', lens1.apertureDiameterUm(v)) +
      clipped(pictureState, 'lens2', lens2.apertureDiameterUm(v))
    const inside =
      device === null ? 0 : device.lossDb(v) + clipped(pictureState, 'device', device.apertureDiameterUm(v))
    const real = hasAberration ? aberrationDb(geometry, pictureState, v) : 0
    return joint + faces + lenses + edges + inside + real
  }
  return {
    lines: [
      ...others,
      ...whole.lines,
      ...(hasAberration
        ? [
            line('aberration', 'aberration', 'Aberration of the lenses', (v) => {
              const { numbers, state } = at(v)
              return aberrationDb(numbers.geometry, state, v)
            }),
          ]
        : []),
    ],
    lossDb: (v) => lossAtOnce(v, true),
    searchDb: (v) => lossAtOnce(v, false),
    ...(device !== null && { isolationDb: device.isolationDb }),
    view: (v) => {
      const { numbers } = at(v)
      const inX = element.facePlane === 'x'
      return {
        elementId: element.id,
        path,
        joint: joint(v),
        near: numbers.near,
        far: numbers.far,
        pointingXRad: inX ? relay.pointingRad : 0,
        pointingYRad: inX ? 0 : relay.pointingRad,
        isImage: true,
      }
    },
    poseForm: (v, member = 'guide') => {
      fillMemberForm(relay.draw(v), member, form)
      return form
    },
    alignmentMove: relay.alignmentMove,
    isInLine: (v) => isInLine(relay.draw(v)),
    relayFoci: (v) => {
      const [first, second] = [lens1.matrix(v), lens2.matrix(v)]
      const { geometry } = relay.read(v)
      const frontUm = -first.d / first.c
      return {
        frontUm,
        parallelUm: parallelDistancesUm(geometry, frontUm, -1 / first.c),
        focal1Um: -1 / first.c,
        focal2Um: -1 / second.c,
        modes: geometry,
      }
    },
    ...(relay.contact && { contact: relay.contact }),
    ...(aberration !== null && { aberrated: true, awaitsFit: aberration.awaitsFit }),
    // Known once a movement has been requested: a relay with faults is compiled too, and must not be traced.
    get fitMissesDb() {
      const errorDb = aberration?.fitErrorDb() ?? 0
      return errorDb > MOST_ERROR_DB ? errorDb : undefined
    },
    get beyondFitDb() {
      return aberration !== null && aberration.fitErrorDb() !== null ? aberration.beyondFitDb : undefined
    },
    relay: (v) => relayView(element, relay, at(v), v),
    ...(aberration !== null && {
      relayFields: aberration.fields,
      lensesInLight: (v: Values) => {
        const { numbers, state } = at(v)
        const shapes = [lens1.real?.(v) ?? null, lens2.real?.(v) ?? null] as const
        return lensesInLight(element.id, numbers.geometry, state, shapes, [lens1.lens.name, lens2.lens.name])
      },
    }),
    reflections: (v) => {
      const passed = (lines: readonly LineModel[]) => lines.reduce((sum, each) => sum + each.lossDb(v), 0)
      const between = {
        wholeDb: passed(others.slice(1, -1)),
        toLens2Db: passed(others.slice(1, -3)),
        toLens1Db: passed(others.slice(3, -1)),
      }
      return relayReflections(element.id, relay, element.facePlane, at(v), between, v)
    },
    notes: (v) => {
      const now = at(v)
      const { near: nearPort, far: farPort, nearFace, farFace } = now.numbers
      return [
        ...relayNotes(context.project, element, relay, now, v),
        ...aberrationNotes(element.id, relay, aberration, aberrationDb(now.numbers.geometry, now.state, v)),
        ...angledFaceNotes(element.id, context.wavelength(v), [
          { name: 'fibre-side face', port: nearPort, faceAngleRad: nearFace.faceAngleRad },
          { name: 'chip-side face', port: farPort, faceAngleRad: farFace.faceAngleRad },
        ]),
      ]
    },
  }
}
