// A table of a field becomes samples: columns x, y and amplitude or intensity, with a phase where there is one, or the
// real and imaginary part.

import { InputError } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import type { SampledField } from '../../optics/index'
import { splitLabel } from '../reading/columnLabel'
import { readTable, type TextTable } from '../reading/tableText'
import { unitRule } from '../reading/units'

/** Samples with what was taken for granted on the way. */
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
const LEAST_POINTS = 4
const GREATEST_POINTS = 2048
/** Rows whose places differ by less than this share of a step count as one line of the grid. */
const SAME_LINE = 0.05
const EVEN = 0.02

interface Column {
  readonly values: Float64Array
  readonly unit: string | null
}

function columnsByRole(table: TextTable): ReadonlyMap<Role, Column> {
  const found = new Map<Role, Column>()
  table.columns.forEach((values, at) => {
    const { label, unit } = splitLabel(table.headings[at] ?? '')
    const role = WORDS.find(([, pattern]) => pattern.test(label.trim()))?.[0]
    const below = table.units[at]?.trim()
    if (role !== undefined && !found.has(role)) found.set(role, { values, unit: unit ?? (below || null) })
  })
  return found
}

/** Factor to the core unit of a dimension; 1, with a note, where the heading has no unit. */
function factorOf(name: string, unit: string | null, dimension: 'length' | 'angle', notes: string[]): number {
  if (unit === null) {
    notes.push(`${name} has no unit; taken as ${dimension === 'length' ? 'µm' : 'rad'}.`)
    return 1
  }
  const rule = unitRule(unit)
  if (rule?.dimension !== dimension) throw new InputError(`unit of ${name}`, unit, `a unit of ${dimension}`)
  return rule.factor
}

/** Places along one axis: the distinct values in ascending order, evenly spaced. */
function axisOf(name: 'x' | 'y', places: Float64Array): { from: number; step: number; count: number } {
  const sorted = Float64Array.from(places).sort()
  const [from, to] = [sorted[0] ?? 0, sorted.at(-1) ?? 0]
  const distinct: number[] = [from]
  const widest = (to - from) / (LEAST_POINTS - 1)
  for (const place of sorted) {
    const last = distinct.at(-1) ?? from
    const finest = distinct.length > 1 ? (last - from) / (distinct.length - 1) : widest / GREATEST_POINTS
    if (place - last > SAME_LINE * finest) distinct.push(place)
  }
  const count = distinct.length
  if (count < LEAST_POINTS || count > GREATEST_POINTS) {
    throw new InputError(`distinct positions along ${name}`, count, `${LEAST_POINTS} to ${GREATEST_POINTS}`)
  }
  const step = (to - from) / (count - 1)
  distinct.forEach((place, at) => {
    const off = Math.abs(place - from - at * step)
    if (off > EVEN * step) {
      throw new InputError(
        `${name} of grid line ${at + 1}`,
        place,
        `on an even grid of step ${significantText(step, 4)} µm`,
      )
    }
  })
  return { from, step, count }
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
    throw new InputError('column headings', seen, 'x, y and one of amplitude, intensity, real and imaginary')
  }
  const notes: string[] = []
  const alongX = factorOf('x', x.unit, 'length', notes)
  const alongY = factorOf('y', y.unit, 'length', notes)
  const axisX = axisOf(
    'x',
    x.values.map((value) => value * alongX),
  )
  const axisY = axisOf(
    'y',
    y.values.map((value) => value * alongY),
  )
  const [nx, ny] = [axisX.count, axisY.count]
  if (table.rowsRead !== nx * ny) {
    throw new InputError(
      'rows of numbers',
      table.rowsRead,
      `${nx} positions along x times ${ny} along y, ${nx * ny}`,
    )
  }
  const re = new Float64Array(nx * ny)
  const im = new Float64Array(nx * ny)
  const filled = new Uint8Array(nx * ny)
  const second = secondPart(found, notes)
  for (let row = 0; row < table.rowsRead; row++) {
    const ix = Math.round(((x.values[row] ?? 0) * alongX - axisX.from) / axisX.step)
    const iy = Math.round(((y.values[row] ?? 0) * alongY - axisY.from) / axisY.step)
    const at = iy * nx + ix
    if (filled[at] === 1) {
      throw new InputError(
        `row ${row + 1}`,
        `a second value at (${x.values[row]}, ${y.values[row]})`,
        'a position of its own',
      )
    }
    filled[at] = 1
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
      dxUm: axisX.step,
      dyUm: axisY.step,
      x0Um: axisX.from,
      y0Um: axisY.from,
      re,
      im,
      wavelengthUm,
      index: 1,
    },
    notes,
  }
}

/** The column of phases or imaginary parts; where there is none a flat phase is assumed, and said. */
function secondPart(
  found: ReadonlyMap<Role, Column>,
  notes: string[],
): { readonly values: Float64Array; readonly factor: number } | null {
  const imaginary = found.get('imaginary')
  if (found.has('real') && imaginary !== undefined) return { values: imaginary.values, factor: 1 }
  const phase = found.get('phase')
  if (!found.has('real') && phase !== undefined) {
    return { values: phase.values, factor: factorOf('phase', phase.unit, 'angle', notes) }
  }
  notes.push('The file gives no phase; a flat phase is assumed.')
  return null
}
