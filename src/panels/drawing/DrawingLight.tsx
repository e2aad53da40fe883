// What light adds to a drawing: the rays that the faces send back, with their return loss, and the pointing angle.

import type { JointView } from '../../analysis/results/evaluation'
import type { FaceReflection } from '../../analysis/results/lightResults'
import { returnLossText } from '../../analysis/verdicts/lightVerdicts'
import type { JointPlane } from '../../figures/drawing/jointPlane'
import type { JointShapeOptions } from '../../figures/drawing/jointShapeOptions'
import { nearSide, reachUm } from '../../figures/drawing/nearSide'
import { type Scale, transversePx, zPx } from '../../figures/drawing/scale'
import { textWidthPx } from '../../figures/render/textWidth'
import { fixedText } from '../../numerics/numberText'
import './drawingLight.css'

const NEAR_RAY_PX = 190
const FAR_RAY_PX = 190
const ASIDE_PX = 30
/** The axes in the lower left corner begin this far above the edge. */
const TRIAD_PX = 58
/** Rays this near to the axis would lie on it. */
const ALONG_SINE = 0.1
const ARROW_PX = 8
const ARC_PX = 260
/** A label is this far from the dashed line of a mode. */
const OFF_MODE_PX = 13
const LABEL_PX = 14
/** The type of a label, and what is left free between it and an edge. */
const TEXT_PX = 12
const OFF_EDGE_PX = 7
/** A label below its arrow begins right of the name of the upward axis. */
const LEAST_BELOW_PX = 40
/** Left of this a ray's label would leave the view. */
const LEAST_END_PX = 130
/** A ray ends this far from the lower edge, so that its label stays whole, and below the names at the upper one. */
const EDGE_PX = 14
const NAMES_PX = 44
const LEAST_ARC_PX = 60
/** Angles smaller than this are not dimensioned. */
const LEAST_RAD = 1e-5
const DEG = 180 / Math.PI

interface Ray {
  readonly face: FaceReflection
  readonly fromZUm: number
  readonly fromVUm: number
  /** Direction, against z. */
  readonly towardsRad: number
  readonly lengthPx: number
  /** Rays that run back along the axis are drawn next to it: the near face's below, the far face's above. */
  readonly asidePx: number
}

/** Where a ray of direction `rad` goes from a face whose normal is tilted by `normalRad`. */
const mirrored = (rad: number, normalRad: number) => Math.PI + 2 * normalRad - rad

function raysOf(view: JointView, plane: JointPlane, reflections: readonly FaceReflection[]): readonly Ray[] {
  const own = reflections.filter((each) => each.elementId === view.elementId && each.intoNearDb !== null)
  return own.flatMap((face): readonly Ray[] => {
    if (face.face === 'near') {
      return [
        {
          face,
          fromZUm: -view.joint.gapUm,
          fromVUm: plane.centreVUm,
          towardsRad: mirrored(plane.nearAxisRad, -Math.atan(plane.nearFaceSlope)),
          lengthPx: NEAR_RAY_PX,
          asidePx: ASIDE_PX,
        },
      ]
    }
    if (face.face !== 'far') return []
    return [
      {
        face,
        fromZUm: 0,
        fromVUm: 0,
        towardsRad: mirrored(plane.beamRad, -Math.atan(plane.farFaceSlope)),
        lengthPx: FAR_RAY_PX,
        asidePx: -ASIDE_PX,
      },
    ]
  })
}

/** A distance from the axis, as near to `asidePx` as leaves the label of the ray off the edge of the mode it lies in. */
function offMode(asidePx: number, modeHalfPx: number): number {
  const far = Math.abs(asidePx)
  if (Math.abs(far - modeHalfPx) >= OFF_MODE_PX) return asidePx
  const inside = modeHalfPx - OFF_MODE_PX
  return Math.sign(asidePx) * (inside >= OFF_MODE_PX ? inside : modeHalfPx + OFF_MODE_PX)
}

/** How much of the ray from (x, y) stays in the view, with its label. */
function lengthInView(ray: Ray, x: number, y: number, heightPx: number): number {
  const [cosine, sine] = [Math.cos(ray.towardsRad), Math.sin(ray.towardsRad)]
  const besidePx = x - LEAST_END_PX
  const toSide = cosine < 0 ? (besidePx < 2 * ARROW_PX ? x - ARROW_PX : besidePx) / -cosine : ray.lengthPx
  const edge = sine > 0 ? y - NAMES_PX : heightPx - EDGE_PX - y
  const toEdge = sine === 0 ? ray.lengthPx : edge / Math.abs(sine)
  return Math.max(2 * ARROW_PX, Math.min(ray.lengthPx, toSide, toEdge))
}

/** The words at the end of a ray, and how far it goes for them to be whole: with the name of the face where there is space. */
interface RayEnd {
  readonly lengthPx: number
  readonly named: boolean
  /** Below the arrow, where a face near the left edge leaves no space before it. */
  readonly below: boolean
}

/**
 * A ray against the light ends within the fibre side, whose edge is `edgePx` from the left: its label lies neither in the light
 * nor across that edge. Null if it does not fit.
 */
function endWithin(ray: Ray, x: number, edgePx: number): RayEnd | null {
  const endX = Math.min(x - ray.lengthPx, edgePx - OFF_EDGE_PX)
  const spacePx = endX - LABEL_PX / 2 - OFF_EDGE_PX
  const lossPx = textWidthPx(returnLossText(ray.face.intoNearDb), TEXT_PX)
  const namePx = textWidthPx(`${ray.face.label} `, TEXT_PX)
  return spacePx < lossPx ? null : { lengthPx: x - endX, named: spacePx >= namePx + lossPx, below: false }
}

function RayLine({
  ray,
  scale,
  modeHalfPx,
  reachPx,
}: {
  readonly ray: Ray
  readonly scale: Scale
  /** Half the mode of the near side, which the label lies in. */
  readonly modeHalfPx: number
  /** How far to the right the fibre side reaches between two heights of the picture. */
  readonly reachPx: (topPx: number, bottomPx: number) => number
}) {
  const x = zPx(scale, ray.fromZUm)
  const along = Math.abs(Math.sin(ray.towardsRad)) < ALONG_SINE
  const axisY = transversePx(scale, ray.fromVUm)
  const asidePx = Math.min(
    offMode(ray.asidePx, modeHalfPx),
    Math.max(ASIDE_PX / 2, 2 * scale.middleYPx - TRIAD_PX - axisY),
  )
  const y = along ? Math.max(NAMES_PX, axisY + asidePx) : axisY
  const besidePx = (atY: number) => reachPx(atY - LABEL_PX / 2, atY + LABEL_PX / 2)
  const within = along && ray.face.face === 'far' ? endWithin(ray, x, besidePx(y)) : null
  const inViewPx = lengthInView(ray, x, y, 2 * scale.middleYPx)
  const isBelow = x + inViewPx * Math.cos(ray.towardsRad) < LEAST_END_PX
  const { lengthPx, named, below } = within ?? {
    lengthPx: inViewPx,
    named: !isBelow,
    below: isBelow,
  }
  const endX = x + lengthPx * Math.cos(ray.towardsRad)
  const endY = y - lengthPx * Math.sin(ray.towardsRad)
  const wing = (turn: number) => {
    const back = ray.towardsRad + Math.PI + turn
    return `M${endX} ${endY}l${ARROW_PX * Math.cos(back)} ${-ARROW_PX * Math.sin(back)}`
  }
  const loss = returnLossText(ray.face.intoNearDb)
  // Right of the axes, and left of the edge of the fibre side where that is near.
  const belowX = Math.min(TRIAD_PX, besidePx(endY + LABEL_PX) - OFF_EDGE_PX - textWidthPx(loss, TEXT_PX))
  return (
    <g data-ray={ray.face.face}>
      <path d={`M${x} ${y}L${endX} ${endY}${wing(0.4)}${wing(-0.4)}`} />
      <text
        x={below ? Math.max(LEAST_BELOW_PX, belowX) : endX - LABEL_PX / 2}
        y={below ? endY + LABEL_PX : endY}
        textAnchor={below ? 'start' : 'end'}
        dominantBaseline="central"
      >
        {named ? `${ray.face.label.toLowerCase()} ` : ''}
        {loss}
      </text>
    </g>
  )
}

/** The angle between the fibre's axis and the chip's, as a dimension at the fibre. */
function PointingAngle({
  plane,
  gapUm,
  pointingRad,
  scale,
}: {
  readonly plane: JointPlane
  readonly gapUm: number
  readonly pointingRad: number
  readonly scale: Scale
}) {
  const x = zPx(scale, -gapUm)
  const y = transversePx(scale, plane.centreVUm)
  const arcPx = Math.min(ARC_PX, Math.max(LEAST_ARC_PX, x - 2 * EDGE_PX))
  const onAxisX = x - arcPx * Math.cos(plane.nearAxisRad)
  const onAxisY = y + arcPx * Math.sin(plane.nearAxisRad)
  const sweep = plane.nearAxisRad > 0 ? 0 : 1
  return (
    <g className="drawn-pointing" data-pointing>
      <path d={`M${x} ${y}H${x - arcPx - 20}`} />
      <path d={`M${x - arcPx} ${y}A${arcPx} ${arcPx} 0 0 ${sweep} ${onAxisX} ${onAxisY}`} />
      <text x={x - arcPx + 8} y={plane.nearAxisRad > 0 ? y - 6 : y + LABEL_PX + 2}>
        {`pointing ${fixedText(pointingRad * DEG, 2)}°`}
      </text>
    </g>
  )
}

export function DrawingLight({
  reflections,
  ...options
}: JointShapeOptions & { readonly reflections: readonly FaceReflection[] }) {
  const { axis, view, plane, parts, scale } = options
  const { tip, mfdXUm, mfdYUm } = view.near
  const modeUm = axis === 'x' ? (tip?.modeMfdXUm ?? mfdXUm) : (tip?.modeMfdYUm ?? mfdYUm)
  const pointingRad = axis === 'x' ? view.pointingXRad : view.pointingYRad
  // Rays are drawn in the plane in which the faces are angled.
  const rays = parts.facePlane === axis ? raysOf(view, plane, reflections) : []
  const bodies = rays.length === 0 ? [] : nearSide(options).bodies
  const reachAt = (yPx: number) => reachUm(bodies, (scale.middleYPx - yPx) / scale.pxPerUm)
  const reachPx = (topPx: number, bottomPx: number) => zPx(scale, Math.min(reachAt(topPx), reachAt(bottomPx)))
  return (
    <g className="drawn-light">
      {rays.map((ray) => (
        <RayLine
          key={ray.face.face}
          ray={ray}
          scale={scale}
          modeHalfPx={(modeUm / 2) * scale.pxPerUm}
          reachPx={reachPx}
        />
      ))}
      {Math.abs(pointingRad) > LEAST_RAD && (
        <PointingAngle plane={plane} gapUm={view.joint.gapUm} pointingRad={pointingRad} scale={scale} />
      )}
    </g>
  )
}
