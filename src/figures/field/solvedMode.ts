// A solved mode: its intensity with contours over the outlines of the cross-section, and cuts in decibels.

import { along } from '../axes'
import { type Chart, chart, type LineSeries } from '../chart'
import type { Figure } from '../figure'

/** A level of exp(-2): where widths of Gaussians are read. */
const GAUSSIAN_WIDTH_DB = -20 / Math.LN10
const FLOOR_DB = -40
const OUTLINE_POINTS = 121

interface Outline {
  readonly x: readonly number[]
  readonly y: readonly number[]
}

interface SolvedModePicture {
  readonly xUm: readonly number[]
  readonly yUm: readonly number[]
  /** Row by row from the lowest, 0 at the peak. */
  readonly rowsDb: readonly (readonly number[])[]
  readonly cores: readonly Outline[]
  readonly layerHeightsUm: readonly number[]
  readonly gaussian: {
    readonly centreX: number
    readonly centreY: number
    readonly mfdX: number
    readonly mfdY: number
  }
}

function ellipse({ centreX, centreY, mfdX, mfdY }: SolvedModePicture['gaussian']): Outline {
  const turns = Array.from({ length: OUTLINE_POINTS }, (_, i) => (2 * Math.PI * i) / (OUTLINE_POINTS - 1))
  return {
    x: turns.map((turn) => centreX + (mfdX / 2) * Math.cos(turn)),
    y: turns.map((turn) => centreY + (mfdY / 2) * Math.sin(turn)),
  }
}

const overlay = (outline: Outline, look: Pick<LineSeries, 'dash' | 'weight'>): LineSeries => ({
  kind: 'line',
  name: '',
  unread: true,
  ...outline,
  tone: 'over',
  ...look,
})

/** Contours at -3 dB, at 1/e² and each ten decibels; the dashed ellipse is the best-fit Gaussian at 1/e². */
export function solvedModeFigure(mode: SolvedModePicture, sentence: string): Figure<Chart> {
  const [x, y] = [Float64Array.from(mode.xUm), Float64Array.from(mode.yUm)]
  const rows = mode.rowsDb.map((row) => Float64Array.from(row, (value) => Math.max(FLOOR_DB, value)))
  const xAxis = along('x', 'µm', x)
  const yAxis = along('Height above the substrate', 'µm', y)
  return {
    id: 'solved-mode',
    sentence,
    picture: chart(
      xAxis,
      yAxis,
      [
        {
          kind: 'map',
          x,
          y,
          rows,
          scale: 'light',
          from: FLOOR_DB,
          to: 0,
          title: 'Intensity',
          unit: 'dB',
          digits: 1,
        },
        {
          kind: 'contours',
          x,
          y,
          rows,
          beside: true,
          levels: [-3, GAUSSIAN_WIDTH_DB, -20, -30].map((value) => ({
            value,
            strong: value === GAUSSIAN_WIDTH_DB,
          })),
        },
        ...mode.cores.map((outline) => overlay(outline, { weight: 'normal' })),
        ...mode.layerHeightsUm
          .filter((height) => height > yAxis.from && height < yAxis.to)
          .map((height) =>
            overlay({ x: [xAxis.from, xAxis.to], y: [height, height] }, { dash: 'dot', weight: 'fine' }),
          ),
        overlay(ellipse(mode.gaussian), { dash: 'dash', weight: 'fine' }),
      ],
      { equalAxes: true },
    ),
    table: {
      columns: [
        { label: 'x', unit: 'µm' },
        { label: 'Height', unit: 'µm' },
        { label: 'Intensity', unit: 'dB' },
      ],
      rows: mode.rowsDb.flatMap((row, j) =>
        row.map((value, i) => [mode.xUm[i] ?? 0, mode.yUm[j] ?? 0, value]),
      ),
    },
  }
}

export interface CutLine {
  readonly name: string
  /** From the centre of the best-fit Gaussian. */
  readonly positionUm: readonly number[]
  readonly db: readonly number[]
  readonly gaussianDb: readonly number[]
}

export function solvedCutFigure(cut: CutLine, sentence: string): Figure<Chart> {
  const shown = cut.db.flatMap((value, i) => (value > FLOOR_DB - 5 ? [cut.positionUm[i] ?? 0] : []))
  return {
    id: `solved-cut-${cut.name}`,
    sentence,
    picture: chart(
      along(`Distance from the centre along ${cut.name}`, 'µm', shown),
      { title: 'Intensity', unit: 'dB', from: FLOOR_DB, to: 2, digits: 1 },
      [
        { kind: 'line', name: 'mode', x: cut.positionUm, y: cut.db, tone: 'accent' },
        {
          kind: 'line',
          name: 'best-fit Gaussian',
          x: cut.positionUm,
          y: cut.gaussianDb,
          tone: 'ink',
          weight: 'fine',
          dash: 'dash',
        },
      ],
    ),
    table: {
      columns: [
        { label: cut.name, unit: 'µm' },
        { label: 'Mode', unit: 'dB' },
        { label: 'Best-fit Gaussian', unit: 'dB' },
      ],
      rows: cut.positionUm.map((at, i) => [at, cut.db[i] ?? 0, cut.gaussianDb[i] ?? 0]),
    },
  }
}
