// A mode as a picture of its intensity with contours, as its phase, and as cuts in decibels.

import type { FieldCut, ModePicture } from '../../analysis/field/fieldPictures'
import { along, spanning } from '../axes'
import { type Chart, chart, type Series } from '../chart'
import type { Figure } from '../figure'

/** Contours of intensity, dB below the peak; -8.69 dB is 1/e². */
const CONTOUR_STEP_DB = 3
const FLOOR_DB = -30
const DEGREES = 180 / Math.PI

type DrawnField = ModePicture['field']

function grid(field: DrawnField) {
  return {
    x: Float64Array.from({ length: field.nx }, (_, i) => field.x0Um + i * field.dxUm),
    y: Float64Array.from({ length: field.ny }, (_, j) => field.y0Um + j * field.dyUm),
  }
}

const decibels = (re: number, im: number) =>
  Math.max(FLOOR_DB, 10 * Math.log10(Math.max(re * re + im * im, 1e-12)))

function rowsOf(field: DrawnField, values: Float64Array): readonly Float64Array[] {
  return Array.from({ length: field.ny }, (_, j) => values.subarray(j * field.nx, (j + 1) * field.nx))
}

function valueTable(field: DrawnField, label: string, unit: string, values: Float64Array): Figure['table'] {
  const { x, y } = grid(field)
  return {
    columns: [
      { label: 'x', unit: 'µm' },
      { label: 'y', unit: 'µm' },
      { label, unit },
    ],
    rows: Array.from(values, (value, i) => [
      x[i % field.nx] ?? 0,
      y[Math.floor(i / field.nx)] ?? 0,
      Number.isNaN(value) ? 'dark' : value,
    ]),
  }
}

const toScale = (field: DrawnField, series: readonly Series[]) => {
  const { x, y } = grid(field)
  return chart(along('x', 'µm', x), along('y', 'µm', y), series, { equalAxes: true })
}

/** Intensity below its peak, to 30 dB, contours every 3 dB. */
export function modeIntensityFigure(id: string, field: DrawnField, sentence: string): Figure<Chart> {
  const values = field.re.map((re, i) => decibels(re, field.im[i] ?? 0))
  const rows = rowsOf(field, values)
  const levels = Array.from({ length: -FLOOR_DB / CONTOUR_STEP_DB - 1 }, (_, i) => ({
    value: -CONTOUR_STEP_DB * (i + 1),
  }))
  return {
    id,
    sentence,
    picture: toScale(field, [
      {
        kind: 'map',
        ...grid(field),
        rows,
        scale: 'light',
        from: FLOOR_DB,
        to: 0,
        title: 'Intensity',
        unit: 'dB',
        digits: 1,
      },
      { kind: 'contours', ...grid(field), rows, levels, beside: true },
    ]),
    table: valueTable(field, 'Intensity', 'dB', values),
  }
}

/** Phase in degrees where there is light: within 30 dB of the peak, relative to that on the axis. */
export function modePhaseFigure(id: string, field: DrawnField, sentence: string): Figure<Chart> {
  const middle = Math.round(-field.y0Um / field.dyUm) * field.nx + Math.round(-field.x0Um / field.dxUm)
  const onAxis = Math.atan2(field.im[middle] ?? 0, field.re[middle] ?? 1)
  const values = field.re.map((re, i) => {
    const im = field.im[i] ?? 0
    if (decibels(re, im) <= FLOOR_DB) return Number.NaN
    const turn = Math.atan2(im, re) - onAxis
    return DEGREES * Math.atan2(Math.sin(turn), Math.cos(turn))
  })
  return {
    id,
    sentence,
    picture: toScale(field, [
      {
        kind: 'map',
        ...grid(field),
        rows: rowsOf(field, values),
        scale: 'phase',
        from: -180,
        to: 180,
        title: 'Phase',
        unit: '°',
        digits: 0,
      },
    ]),
    table: valueTable(field, 'Phase', '°', values),
  }
}

interface NamedCut {
  readonly name: string
  readonly cut: FieldCut
}

const LOOKS = [
  { tone: 'accent', dash: 'solid' },
  { tone: 'ink', dash: 'dash' },
] as const

/** Cuts of both modes along one axis, with their Gaussians thin. */
export function modeCutFigure(axis: 'x' | 'y', cuts: readonly NamedCut[], sentence: string): Figure<Chart> {
  const positions = cuts[0]?.cut.positionsUm ?? new Float64Array(0)
  return {
    id: `mode-cut-${axis}`,
    sentence,
    picture: chart(
      along(axis, 'µm', positions),
      spanning(
        'Intensity relative to the peak',
        'dB',
        cuts.flatMap(({ cut }) => [cut.fieldDb, cut.gaussianDb.map((db) => Math.max(db, 2 * FLOOR_DB))]),
        { digits: 1, leastSpan: 3 },
      ),
      cuts.flatMap(({ name, cut }, at): readonly Series[] => {
        const look = LOOKS[at] ?? LOOKS[1]
        return [
          { kind: 'line', name, x: cut.positionsUm, y: cut.fieldDb, ...look },
          {
            kind: 'line',
            name: `${name}, Gaussian`,
            x: cut.positionsUm,
            y: cut.gaussianDb,
            tone: look.tone,
            weight: 'fine',
            dash: 'dot',
            unread: true,
          },
        ]
      }),
    ),
    table: {
      columns: [
        { label: axis, unit: 'µm' },
        ...cuts.flatMap(({ name }) => [
          { label: name, unit: 'dB' },
          { label: `${name} as a Gaussian`, unit: 'dB' },
        ]),
      ],
      rows: Array.from(positions, (position, i) => [
        position,
        ...cuts.flatMap(({ cut }) => [cut.fieldDb[i] ?? 0, cut.gaussianDb[i] ?? 0]),
      ]),
    },
  }
}
