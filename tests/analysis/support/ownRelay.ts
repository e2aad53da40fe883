// A two-lens relay written once more for tests, apart from the app's: rays are refracted at each tilted and displaced surface by
// its centre of curvature, beams are carried by their complex parameter, and the overlap is the closed integral of two complex
// Gaussians, plane by plane. Source of the formulas: A. E. Siegman, Lasers (1986), ch. 15 and 20 (from memory); Gaussian integral.

/** One lens: two surfaces with the glass between; radii positive with the centre towards the chip. Micrometres, radians. */
export interface OwnLens {
  readonly index: number
  readonly thicknessUm: number
  readonly radius1Um: number
  readonly radius2Um: number
  /** A thin lens by its focal length instead, where given. */
  readonly focalUm?: number
}

/** x, y, z, tilt x, tilt y of the fibre and of both lenses. z along the light. */
export type OwnPose = readonly [x: number, y: number, z: number, tiltX: number, tiltY: number]
export interface OwnPoses {
  readonly guide: OwnPose
  readonly lens1: OwnPose
  readonly lens2: OwnPose
}

export interface OwnRelay {
  readonly wavelengthUm: number
  readonly mediumIndex: number
  readonly emitterMfdUm: readonly [x: number, y: number]
  readonly receiverMfdUm: readonly [x: number, y: number]
  readonly frontUm: number
  readonly stretchUm: number
  readonly backUm: number
  readonly lens1: OwnLens
  readonly lens2: OwnLens
}

export const AT_REST: OwnPose = [0, 0, 0, 0, 0]

/** A beam in one plane: its axis, and its complex parameter q = z + i zR. */
export interface Beam {
  height: number
  slope: number
  qRe: number
  qIm: number
}

export function travel(beam: Beam, um: number): void {
  beam.height += um * beam.slope
  beam.qRe += um
}

/** Refraction at a sphere whose vertex is at `vertex`, its axis sloping by `tilt`; with the indices exchanged, its inverse. */
export function refract(
  beam: Beam,
  n1: number,
  n2: number,
  radiusUm: number,
  vertex: number,
  tilt: number,
): void {
  const power = (n2 - n1) / radiusUm
  const bend = Number.isFinite(radiusUm)
    ? -power * (beam.height - (vertex + radiusUm * tilt))
    : (n2 - n1) * tilt
  beam.slope = (n1 * beam.slope + bend) / n2
  matrix(beam, 1, 0, -(Number.isFinite(radiusUm) ? power : 0) / n2, n1 / n2)
}

/** q -> (a q + b) / (c q + d). */
function matrix(beam: Beam, a: number, b: number, c: number, d: number): void {
  const [topRe, topIm] = [a * beam.qRe + b, a * beam.qIm]
  const [lowRe, lowIm] = [c * beam.qRe + d, c * beam.qIm]
  const size = lowRe * lowRe + lowIm * lowIm
  beam.qRe = (topRe * lowRe + topIm * lowIm) / size
  beam.qIm = (topIm * lowRe - topRe * lowIm) / size
}

function throughLens(beam: Beam, lens: OwnLens, medium: number, offset: number, tilt: number): void {
  if (lens.focalUm !== undefined) {
    beam.slope -= (beam.height - offset) / lens.focalUm
    matrix(beam, 1, 0, -1 / lens.focalUm, 1)
    return
  }
  const half = (lens.thicknessUm / 2) * tilt
  refract(beam, medium, lens.index, lens.radius1Um, offset - half, tilt)
  travel(beam, lens.thicknessUm)
  refract(beam, lens.index, medium, lens.radius2Um, offset + half, tilt)
}

/** Loss of one plane, dB: |int f1 f2*|^2 of a beam off and sloped against a waist of radius w2 on the axis. */
function planeLossDb({ height, slope, qRe, qIm }: Beam, w2: number, k: number): number {
  // f1 = exp(-i k ((x - h)^2 / 2q + s (x - h))), f2 = exp(-x^2 / w2^2); exponent -a x^2 + b x + c.
  const size = qRe * qRe + qIm * qIm
  const [curveRe, curveIm] = [(k * qIm) / (2 * size), (k * qRe) / (2 * size)] // i k / 2q
  const [aRe, aIm] = [curveRe + 1 / (w2 * w2), curveIm]
  const [bRe, bIm] = [2 * curveRe * height, 2 * curveIm * height - k * slope]
  const cRe = -curveRe * height * height
  const aSize = Math.hypot(aRe, aIm)
  // Re(b^2 / 4a)
  const [b2Re, b2Im] = [bRe * bRe - bIm * bIm, 2 * bRe * bIm]
  const quotient = (b2Re * aRe + b2Im * aIm) / (4 * aSize * aSize)
  const powers = Math.sqrt(Math.PI / (2 * curveRe)) * Math.sqrt(Math.PI / 2) * w2
  return -10 * Math.log10(((Math.PI / aSize) * Math.exp(2 * (quotient + cRe))) / powers)
}

/** Loss of the joint of the image with the receiver, dB: no faces, no apertures, no aberration. */
export function ownRelayLossDb(relay: OwnRelay, { guide, lens1, lens2 }: OwnPoses): number {
  const { wavelengthUm, mediumIndex } = relay
  const k = (2 * Math.PI * mediumIndex) / wavelengthUm
  return [0, 1].reduce((sum, plane) => {
    const of = (pose: OwnPose) => [pose[plane] ?? 0, pose[3 + plane] ?? 0] as const
    const [height, slope] = of(guide)
    const w1 = (relay.emitterMfdUm[plane] ?? 1) / 2
    const beam: Beam = { height, slope, qRe: 0, qIm: (k * w1 * w1) / 2 }
    travel(beam, relay.frontUm - guide[2] + lens1[2])
    throughLens(beam, relay.lens1, mediumIndex, ...of(lens1))
    travel(beam, relay.stretchUm - lens1[2] + lens2[2])
    throughLens(beam, relay.lens2, mediumIndex, ...of(lens2))
    travel(beam, relay.backUm - lens2[2])
    return sum + planeLossDb(beam, (relay.receiverMfdUm[plane] ?? 1) / 2, k)
  }, 0)
}

/** Pose names in the order of OwnPose. */
export const OWN_AXES = ['offsetX', 'offsetY', 'offsetZ', 'tiltX', 'tiltY'] as const
export type OwnAxis = (typeof OWN_AXES)[number]

const STEPS = [1e-1, 1e-1, 0, 1e-3, 1e-3]

/** The least of a function that is quadratic in the free entries of `at`: Newton's step from second differences, taken twice. */
function quadraticBest(f: (at: OwnPose) => number, at: OwnPose, free: readonly number[]): OwnPose {
  let best = [...at]
  const value = (moves: readonly (readonly [number, number])[]) => {
    const trial = [...best]
    for (const [i, by] of moves) trial[i] = (trial[i] ?? 0) + by
    return f(trial as unknown as OwnPose)
  }
  for (let n = 0; n < 2; n++) {
    const step = (i: number) => STEPS[i] ?? 0
    const here = value([])
    const system = free.map((i) => [
      ...free.map((j) => {
        const both = (a: number, b: number) =>
          value([
            [i, a * step(i)],
            [j, b * step(j)],
          ]) // prettier-ignore
        return i === j
          ? (value([[i, step(i)]]) - 2 * here + value([[i, -step(i)]])) / step(i) ** 2
          : (both(1, 1) - both(1, -1) - both(-1, 1) + both(-1, -1)) / (4 * step(i) * step(j))
      }),
      -(value([[i, step(i)]]) - value([[i, -step(i)]])) / (2 * step(i)),
    ])
    const move = solved(system)
    best = best.map((each, i) => each + (free.includes(i) ? (move[free.indexOf(i)] ?? 0) : 0))
  }
  return best as unknown as OwnPose
}

/** Gauss elimination of rows with the right side last. */
function solved(rows: number[][]): number[] {
  for (let k = 0; k < rows.length; k++) {
    for (let i = 0; i < rows.length; i++) {
      if (i === k) continue
      const factor = (rows[i]?.[k] ?? 0) / (rows[k]?.[k] ?? 1)
      rows[i] = (rows[i] ?? []).map((each, j) => each - factor * (rows[k]?.[j] ?? 0))
    }
  }
  return rows.map((row, k) => (row.at(-1) ?? 0) / (row[k] ?? 1))
}

/** Brute force for one member: a scan along the light about where it is, refined, and the quadratic best across it at each place. */
export function ownBest(
  f: (at: OwnPose) => number,
  from: OwnPose,
  axes: readonly OwnAxis[],
  reachUm: number,
): OwnPose {
  const free = axes.map((axis) => OWN_AXES.indexOf(axis)).filter((i) => i !== 2)
  const at = (z: number) =>
    quadraticBest(f, from.map((each, i) => (i === 2 ? z : each)) as unknown as OwnPose, free)
  if (!axes.includes('offsetZ')) return at(from[2])
  let [best, width] = [from[2], reachUm]
  while (width > 1e-4) {
    const trials = Array.from({ length: 41 }, (_, i) => best + width * (i / 20 - 1))
    best = trials.reduce((low, z) => (f(at(z)) < f(at(low)) ? z : low), best)
    width /= 10
  }
  return at(best)
}
