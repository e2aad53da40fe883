// Loss over wavelength: with round trips, as single passes, and its parts; or the loss of TE and TM.

import type { PolarisationSpectrum } from '../analysis/light/polarisationSpectrum'
import type { Spectrum } from '../analysis/light/spectrum'
import type { LineKind } from '../analysis/results/evaluation'
import { baseLayout, type Figure, type PlotTheme } from './figure'

const nm = (um: number) => Number((um * 1000).toPrecision(8))
const DASHES = ['dot', 'dashdot', 'longdash', 'longdashdot', 'dash'] as const

/** A limit is drawn beside a curve from this near on. */
const LIMIT_NEAR_DB = 1

/** Parts that stay below this are left out of the drawing. */
const LEAST_PART_DB = 0.005

const legend = { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' } as const

function upright(atUm: number, theme: PlotTheme) {
  return {
    type: 'line',
    x0: nm(atUm),
    x1: nm(atUm),
    yref: 'paper',
    y0: 0,
    y1: 1,
    line: { color: theme.ink, width: 1, dash: 'dot' },
  }
}

function limitLine(limitDb: number, theme: PlotTheme) {
  return {
    type: 'line',
    xref: 'paper',
    x0: 0,
    x1: 1,
    y0: limitDb,
    y1: limitDb,
    line: { color: theme.ink, width: 2 },
  }
}

/** Room for losses that differ in the fourth digit only. */
const margin = { l: 76, r: 24, t: 12, b: 48 }

const nameOf = (kind: LineKind) => (kind === 'fresnel' ? 'reflection' : kind)

/** The spectrum of a chain. `withParts` adds the lines of the budget by their kind. */
export function spectrumFigure(
  spectrum: Spectrum,
  limitDb: number,
  withParts: boolean,
  theme: PlotTheme,
): Figure {
  const x = Array.from(spectrum.wavelengthsUm, nm)
  // A limit far away would press the curve flat.
  const isNear = limitDb > spectrum.leastDb - LIMIT_NEAR_DB && limitDb < spectrum.worstDb + LIMIT_NEAR_DB
  const coarse = Array.from(spectrum.coarseUm, nm)
  const parts = withParts
    ? spectrum.parts.filter((part) => part.lossesDb.some((lossDb) => Math.abs(lossDb) > LEAST_PART_DB))
    : []
  const [half, whole] = spectrum.bandwidths.map((each) => {
    const width = nm(each.toUm - each.fromUm)
    return `${each.openBelow || each.openAbove ? 'at least ' : ''}${width.toFixed(1)} nm`
  })
  const table = x.map((wavelength, i) => [wavelength, spectrum.rippledDb[i] ?? 0, spectrum.lossesDb[i] ?? 0])
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        name: 'single pass',
        x,
        y: Array.from(spectrum.lossesDb),
        line: { color: theme.ink, width: 1.5, dash: 'dash' },
        hovertemplate: '%{x:.2f} nm: %{y:.3f} dB<extra></extra>',
      },
      {
        type: 'scatter',
        mode: 'lines',
        name: 'with round trips',
        x,
        y: Array.from(spectrum.rippledDb),
        line: { color: theme.accent, width: 2 },
        hovertemplate: '%{x:.2f} nm: %{y:.3f} dB<extra></extra>',
      },
      ...parts.map((part, i) => ({
        type: 'scatter',
        mode: 'lines',
        name: nameOf(part.kind),
        x: coarse,
        y: Array.from(part.lossesDb),
        line: { color: theme.ink, width: 1, dash: DASHES[i % DASHES.length] },
        hovertemplate: `${nameOf(part.kind)}: %{y:.3f} dB<extra></extra>`,
      })),
    ],
    layout: {
      ...baseLayout(theme, 'Wavelength, nm', 'Loss of the chain, dB'),
      margin,
      showlegend: true,
      legend,
      shapes: [
        upright(spectrum.designUm, theme),
        ...(isNear || withParts ? [limitLine(limitDb, theme)] : []),
      ],
    },
    sentence: `Worst ${spectrum.worstDb.toFixed(2)} dB at ${nm(spectrum.worstUm).toFixed(1)} nm, least ${spectrum.leastDb.toFixed(2)} dB without ripple; 0.5 dB bandwidth ${half}, 1 dB ${whole}.`,
    table: { head: ['Wavelength, nm', 'With round trips, dB', 'Single pass, dB'], rows: table },
  }
}

/** Loss of both polarisations, and their difference in the sentence. */
export function polarisationFigure(spectrum: PolarisationSpectrum, theme: PlotTheme): Figure {
  const x = Array.from(spectrum.wavelengthsUm, nm)
  const line = (name: string, y: Float64Array, color: string, dash: string) => ({
    type: 'scatter',
    mode: 'lines',
    name,
    x,
    y: Array.from(y),
    line: { color, width: 2, dash },
    hovertemplate: `${name}, %{x:.2f} nm: %{y:.3f} dB<extra></extra>`,
  })
  return {
    data: [line('TE', spectrum.teDb, theme.accent, 'solid'), line('TM', spectrum.tmDb, theme.ink, 'dash')],
    layout: {
      ...baseLayout(theme, 'Wavelength, nm', 'Loss of the chain, dB'),
      margin,
      showlegend: true,
      legend,
    },
    sentence: `Polarisation-dependent loss at most ${spectrum.greatestDb.toFixed(2)} dB, at ${nm(spectrum.greatestUm).toFixed(1)} nm.`,
    table: {
      head: ['Wavelength, nm', 'TE, dB', 'TM, dB'],
      rows: x.map((wavelength, i) => [wavelength, spectrum.teDb[i] ?? 0, spectrum.tmDb[i] ?? 0]),
    },
  }
}
