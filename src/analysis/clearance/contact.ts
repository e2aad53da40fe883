// How near a body can come to the chip along z: at every place of its silhouette its front must stay ahead of the chip's, and
// where both have flat faces the first contact is at a corner or where an edge crosses the height at which an obstacle ends.

import type { Contact } from '../results/contact'
import type { Obstacle } from './obstacles'
import type { Solid } from './solids'

/** How the guide lies against the chip; slopes and offsets as in a joint. */
export interface BodyPose {
  /** Slopes of the guide's axis. */
  readonly axisXRad: number
  readonly axisYRad: number
  readonly rollRad: number
  /** Slopes of the chip's own beam in the gap, from which offsets count. */
  readonly beamXRad: number
  readonly beamYRad: number
  readonly offsetXUm: number
  readonly offsetYUm: number
}

/** Centred, untilted, and with a straight beam: the assumed pose of the last lens of a relay. */
export const UPRIGHT_POSE: BodyPose = {
  axisXRad: 0,
  axisYRad: 0,
  rollRad: 0,
  beamXRad: 0,
  beamYRad: 0,
  offsetXUm: 0,
  offsetYUm: 0,
}

/** Where the offset follows a slanted beam, gaps are examined in this many steps, and the first interval with contact is bisected. */
const STEPS = 24
const BISECTIONS = 24
/** Number of gaps examined on the approach where the only question is whether a gap is reached. */
const LOOKS = 6
const LEANING_UM = 10_000

/** Corners of a body, turned by roll, then by the slopes of its axis. */
function turned({ corners }: Solid, pose: BodyPose): Float64Array {
  const out = new Float64Array(corners.length)
  const [cr, sr] = [Math.cos(pose.rollRad), Math.sin(pose.rollRad)]
  const [cx, sx] = [Math.cos(pose.axisXRad), Math.sin(pose.axisXRad)]
  const [cy, sy] = [Math.cos(pose.axisYRad), Math.sin(pose.axisYRad)]
  for (let i = 0; i < corners.length; i += 3) {
    const x0 = corners[i] ?? 0
    const y0 = corners[i + 1] ?? 0
    const z0 = corners[i + 2] ?? 0
    const x1 = x0 * cr - y0 * sr
    const y1 = x0 * sr + y0 * cr
    const x2 = z0 * sx + x1 * cx
    const z2 = z0 * cx - x1 * sx
    out[i] = x2
    out[i + 1] = z2 * sy + y1 * cy
    out[i + 2] = z2 * cy - y1 * sy
  }
  return out
}

interface Lead {
  gapUm: number
  xUm: number
  yUm: number
}

/** The greatest lead of a body over an obstacle, with the body's face in the middle at (cx, cy); null where they never meet. */
function lead(
  corners: Float64Array,
  { edges }: Solid,
  { fromYUm, toYUm, frontZUm, face }: Obstacle,
  cx: number,
  cy: number,
): Lead | null {
  let best: Lead | null = null
  const consider = (x: number, y: number, z: number) => {
    const gapUm = z - frontZUm - face.x * x - face.y * y
    if (best === null || gapUm > best.gapUm) best = { gapUm, xUm: x, yUm: y }
  }
  for (let i = 0; i < corners.length; i += 3) {
    const y = (corners[i + 1] ?? 0) + cy
    if (y > fromYUm && y < toYUm) consider((corners[i] ?? 0) + cx, y, corners[i + 2] ?? 0)
  }
  for (let e = 0; e < edges.length; e += 2) {
    const a = 3 * (edges[e] ?? 0)
    const b = 3 * (edges[e + 1] ?? 0)
    const ya = (corners[a + 1] ?? 0) + cy
    const yb = (corners[b + 1] ?? 0) + cy
    for (const y of [fromYUm, toYUm]) {
      if ((ya - y) * (yb - y) >= 0) continue
      const t = (y - ya) / (yb - ya)
      const along = (at: 0 | 2) => (corners[a + at] ?? 0) * (1 - t) + (corners[b + at] ?? 0) * t
      consider(along(0) + cx, y, along(2))
    }
  }
  return best
}

/** The approach: what is touched first with the end face at a gap, and the gap beyond which nothing is touched. */
function approachOf(solids: readonly Solid[], obstacles: readonly Obstacle[], pose: BodyPose) {
  const bodies = solids.map((solid) => ({
    solid,
    corners: turned(solid, pose),
  }))
  const at = (gapUm: number): Contact | null => {
    const cx = pose.offsetXUm - Math.max(0, gapUm) * Math.tan(pose.beamXRad)
    const cy = pose.offsetYUm - Math.max(0, gapUm) * Math.tan(pose.beamYRad)
    return bodies
      .flatMap(({ solid, corners }) =>
        obstacles.flatMap((obstacle): readonly Contact[] => {
          const leading = lead(corners, solid, obstacle, cx, cy)
          return leading === null ? [] : [{ ...leading, body: solid.name, obstacle: obstacle.name }]
        }),
      )
      .reduce<Contact | null>((best, each) => (best === null || each.gapUm > best.gapUm ? each : best), null)
  }
  return {
    at,
    isStraight: pose.beamXRad === 0 && pose.beamYRad === 0,
    farthestUm: farthestOf(bodies, obstacles, pose),
  }
}

/**
 * Gap at which the body would touch if it came straight in from where it is at `gapUm`, um; null where nothing is in the way. The gap
 * is below contact where it is smaller.
 */
export function contactFromUm(
  solids: readonly Solid[],
  obstacles: readonly Obstacle[],
  pose: BodyPose,
  gapUm: number,
): number | null {
  return approachOf(solids, obstacles, pose).at(gapUm)?.gapUm ?? null
}

/** Whether a gap is reached, um; quicker than the contact itself. */
export function isReached(
  solids: readonly Solid[],
  obstacles: readonly Obstacle[],
  pose: BodyPose,
  gapUm: number,
): boolean {
  const { at, isStraight, farthestUm } = approachOf(solids, obstacles, pose)
  // Contact to the last bit is still reached.
  const clears = (stoodUm: number) => (at(stoodUm)?.gapUm ?? -1) <= stoodUm + 1e-9
  if (isStraight) return clears(gapUm)
  const step = Math.max(0, farthestUm - gapUm) / LOOKS
  for (let look = 0; look < LOOKS; look++) if (!clears(gapUm + look * step)) return false
  return true
}

/**
 * The smallest gap that a body reaches in a pose, and what touches there. Lengths in um, angles in rad up to 45 degrees; exact for flat
 * faces and straight edges, to 1.5e-4 of the radius for round ones.
 */
export function contactOf(
  solids: readonly Solid[],
  obstacles: readonly Obstacle[],
  pose: BodyPose,
): Contact | null {
  const { at, isStraight, farthestUm } = approachOf(solids, obstacles, pose)
  if (isStraight) return at(0)
  const touches = (gapUm: number) => (at(gapUm)?.gapUm ?? -1) > gapUm
  for (let step = STEPS - 1; step >= 0; step--) {
    let no = (farthestUm * step) / STEPS
    let yes = (farthestUm * (step + 1)) / STEPS
    if (!touches(no)) continue
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = (no + yes) / 2
      if (touches(middle)) no = middle
      else yes = middle
    }
    const found = at(no)
    return found === null ? null : { ...found, gapUm: yes }
  }
  return at(0)
}

/** No body reaches an obstacle from a gap beyond this, um: the foremost corner against the foremost front. */
function farthestOf(
  bodies: readonly { readonly corners: Float64Array }[],
  obstacles: readonly Obstacle[],
  { offsetXUm, offsetYUm }: BodyPose,
): number {
  let [reachUm, acrossUm] = [0, 0]
  for (const { corners } of bodies) {
    for (let i = 0; i < corners.length; i += 3) {
      const ahead = corners[i + 2] ?? 0
      if (ahead > reachUm) reachUm = ahead
      // Parts far behind cannot touch anything; parts that overhang the chip face can.
      if (ahead > -LEANING_UM)
        acrossUm = Math.max(acrossUm, Math.abs(corners[i] ?? 0), Math.abs(corners[i + 1] ?? 0))
    }
  }
  const leanUm = Math.abs(offsetXUm) + Math.abs(offsetYUm) + acrossUm
  return obstacles.reduce((most, { frontZUm, face }) => {
    const lean = Math.hypot(face.x, face.y)
    return Math.max(most, reachUm - frontZUm + lean * leanUm)
  }, 1)
}
