// A relay's lenses as pictures: the wavefront that each makes of the mode, and the spots of rays at the far face.

import type { SpotPicture, WavefrontPicture } from '../../analysis/results/lensPictures'
import { fixedText } from '../../numerics/numberText'
import { extent } from '../axes'
import { type Axis, type Chart, chart, type Series } from '../chart'
import type { Figure } from '../figure'

/** The scale of a wavefront never shows less, in waves: less is a perfect lens. */
const LEAST_WAVES = 0.02
const SHOWN_RADII = 2
const OUTLINE_STEPS = 72

const radii = (title: string, reach: number): Axis => ({
  title,
  unit: '1/e² radii',
  from: -reach,
  to: reach,
  digits: 2,
})

/** Path error over the beam, at best focus. */
export function wavefrontFigure(id: string, picture: WavefrontPicture, guide: string): Figure<Chart> {
  const { side, reach, errorWaves, rmsWaves, strehl, lensName } = picture
  const positions = Float64Array.from({ length: side }, (_, i) => reach * ((2 * i) / (side - 1) - 1))
  // Beyond two radii hardly any light is left: neither the picture nor its scale goes further.
  const within = errorWaves.map((value, i) =>
    Math.hypot(positions[i % side] ?? 0, positions[Math.floor(i / side)] ?? 0) <= SHOWN_RADII
      ? value
      : Number.NaN,
  )
  const rows = Array.from({ length: side }, (_, j) => within.subarray(j * side, (j + 1) * side))
  const [least, most] = extent(within)
  const end = Math.max(LEAST_WAVES, -least, most)
  return {
    id,
    sentence: `${lensName}, wavefront of ${guide} in the collimated beam at best focus: ${fixedText(rmsWaves, 3)} waves rms, Strehl ratio ${fixedText(strehl, 3)}, both weighted by the power of the mode.`,
    picture: chart(
      radii('x', SHOWN_RADII),
      radii('y', SHOWN_RADII),
      [
        {
          kind: 'map',
          x: positions,
          y: positions,
          rows,
          scale: 'signed',
          from: -end,
          to: end,
          title: 'Wavefront error',
          unit: 'waves',
          digits: 3,
        },
      ],
      { equalAxes: true },
    ),
    table: {
      columns: [
        { label: 'x', unit: '1/e² radii' },
        { label: 'y', unit: '1/e² radii' },
        { label: 'Wavefront error', unit: 'waves' },
      ],
      rows: Array.from(errorWaves, (value, i) => [
        positions[i % side] ?? 0,
        positions[Math.floor(i / side)] ?? 0,
        Number.isNaN(value) ? 'no ray' : value,
      ]),
    },
  }
}

/** Groups of rays by the height at which they leave, 1/e^2 radii, with their looks. */
const GROUPS = [
  { upTo: 0.76, name: 'inner half of the beam', tone: 'accent', mark: 'circle' },
  { upTo: 1.01, name: 'up to the 1/e² radius', tone: 'ink', mark: 'square' },
  { upTo: Number.POSITIVE_INFINITY, name: 'beyond it', tone: 'quiet', mark: 'cross' },
] as const

/** Where rays from the near guide meet the far face, about the far mode. */
export function spotFigure(id: string, spots: SpotPicture): Figure<Chart> {
  const { xUm, yUm, radii: heights, receiverRadiusXUm, receiverRadiusYUm } = spots
  const outline = (along: (angle: number) => number, radius: number) =>
    Float64Array.from(
      { length: OUTLINE_STEPS + 1 },
      (_, i) => radius * along((2 * Math.PI * i) / OUTLINE_STEPS),
    )
  const ring = { x: outline(Math.cos, receiverRadiusXUm), y: outline(Math.sin, receiverRadiusYUm) }
  const [x0, x1] = extent(xUm, ring.x)
  const [y0, y1] = extent(yUm, ring.y)
  const half = 0.56 * Math.max(x1 - x0, y1 - y0)
  const axis = (title: string, low: number, high: number): Axis => ({
    title,
    unit: 'µm',
    from: (low + high) / 2 - half,
    to: (low + high) / 2 + half,
    digits: 2,
  })
  let from = -1
  const groups = GROUPS.map(({ upTo, ...look }) => {
    const chosen = Array.from(heights.keys()).filter((i) => {
      const height = heights[i] ?? 0
      return height > from && height <= upTo
    })
    from = upTo
    const series: Series = {
      kind: 'points',
      ...look,
      x: chosen.map((i) => xUm[i] ?? 0),
      y: chosen.map((i) => yUm[i] ?? 0),
      sizePx: 5,
    }
    return series
  })
  return {
    id,
    sentence:
      'Ray spots of the fibre-side mode at the chip-side face. The ring is the 1/e² edge of the receiving mode; diffraction is not included.',
    picture: chart(
      axis('x', x0, x1),
      axis('y', y0, y1),
      [
        { kind: 'line', name: 'receiving mode, 1/e²', ...ring, tone: 'ink', weight: 'fine', unread: true },
        ...groups,
      ],
      { equalAxes: true },
    ),
    table: {
      columns: [
        { label: 'Height at lens 1', unit: '1/e² radii' },
        { label: 'x', unit: 'µm' },
        { label: 'y', unit: 'µm' },
      ],
      rows: Array.from(heights, (height, i) => [height, xUm[i] ?? 0, yUm[i] ?? 0]),
    },
  }
}
