// Return loss of an end face against its angle, for the modes on both sides, with what is wanted and what is trusted.

import type { FaceAngleCurve, FaceAngleSide } from '../analysis/light/faceAngleCurve'
import { baseLayout, type Figure, type PlotTheme } from './figure'

const DEG = 180 / Math.PI
/** Room above the trusted range, dB. */
const HEADROOM_DB = 5
const DASHES = { near: 'solid', far: 'dash' } as const
const NAMES = { near: 'near mode', far: 'far mode' } as const

export function faceAngleFigure(curve: FaceAngleCurve, theme: PlotTheme): Figure {
  const x = Array.from(curve.anglesRad, (angle) => angle * DEG)
  const { trustDb } = curve
  const topDb = trustDb + HEADROOM_DB
  const capped = (db: number) => Math.min(db, topDb)
  const shown = (db: number) => (db > trustDb ? `> ${trustDb} dB` : `${db.toFixed(1)} dB`)
  const level = (y: number, dash: string) => ({
    type: 'line',
    xref: 'paper',
    x0: 0,
    x1: 1,
    y0: y,
    y1: y,
    line: { color: theme.ink, width: 1, dash },
  })
  const base = baseLayout(theme, 'Face angle, °', 'Return loss of the face, dB')
  const sideText = (side: FaceAngleSide, i: number) => {
    const name = `${i === 0 ? 'Mode' : 'mode'} of ${side.mfdUm.toFixed(1)} µm, ${side.side} side`
    const now = `${shown(side.nowDb)} at ${(side.nowRad * DEG).toFixed(1)}°`
    const isUsual = Math.abs(side.nowRad * DEG - 8) < 0.05
    return isUsual ? `${name}: ${now}` : `${name}: ${now}, ${shown(side.usualDb)} at 8°`
  }
  return {
    data: curve.sides.flatMap((side) => [
      {
        type: 'scatter',
        mode: 'lines',
        name: `${NAMES[side.side]}, ${side.mfdUm.toFixed(1)} µm`,
        x,
        y: Array.from(side.lossesDb, capped),
        line: { color: side.side === 'near' ? theme.accent : theme.ink, width: 2, dash: DASHES[side.side] },
        hovertemplate: '%{x:.1f}°: %{y:.1f} dB<extra></extra>',
      },
      {
        type: 'scatter',
        mode: 'markers',
        x: [side.nowRad * DEG],
        y: [capped(side.nowDb)],
        marker: { symbol: 'cross', size: 11, color: side.side === 'near' ? theme.accent : theme.ink },
        showlegend: false,
        hoverinfo: 'skip',
      },
    ]),
    layout: {
      ...base,
      yaxis: { ...(base.yaxis as object), range: [0, topDb] },
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      shapes: [level(curve.wantedDb, 'dash'), level(trustDb, 'dot')],
      annotations: [
        {
          x: 0.01,
          xref: 'paper',
          y: Math.min(curve.wantedDb, trustDb),
          text: `wanted, ${curve.wantedDb} dB`,
          showarrow: false,
          xanchor: 'left',
          yshift: -9,
        },
        {
          x: 0.01,
          xref: 'paper',
          y: trustDb,
          text: 'beyond here scatter rules',
          showarrow: false,
          xanchor: 'left',
          yshift: 9,
        },
      ],
    },
    sentence: `${curve.sides.map(sideText).join('; ')}.`,
    table: {
      head: ['Angle, °', ...curve.sides.map((side) => `${NAMES[side.side]}, dB`)],
      rows: x.map((angle, i) => [
        angle,
        ...curve.sides.map((side) => {
          const db = side.lossesDb[i] ?? 0
          return db > trustDb ? `> ${trustDb}` : db
        }),
      ]),
    },
  }
}
