// A two-lens relay of plano-convex lenses, once more for tests: beams by their complex parameter (support/ownRelay.ts of analysis),
// the wavefront of each lens by meridional rays traced exactly, and the overlap summed over the aperture of lens 2, so that focus,
// spherical aberration and clipping are one number. Lateral moves carry the wavefront along; the coma of a tilt is omitted.

import { AT_REST, type Beam, type OwnPose, refract, travel } from '../../../analysis/support/ownRelay'
import { db, echoShare, type OwnJoint, reflectance, type Side } from './planes'
import { type Data, type Read, type Register, still } from './quantities'

/** Thermo-optic coefficient of silicon, 1/K: common tables (from memory). */
const SILICON_PER_KELVIN = 1.8e-4

interface Lens {
  readonly radiusUm: Read
  readonly thicknessUm: Read
  readonly index: Read
  /** Reflectance of a coated face. */
  readonly face: Read
  readonly halfApertureUm: Read
}

function lensOf({ quantity, index }: Register, { id, shape, glass, coating, clearAperture }: Data): Lens {
  if (shape.kind !== 'plano-convex') throw new Error('plano-convex lenses only')
  const aperture = quantity(`${id} aperture`, clearAperture)
  return {
    radiusUm: quantity(`${id} radius`, shape.radius),
    thicknessUm: quantity(`${id} thickness`, shape.thickness),
    index: index(id, glass),
    face: quantity(`${id} coating`, coating),
    halfApertureUm: (v) => aperture(v) / 2,
  }
}

/** x, y, z, tilt x, tilt y. */
function poseOf({ quantity }: Register, label: string, of: Data): (v: Float64Array) => OwnPose {
  const axes = ['offsetX', 'offsetY', 'offsetZ', 'tiltX', 'tiltY'].map((axis) =>
    quantity(`${label} ${axis}`, of[axis]),
  )
  return (v) => AT_REST.map((_, i) => axes[i]?.(v) ?? 0) as unknown as OwnPose
}

/**
 * The path from a point on the axis, `distanceUm` before the flat face, through the lens to the plane of its convex vertex, beyond
 * the parabola that paraxial optics makes of it: w4 and w6 of w4 h^4 + w6 h^6, from two rays.
 */
function wavefront(
  distanceUm: number,
  thicknessUm: number,
  radiusUm: number,
  n: number,
): readonly [number, number] {
  const ray = (angle: number) => {
    const inside = Math.asin(Math.sin(angle) / n)
    const height = distanceUm * Math.tan(angle)
    // Along the ray from the flat face to the sphere about the centre at thickness - radius.
    const centre = thicknessUm - radiusUm
    const [dz, dh] = [Math.cos(inside), Math.sin(inside)]
    const half = -centre * dz + height * dh
    const glass = -half + Math.sqrt(half * half - (centre * centre + height * height - radiusUm * radiusUm))
    const [z, h] = [glass * dz, height + glass * dh]
    const normal = Math.asin(h / radiusUm)
    const out = normal - Math.asin(n * Math.sin(normal - inside))
    const rest = (thicknessUm - z) / Math.cos(out)
    return { path: distanceUm / Math.cos(angle) + n * glass + rest, height: h + rest * Math.sin(out) }
  }
  const straight = ray(0).path
  // The parabola: a point source by the same steps as any beam.
  const source: Beam = { height: 0, slope: 0, qRe: distanceUm, qIm: 0 }
  refract(source, 1, n, Number.POSITIVE_INFINITY, 0, 0)
  travel(source, thicknessUm)
  refract(source, n, 1, -radiusUm, 0, 0)
  const beyond = [40, 80].map((aim) => {
    const { path, height } = ray(Math.atan(aim / (distanceUm + thicknessUm / n)))
    return { over: (path - straight - height ** 2 / (2 * source.qRe)) / height ** 4, square: height ** 2 }
  })
  const [low, high] = [beyond[0] ?? { over: 0, square: 0 }, beyond[1] ?? { over: 0, square: 1 }]
  const w6 = (high.over - low.over) / (high.square - low.square)
  return [low.over - w6 * low.square, w6]
}

const POINTS = 41

/** The product of two beams of one plane at points across the aperture, as real and imaginary part; powers 1. */
function product(one: Beam, other: Beam, k: number, reachUm: number, centreUm: number) {
  const parts = [one, other].map(({ height, slope, qRe, qIm }) => {
    const size = qRe * qRe + qIm * qIm
    const [width, curve] = [(k * qIm) / (2 * size), (k * qRe) / (2 * size)]
    return { height, slope, width, curve, norm: ((2 * width) / Math.PI) ** 0.25 }
  })
  const step = (2 * reachUm) / (POINTS - 1)
  const re = new Float64Array(POINTS)
  const im = new Float64Array(POINTS)
  for (let i = 0; i < POINTS; i++) {
    const x = centreUm - reachUm + i * step
    let [size, phase] = [step, 0]
    for (const [which, { height, slope, width, curve, norm }] of parts.entries()) {
      const d = x - height
      size *= norm * Math.exp(-width * d * d)
      phase += (which === 0 ? -1 : 1) * (curve * d * d + k * slope * d)
    }
    re[i] = size * Math.cos(phase)
    im[i] = size * Math.sin(phase)
  }
  return { re, im, step }
}

/** What is inserted in the stretch: a plate, which shortens the way that the beam spreads over. */
function plateOf({ quantity, index }: Register, id: string, device: Data) {
  if (device === undefined) return { lossDb: still(0), shorterUm: still(0) }
  const [lossDb, lengthUm] = [
    quantity(`${id} device loss`, device.loss),
    quantity(`${id} device`, device.length),
  ]
  const glass = index(`${id} device`, { kind: 'value', index: device.index })
  return { lossDb, shorterUm: (v: Float64Array) => lengthUm(v) * (1 - 1 / glass(v)) }
}

export function ownRelayJoint(
  own: Register,
  element: Data,
  lenses: readonly [Data, Data],
  [from, to]: readonly [Side, Side],
  wavelengthUm: number,
): OwnJoint & { readonly image: (v: Float64Array) => Beam } {
  const of = (field: string) => own.quantity(`${element.id} ${field}`, element[field])
  const [front, stretch, back] = [of('frontGap'), of('stretch'), of('backGap')]
  const plate = plateOf(own, element.id, element.device)
  const [lens1, lens2] = [lensOf(own, lenses[0]), lensOf(own, lenses[1])]
  const guidePose = poseOf(own, element.id, element)
  const [pose1, pose2] = [
    poseOf(own, `${element.id} lens 1`, element.lens1),
    poseOf(own, `${element.id} lens 2`, element.lens2),
  ]
  const k = (2 * Math.PI) / wavelengthUm
  const radii = [
    [from.radiusX, to.radiusX],
    [from.radiusY, to.radiusY],
  ] as const
  const flat = Number.POSITIVE_INFINITY
  const waist = (w: number): Beam => ({ height: 0, slope: 0, qRe: 0, qIm: (k * w * w) / 2 })
  /** Both beams of one plane where they meet, before lens 2: the fibre's, and the one that would be the facet's. */
  const meeting = (v: Float64Array, plane: 0 | 1, raisedUm: number, warmerK: number) => {
    const at = (pose: OwnPose) => [pose[plane], pose[3 + plane] ?? 0] as const
    const [guide, one, two] = [guidePose(v), pose1(v), pose2(v)]
    const [n1, n2] = [lens1, lens2].map(({ index }) => index(v) + warmerK * SILICON_PER_KELVIN) as [
      number,
      number,
    ]
    const [t1, t2] = [lens1.thicknessUm(v), lens2.thicknessUm(v)]
    const [x1, slope1] = at(one)
    const [x2, slope2] = at(two)
    const light = waist(radii[plane][0](v))
    const [height, slope] = at(guide)
    light.height = height + (plane === 1 ? raisedUm : 0)
    light.slope = slope
    travel(light, front(v) - guide[2] + one[2])
    refract(light, 1, n1, flat, x1 - (t1 / 2) * slope1, slope1)
    travel(light, t1)
    refract(light, n1, 1, -lens1.radiusUm(v), x1 + (t1 / 2) * slope1, slope1)
    const narrow = { ...light }
    travel(light, stretch(v) - plate.shorterUm(v) - one[2] + two[2])
    const wanted = waist(radii[plane][1](v))
    travel(wanted, -(back(v) - two[2]))
    refract(wanted, 1, n2, flat, x2 + (t2 / 2) * slope2, slope2)
    travel(wanted, -t2)
    refract(wanted, n2, 1, lens2.radiusUm(v), x2 - (t2 / 2) * slope2, slope2)
    const radius = ({ qRe, qIm }: Beam) => Math.sqrt((qRe * qRe + qIm * qIm) / qIm)
    return {
      light,
      wanted,
      /** How far lens 1 and lens 2 have their convex vertices off the axis, the first as its beam arrives at the second. */
      vertices: [x1 + (t1 / 2) * slope1, x2 - (t2 / 2) * slope2] as const,
      spread: radius(light) / radius(narrow),
    }
  }
  const faces = (v: Float64Array) => [reflectance(from.index(v), 1), reflectance(to.index(v), 1)]
  return {
    lossDb: (v, raisedUm, warmerK) => {
      const x = meeting(v, 0, raisedUm, warmerK)
      const y = meeting(v, 1, raisedUm, warmerK)
      const [n1, n2] = [lens1.index(v), lens2.index(v)]
      const [a4, a6] = wavefront(front(v), lens1.thicknessUm(v), lens1.radiusUm(v), n1)
      const [b4, b6] = wavefront(back(v), lens2.thicknessUm(v), lens2.radiusUm(v), n2)
      const reach = lens2.halfApertureUm(v)
      const across = [x, y].map((each) => product(each.light, each.wanted, k, reach, each.vertices[1]))
      const [px, py] = [across[0] ?? product(x.light, x.wanted, k, reach, 0), across[1]]
      let [re, im] = [0, 0]
      for (let i = 0; i < POINTS; i++)
        for (let j = 0; j < POINTS; j++) {
          const [dx, dy] = [i * px.step - reach, j * px.step - reach]
          const square = dx * dx + dy * dy
          if (square > reach * reach) continue
          const first =
            ((dx + x.vertices[1] - x.vertices[0]) / x.spread) ** 2 +
            ((dy + y.vertices[1] - y.vertices[0]) / y.spread) ** 2
          const phase = -k * (first * first * (a4 + a6 * first) + square * square * (b4 + b6 * square))
          const [ar, ai] = [px.re[i] ?? 0, px.im[i] ?? 0]
          const [br, bi] = [py?.re[j] ?? 0, py?.im[j] ?? 0]
          const [r, m] = [ar * br - ai * bi, ar * bi + ai * br]
          re += r * Math.cos(phase) - m * Math.sin(phase)
          im += r * Math.sin(phase) + m * Math.cos(phase)
        }
      const through = [...faces(v), lens1.face(v), lens1.face(v), lens2.face(v), lens2.face(v)]
      return db(re * re + im * im) + plate.lossDb(v) + through.reduce((sum, face) => sum + db(1 - face), 0)
    },
    image: (v) => {
      const { light } = meeting(v, 0, 0, 0)
      refract(light, 1, lens2.index(v), lens2.radiusUm(v), 0, 0)
      travel(light, lens2.thicknessUm(v))
      refract(light, lens2.index(v), 1, flat, 0, 0)
      travel(light, back(v))
      return light
    },
    echoes: (v) => {
      if (element.device !== undefined) throw new Error('no echoes past a device here')
      const [near = 0, far = 0] = faces(v)
      /** Shares that the faces after the first send back into a mode: those of the lenses, then the last one. */
      const passed = (
        side: 0 | 1,
        [first, last]: readonly [number, number],
        [a, b]: readonly [Lens, Lens],
        [before, after]: readonly [number, number],
      ) => {
        let through = (1 - first) ** 2
        let sum = first
        const beams = [0, 1].map((plane) => waist((radii[plane as 0 | 1][side] as Read)(v)))
        const each = (step: (beam: Beam) => void) => beams.forEach(step)
        const meet = (face: number, n: number, radiusUm = flat) => {
          sum += through * face * beams.reduce((all, beam) => all * echoShare(beam, k * n, radiusUm), 1)
          through *= (1 - face) ** 2
        }
        const [na, nb] = [a.index(v), b.index(v)]
        each((beam) => travel(beam, before))
        meet(a.face(v), 1)
        each((beam) => {
          refract(beam, 1, na, flat, 0, 0)
          travel(beam, a.thicknessUm(v))
        })
        meet(a.face(v), na, -a.radiusUm(v))
        each((beam) => {
          refract(beam, na, 1, -a.radiusUm(v), 0, 0)
          travel(beam, stretch(v))
        })
        meet(b.face(v), 1, b.radiusUm(v))
        each((beam) => {
          refract(beam, 1, nb, b.radiusUm(v), 0, 0)
          travel(beam, b.thicknessUm(v))
        })
        meet(b.face(v), nb)
        each((beam) => {
          refract(beam, nb, 1, flat, 0, 0)
          travel(beam, after)
        })
        meet(last, 1)
        return sum
      }
      return {
        toFibre: passed(0, [near, far], [lens1, lens2], [front(v), back(v)]),
        toChip: passed(1, [far, near], [lens2, lens1], [back(v), front(v)]),
      }
    },
  }
}
