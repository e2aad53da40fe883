// A chart as plain data: axes with their ranges, and series in the order in which they are laid over each other.

import type { Tone } from './render/palette'

export type Dash = 'solid' | 'dash' | 'dot' | 'dashdot' | 'longdash'
export type Weight = 'fine' | 'normal' | 'strong'
export type Mark = 'circle' | 'square' | 'diamond' | 'cross' | 'x' | 'triangle'
/** `loss` is bright at its low end, `light` at its high end; `signed` is even about zero; `phase` closes on itself. */
export type ScaleName = 'loss' | 'light' | 'signed' | 'phase'

export interface Axis {
  readonly title: string
  readonly unit?: string
  /** Ends of the axis: `from` on the left or at the bottom, whichever is larger. */
  readonly from: number
  readonly to: number
  /** Decimals of a value that is read out. */
  readonly digits?: number
  /** Words in place of numbers, each at its place. */
  readonly names?: readonly { readonly at: number; readonly name: string }[]
}

interface Named {
  readonly name: string
  /** False keeps the series out of the legend. */
  readonly legend?: boolean
  /** True keeps the series out of the read-out. */
  readonly unread?: boolean
  /** True for series on the right-hand axis. */
  readonly right?: boolean
}

export interface LineSeries extends Named {
  readonly kind: 'line'
  readonly x: ArrayLike<number>
  /** Null leaves a gap in the line. */
  readonly y: ArrayLike<number | null>
  readonly tone: Tone
  readonly dash?: Dash
  readonly weight?: Weight
  readonly dots?: boolean
}

export interface PointSeries extends Named {
  readonly kind: 'points'
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
  readonly tone: Tone
  readonly mark: Mark | readonly Mark[]
  readonly sizePx?: number
}

/** Bars from one value to another; `lying` ones run along x, their places are along y. */
export interface BarSeries extends Named {
  readonly kind: 'bars'
  readonly lying?: boolean
  readonly at: ArrayLike<number>
  readonly from: ArrayLike<number>
  readonly to: ArrayLike<number>
  /** Thickness in units of the axis along which the places are. */
  readonly thickness: number
  readonly tone: Tone | readonly Tone[]
  /** Numbers at the ends of lying bars. */
  readonly labels?: readonly string[]
}

interface BandSeries extends Named {
  readonly kind: 'band'
  readonly x: ArrayLike<number>
  readonly low: ArrayLike<number>
  readonly high: ArrayLike<number>
}

/** A range on each point, as a thin upright line with ends. */
interface WhiskerSeries extends Named {
  readonly kind: 'whiskers'
  readonly x: ArrayLike<number>
  readonly low: ArrayLike<number>
  readonly high: ArrayLike<number>
}

/** A rectangle; null ends lie at the frame. */
interface BoxSeries {
  readonly kind: 'box'
  readonly x: readonly [from: number, to: number] | null
  readonly y: readonly [from: number, to: number] | null
  readonly filled: boolean
}

/** A line across the whole frame at one value, with its name outside the frame. */
export interface RuleSeries {
  readonly kind: 'rule'
  readonly axis: 'x' | 'y'
  readonly at: number
  readonly label?: string
  readonly dash?: Dash
  readonly weight?: Weight
}

export interface GridValues {
  readonly x: Float64Array
  readonly y: Float64Array
  /** `rows[j][i]` belongs to `y[j]`, `x[i]`; NaN is left empty. */
  readonly rows: readonly Float64Array[]
}

export interface MapSeries extends GridValues {
  readonly kind: 'map'
  readonly scale: ScaleName
  readonly from: number
  readonly to: number
  readonly title: string
  readonly unit: string
  readonly digits: number
}

export interface ContourSeries extends GridValues {
  readonly kind: 'contours'
  readonly levels: readonly { readonly value: number; readonly words?: string; readonly strong?: boolean }[]
  readonly dash?: Dash
  /** True for the contours of a second map laid over the first. */
  readonly beside?: boolean
}

export type Series =
  | LineSeries
  | PointSeries
  | BarSeries
  | BandSeries
  | WhiskerSeries
  | BoxSeries
  | RuleSeries
  | MapSeries
  | ContourSeries

/** One of the frames above each other on a common x axis. */
export interface ChartPane {
  readonly y: Axis
  readonly right?: Axis
  /** Part of the height, in any unit. */
  readonly share: number
  readonly series: readonly Series[]
}

export interface Chart {
  readonly kind: 'chart'
  readonly x: Axis
  /** From the top down. */
  readonly panes: readonly ChartPane[]
  /** True where both axes are lengths: a unit is as long on one as on the other. */
  readonly equalAxes?: boolean
}

export function chart(
  x: Axis,
  y: Axis,
  series: readonly Series[],
  more: { readonly right?: Axis; readonly equalAxes?: boolean } = {},
): Chart {
  return {
    kind: 'chart',
    x,
    panes: [{ y, share: 1, series, ...(more.right !== undefined && { right: more.right }) }],
    ...(more.equalAxes !== undefined && { equalAxes: more.equalAxes }),
  }
}

export function axisTitle({ title, unit }: Pick<Axis, 'title' | 'unit'>): string {
  return unit === undefined || unit === '' ? title : `${title}, ${unit}`
}

/** The series that the legend names, all panes together. */
export function legendSeries({ panes }: Chart): readonly (Series & Named)[] {
  const named = panes
    .flatMap(({ series }) => series)
    .filter((each): each is Series & Named => 'name' in each && each.legend !== false && each.name !== '')
  return named.length > 1 ? named : []
}
