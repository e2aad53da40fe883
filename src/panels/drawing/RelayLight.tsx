// What the faces of a relay send back, as rays over the top view with their return loss.
// Labels are on the side of the middle of the picture. Of those that would overlap, the outer one is higher, so that no
// line crosses a label. Two labels of a row that would meet in the middle say the loss only; the name is in the tooltip. Where even
// those would meet, the weaker reflection has none.

import type { RelayView } from '../../analysis/results/evaluation'
import type { FaceReflection } from '../../analysis/results/lightResults'
import { returnLossText } from '../../analysis/verdicts/lightVerdicts'
import type { RelayPlane } from '../../figures/drawing/relayShapes'
import { textWidthPx } from '../../figures/render/textWidth'
import { typeScale } from '../../ui/figures/typeScale'
import './drawingLight.css'

const LOWEST_PX = 46
/** Labels end this far above the axis, clear of the beam and the glass about it. */
const CLEAR_PX = 15
const ROW_PX = 14.5
const MOST_ROWS = 3
const TAIL_PX = 18
const WING_PX = 6
/** Space for a letter of the smallest type. */
const LETTER_PX = 7.5
const letterPx = () => LETTER_PX * typeScale()
const APART_PX = 8
/** The type of a label. */
const TEXT_PX = 12
/** An edge of the device this near to the beginning of a label is passed by it. */
const EDGE_PX = 24

/** Places of the faces along z, um, by their labels. */
function facePositions({ lenses, lengthUm }: RelayView): ReadonlyMap<string, number> {
  const ends = lenses.flatMap(({ frontZUm, thicknessUm }, i) => [
    [`Lens ${i + 1}, first face`, frontZUm] as const,
    [`Lens ${i + 1}, last face`, frontZUm + thicknessUm] as const,
  ])
  return new Map([['Fibre-side face', 0], ...ends, ['Chip-side face', lengthUm]])
}

interface Face {
  readonly label: string
  readonly text: string
  /** The loss without the name of the face. */
  readonly lossText: string
  readonly lossDb: number
  readonly xPx: number
}

interface Ray extends Face {
  readonly yPx: number
  /** Whether the label is left of the face. */
  readonly left: boolean
}

/** Rows for faces whose labels reach `outwards` from them, from the lowest row up. */
function inRows(faces: readonly Face[], left: boolean, lowestPx: number): readonly Ray[] {
  const outwards = left ? -1 : 1
  /** How far towards the ends of the picture each row is taken. */
  const taken: number[] = []
  return faces
    .toSorted((a, b) => outwards * (b.xPx - a.xPx))
    .map((face) => {
      const nearPx = -outwards * face.xPx
      const fromPx = nearPx - TAIL_PX - letterPx() * face.text.length - APART_PX
      const free = taken.findIndex((end) => end < fromPx)
      const row = Math.min(free < 0 ? taken.length : free, MOST_ROWS - 1)
      for (let i = 0; i <= row; i++) taken[i] = nearPx // its own line passes the rows below
      return { ...face, left, yPx: lowestPx - ROW_PX * typeScale() * row }
    })
}

/** Middle of the lowest row of labels. */
const lowestRowPx = (plane: RelayPlane) =>
  Math.min(LOWEST_PX * typeScale(), plane.v(0) - CLEAR_PX * typeScale())

/** Where the labels end, px. */
export const lightNumbersPx = (plane: RelayPlane): number => lowestRowPx(plane) + (ROW_PX * typeScale()) / 2

function raysOf(
  view: RelayView,
  plane: RelayPlane,
  reflections: readonly FaceReflection[],
  edgesPx: readonly number[],
): readonly Ray[] {
  const positions = facePositions(view)
  const faces = reflections
    .filter((each) => each.elementId === view.elementId && each.intoNearDb !== null)
    .flatMap(({ label, intoNearDb }): readonly Face[] => {
      const zUm = positions.get(label)
      if (zUm === undefined) return []
      const lossText = returnLossText(intoNearDb)
      const text = `${label.toLowerCase()} ${lossText}`
      return [{ label, xPx: plane.z(zUm), text, lossText, lossDb: intoNearDb ?? 0 }]
    })
  const inLeftHalf = ({ xPx }: Face) => xPx < plane.widthPx / 2
  const lowestPx = lowestRowPx(plane)
  const left = inRows(faces.filter(inLeftHalf), false, lowestPx)
  const right = inRows(
    faces.filter((face) => !inLeftHalf(face)),
    true,
    lowestPx,
  )
  return withoutWeaker(shortened(left, right), shortened(right, left), edgesPx, TEXT_PX * typeScale())
}

/** Where a label ends towards the middle of the picture. */
const innerPx = ({ left, xPx, text }: Ray) =>
  left ? xPx - TAIL_PX - letterPx() * text.length : xPx + letterPx() * text.length

function shortened(rays: readonly Ray[], opposite: readonly Ray[]): readonly Ray[] {
  const meets = (ray: Ray) =>
    opposite.some(
      (other) =>
        other.yPx === ray.yPx &&
        (ray.left ? innerPx(ray) < innerPx(other) + APART_PX : innerPx(other) < innerPx(ray) + APART_PX),
    )
  return rays.map((ray) => (meets(ray) ? { ...ray, text: ray.lossText } : ray))
}

/** Where a label begins, past an edge of the device that would run through its first letters. */
function beginsPx({ left, xPx }: Ray, edgesPx: readonly number[]): number {
  const outwards = left ? -1 : 1
  const usualPx = left ? xPx - TAIL_PX - APART_PX / 2 : xPx + APART_PX / 2
  const near = edgesPx
    .map((edge) => outwards * (edge - usualPx))
    .filter((px) => px > -APART_PX / 2 && px < EDGE_PX)
  return near.length === 0 ? usualPx : usualPx + outwards * (Math.max(...near) + APART_PX / 2)
}

/** The labels of both halves, without that of the weaker of two reflections whose losses alone would still overlap. */
export function withoutWeaker(
  left: readonly Ray[],
  right: readonly Ray[],
  edgesPx: readonly number[],
  textPx: number,
): readonly Ray[] {
  const wide = ({ text }: Ray) => textWidthPx(text, textPx)
  const overlap = (one: Ray, other: Ray) =>
    one.yPx === other.yPx && beginsPx(one, edgesPx) + wide(one) > beginsPx(other, edgesPx) - wide(other)
  const weaker = (ray: Ray, other: Ray) =>
    ray.lossDb > other.lossDb || (ray.lossDb === other.lossDb && ray.left)
  const kept = (ray: Ray, others: readonly Ray[]) =>
    others.some((other) => (ray.left ? overlap(other, ray) : overlap(ray, other)) && weaker(ray, other))
      ? { ...ray, text: '' }
      : ray
  return [...left.map((ray) => kept(ray, right)), ...right.map((ray) => kept(ray, left))]
}

export function RelayLight({
  view,
  plane,
  reflections,
}: {
  readonly view: RelayView
  readonly plane: RelayPlane
  readonly reflections: readonly FaceReflection[]
}) {
  const { device } = view
  const edgesPx =
    device === null ? [] : [device.startZUm, device.startZUm + device.lengthUm].map((zUm) => plane.z(zUm))
  return (
    <g className="drawn-light">
      {raysOf(view, plane, reflections, edgesPx).map((ray) => {
        const { label, text, xPx, yPx, left } = ray
        return (
          <g key={label} data-ray={label}>
            <title>{label}</title>
            <path
              d={`M${xPx} ${plane.v(0)}V${yPx}h${-TAIL_PX}m${WING_PX} ${-WING_PX / 2}l${-WING_PX} ${WING_PX / 2}l${WING_PX} ${WING_PX / 2}`}
            />
            <text
              x={beginsPx(ray, edgesPx)}
              y={yPx}
              textAnchor={left ? 'end' : 'start'}
              dominantBaseline="central"
            >
              {text}
            </text>
          </g>
        )
      })}
    </g>
  )
}
