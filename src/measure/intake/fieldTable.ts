// A table of a field becomes samples: columns x, y and amplitude or intensity, with a phase where there is one, or the
// real and imaginary part.

import { InputError } from '../../numerics/inputError'
import type { SampledField } from '../../optics/index'
import { splitLabel } from '../reading/columnLabel'
import { readTable, type TextTable } from '../reading/tableText'
import { headingFactor, type RasterColumn, rasterOf } from './raster'

/** Samples with the assumptions made in reading them. */
export interface FieldReading {
  readonly field: SampledField
  readonly notes: readonly string[]
}

type Role = 'x' | 'y' | 'amplitude' | 'intensity' | 'phase' | 'real' | 'imaginary'

const WORDS: readonly (readonly [Role, RegExp])[] = [
  ['x', /^x/i],
  ['y', /^y/i],
  ['phase', /phase|^arg|^phi\b/i],
  ['real', /^re\b|real/i],
  ['imaginary', /^im\b|imag/i],
  ['intensity', /intens|power|irradiance|counts|^i$/i],
  ['amplitude', /ampl|field|^abs|^\|?e[xyz]?\|?$/i],
]
function columnsByRole(table: TextTable): ReadonlyMap<Role, RasterColumn> {
  const found = new Map<Role, RasterColumn>()
  table.columns.forEach((values, at) => {
    const { label, unit } = splitLabel(table.headings[at] ?? '')
    const role = WORDS.find(([, pattern]) => pattern.test(label.trim()))?.[0]
    const below = table.units[at]?.trim()
    if (role !== undefined && !found.has(role)) found.set(role, { values, unit: unit ?? (below || null) })
  })
  return found
}

/**
 * Reads a field from any delimited text. The rows may come in any order but must fill a regular grid once. Throws
 * InputError that names the column, the row or the place that is wrong.
 */
export function readFieldTable(text: string, wavelengthUm: number): FieldReading {
  const table = readTable(text)
  const found = columnsByRole(table)
  const [x, y] = [found.get('x'), found.get('y')]
  const [amplitude, intensity, real] = [found.get('amplitude'), found.get('intensity'), found.get('real')]
  const size = real ?? amplitude ?? intensity
  if (x === undefined || y === undefined || size === undefined) {
    const seen = table.headings.filter((heading) => heading !== '').join(', ') || 'none'
    throw new InputError('heading row', seen, 'x, y and one of amplitude, intensity, real and imaginary')
  }
  const notes: string[] = []
  const grid = rasterOf(x, y, table.rowsRead, notes)
  const { nx, ny } = grid
  const re = new Float64Array(nx * ny)
  const im = new Float64Array(nx * ny)
  const second = secondPart(found, notes)
  for (let row = 0; row < table.rowsRead; row++) {
    const at = grid.indices[row] ?? 0
    const value = size.values[row] ?? 0
    if (size === intensity && value < 0)
      throw new InputError(`intensity of row ${row + 1}`, value, '0 or more')
    const own = size === intensity ? Math.sqrt(value) : value
    if (size === real) {
      re[at] = own
      im[at] = second?.values[row] ?? 0
    } else {
      const phase = (second?.values[row] ?? 0) * (second?.factor ?? 1)
      re[at] = own * Math.cos(phase)
      im[at] = own * Math.sin(phase)
    }
  }
  if (size === intensity) notes.push('Amplitudes are the square roots of the intensities.')
  return {
    field: {
      nx,
      ny,
      dxUm: grid.dxUm,
      dyUm: grid.dyUm,
      x0Um: grid.x0Um,
      y0Um: grid.y0Um,
      re,
      im,
      wavelengthUm,
      index: 1,
    },
    notes,
  }
}

/** The column of phases or imaginary parts; where there is none, a flat phase is assumed and noted. */
function secondPart(
  found: ReadonlyMap<Role, RasterColumn>,
  notes: string[],
): { readonly values: Float64Array; readonly factor: number } | null {
  const imaginary = found.get('imaginary')
  if (found.has('real') && imaginary !== undefined) return { values: imaginary.values, factor: 1 }
  const phase = found.get('phase')
  if (!found.has('real') && phase !== undefined) {
    return { values: phase.values, factor: headingFactor('phase', phase.unit, 'angle', notes) }
  }
  notes.push('The file gives no phase; a flat phase is assumed.')
  return null
}
