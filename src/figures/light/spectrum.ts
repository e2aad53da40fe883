// Insertion loss over wavelength: with round trips, as single passes, and its parts; or the loss of TE and TM.

import type { PolarisationSpectrum } from '../../analysis/light/polarisationSpectrum'
import type { Spectrum } from '../../analysis/light/spectrum'
import type { LineKind } from '../../analysis/results/evaluation'
import type { NamedLimit } from '../../model/project/lossCriteria'
import { fixedText, nmOf } from '../../numerics/numberText'
import { along, lossAxis } from '../axes'
import { type Chart, chart, type Dash, type Series } from '../chart'
import type { Figure } from '../figure'

const DASHES: readonly Dash[] = ['dot', 'dashdot', 'longdash', 'dash']
/** A limit is drawn next to a curve from this near on; one far away would press the curve flat. */
const LIMIT_NEAR_DB = 1
/** Parts that stay below this are omitted from the picture. */
const LEAST_PART_DB = 0.005

const nameOf = (kind: LineKind) => (kind === 'fresnel' ? 'reflection' : kind)

/** The spectrum of an optical path. `withParts` adds the contributions of the budget by their kind. */
export function spectrumFigure(
  spectrum: Spectrum,
  { limitDb, name }: NamedLimit,
  withParts: boolean,
): Figure<Chart> {
  const x = Float64Array.from(spectrum.wavelengthsUm, nmOf)
  const isNear = limitDb > spectrum.leastDb - LIMIT_NEAR_DB && limitDb < spectrum.worstDb + LIMIT_NEAR_DB
  const coarse = Float64Array.from(spectrum.coarseUm, nmOf)
  const parts = withParts
    ? spectrum.parts.filter((part) => part.lossesDb.some((lossDb) => Math.abs(lossDb) > LEAST_PART_DB))
    : []
  const [half, whole] = spectrum.bandwidths.map((each) => {
    const width = nmOf(each.toUm - each.fromUm)
    return `${each.openBelow || each.openAbove ? 'at least ' : ''}${fixedText(width, 1)} nm`
  })
  const withLimit = isNear || withParts
  const limit: readonly Series[] = withLimit ? [{ kind: 'rule', axis: 'y', at: limitDb, label: name }] : []
  return {
    id: 'spectrum',
    sentence: `Maximum ${fixedText(spectrum.worstDb, 2)} dB at ${fixedText(nmOf(spectrum.worstUm), 1)} nm, minimum ${fixedText(spectrum.leastDb, 2)} dB, ripple not included; 0.5 dB bandwidth ${half}, 1 dB ${whole}.`,
    picture: chart(
      along('Wavelength', 'nm', x, 2),
      {
        ...lossAxis(
          'Insertion loss',
          spectrum.lossesDb,
          spectrum.rippledDb,
          withLimit ? [limitDb] : [],
          ...parts.map((part) => part.lossesDb),
        ),
        digits: 3,
      },
      [
        ...parts.map((part, i) => ({
          kind: 'line' as const,
          name: nameOf(part.kind),
          x: coarse,
          y: part.lossesDb,
          tone: 'quiet' as const,
          weight: 'fine' as const,
          dash: DASHES[i % DASHES.length] ?? ('dot' as const),
        })),
        {
          kind: 'line',
          name: 'with round trips',
          x,
          y: spectrum.rippledDb,
          tone: 'accent',
          weight: 'normal',
        },
        {
          kind: 'line',
          name: 'single pass',
          x,
          y: spectrum.lossesDb,
          tone: 'ink',
          dash: 'dash',
          weight: 'normal',
        },
        {
          kind: 'rule',
          axis: 'x',
          at: nmOf(spectrum.designUm),
          label: 'design wavelength',
          dash: 'dot',
          weight: 'fine',
        },
        ...limit,
      ],
    ),
    table: {
      columns: [
        { label: 'Wavelength', unit: 'nm' },
        { label: 'With round trips', unit: 'dB' },
        { label: 'Single pass', unit: 'dB' },
      ],
      rows: Array.from(x, (at, i) => [at, spectrum.rippledDb[i] ?? 0, spectrum.lossesDb[i] ?? 0]),
    },
  }
}

/** Loss of both polarisations. */
export function polarisationFigure(spectrum: PolarisationSpectrum): Figure<Chart> {
  const x = Float64Array.from(spectrum.wavelengthsUm, nmOf)
  return {
    id: 'polarisation',
    sentence: `Maximum polarisation-dependent loss (PDL) ${fixedText(spectrum.greatestDb, 2)} dB, at ${fixedText(nmOf(spectrum.greatestUm), 1)} nm.`,
    picture: chart(
      along('Wavelength', 'nm', x, 2),
      { ...lossAxis('Insertion loss', spectrum.teDb, spectrum.tmDb), digits: 3 },
      [
        { kind: 'line', name: 'TE', x, y: spectrum.teDb, tone: 'accent' },
        { kind: 'line', name: 'TM', x, y: spectrum.tmDb, tone: 'ink', dash: 'dash' },
      ],
    ),
    table: {
      columns: [
        { label: 'Wavelength', unit: 'nm' },
        { label: 'TE', unit: 'dB' },
        { label: 'TM', unit: 'dB' },
      ],
      rows: Array.from(x, (wavelength, i) => [wavelength, spectrum.teDb[i] ?? 0, spectrum.tmDb[i] ?? 0]),
    },
  }
}
