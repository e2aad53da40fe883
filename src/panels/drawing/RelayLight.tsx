// What the faces of a relay send back, as rays over the top view with their return loss.
// Labels stand left of their faces. Of those that would overlap, the later stands higher, so that no line crosses a label.

import type { RelayView } from '../../analysis/evaluation'
import type { FaceReflection } from '../../analysis/light/lightResults'
import { returnLossText } from '../../analysis/light/lightVerdicts'
import type { RelayPlane } from '../../report/figures/relaySection'
import './sectionLight.css'

const LOWEST_PX = 46
const ROW_PX = 16
const MOST_ROWS = 3
const TAIL_PX = 18
const WING_PX = 6
/** Room that a letter is given. */
const LETTER_PX = 7.5
const APART_PX = 8

/** Places of the faces along z, um, by their labels. */
function facePlaces({ lenses, lengthUm }: RelayView): ReadonlyMap<string, number> {
  const ends = lenses.flatMap(({ frontZUm, thicknessUm }, i) => [
    [`Lens ${i + 1}, first face`, frontZUm] as const,
    [`Lens ${i + 1}, last face`, frontZUm + thicknessUm] as const,
  ])
  return new Map([['Near face', 0], ...ends, ['Far face', lengthUm]])
}

interface Ray {
  readonly label: string
  readonly text: string
  readonly xPx: number
  readonly yPx: number
}

function raysOf(view: RelayView, plane: RelayPlane, reflections: readonly FaceReflection[]): readonly Ray[] {
  const places = facePlaces(view)
  /** Where the labels of each row end, from the lowest row up. */
  const ends: number[] = []
  return reflections
    .filter((each) => each.elementId === view.elementId && each.intoNearDb !== null)
    .flatMap(({ label, intoNearDb }) => {
      const zUm = places.get(label)
      return zUm === undefined
        ? []
        : [{ label, xPx: plane.z(zUm), text: `${label.toLowerCase()} ${returnLossText(intoNearDb)}` }]
    })
    .toSorted((a, b) => a.xPx - b.xPx)
    .map((ray) => {
      const fromPx = ray.xPx - TAIL_PX - LETTER_PX * ray.text.length - APART_PX
      const free = ends.findIndex((end) => end < fromPx)
      const row = Math.min(free < 0 ? ends.length : free, MOST_ROWS - 1)
      // What stands higher must not be reached under by what follows.
      for (let i = 0; i <= row; i++) ends[i] = Math.max(ends[i] ?? 0, ray.xPx)
      return { ...ray, yPx: LOWEST_PX - ROW_PX * row }
    })
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
  return (
    <g className="drawn-light">
      {raysOf(view, plane, reflections).map(({ label, text, xPx, yPx }) => (
        <g key={label} data-ray={label}>
          <path
            d={`M${xPx} ${plane.v(0)}V${yPx}h${-TAIL_PX}m${WING_PX} ${-WING_PX / 2}l${-WING_PX} ${WING_PX / 2}l${WING_PX} ${WING_PX / 2}`}
          />
          <text x={xPx - TAIL_PX - APART_PX / 2} y={yPx} textAnchor="end" dominantBaseline="central">
            {text}
          </text>
        </g>
      ))}
    </g>
  )
}
