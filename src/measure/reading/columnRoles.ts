// Which column is the coordinate, which are signals, and in what units, with a question wherever the file does not say.

import { rounded } from '../../numerics/numberText'
import { bareUnit, type ColumnLabel, roleOf, splitLabel } from './columnLabel'
import type { ColumnRole, Doubt, ScanAnswers } from './scan'
import type { TextTable } from './tableText'
import { unitName } from './units'

export interface ColumnReading {
  readonly label: string
  readonly role: ColumnRole
  /** As found in the file; null where it had none. */
  readonly unit: string | null
  /** The unit that the values are taken to be in. */
  readonly assumedUnit: string
}

/** No far field of a fibre or facet is narrower. */
const NARROWEST_CONE_RAD = 0.05

const ROLES: readonly ColumnRole[] = ['angle', 'position', 'length', 'power', 'loss', 'other']
const CHOICES: Readonly<Record<ColumnRole, readonly string[]>> = {
  angle: ['rad', 'deg', 'mrad'],
  position: ['um', 'mm', 'nm'],
  length: ['um', 'mm', 'cm'],
  power: ['linear', 'dBm', 'dB'],
  loss: ['dB'],
  other: ['linear'],
}

/** Roles and units of every column; adds to `doubts` what the file leaves open, and uses the `answers` to earlier doubts. */
export function readColumns(table: TextTable, answers: ScanAnswers, doubts: Doubt[]): ColumnReading[] {
  const labels = table.columns.map((_, c): ColumnLabel => {
    const heading = splitLabel(table.headings[c] ?? '')
    const below = bareUnit(table.units[c] ?? '')
    return { label: heading.label, unit: heading.unit ?? (unitName(below) ? below : null) }
  })
  const roles = labels.map((label) => roleOf(label))
  const isCoordinate = (role: ColumnRole | undefined) =>
    role === 'angle' || role === 'position' || role === 'length'
  const coordinate = roles.some(isCoordinate) ? -1 : Math.max(0, roles.indexOf(undefined))
  return labels.map((label, c) => {
    const values = table.columns[c] ?? new Float64Array(0)
    const name = `Column ${c + 1}${label.label ? ` "${label.label}"` : ''}`
    const role = answeredRole(answers[`role:${c}`]) ?? roles[c] ?? guessRole(c === coordinate)
    if (roles[c] === undefined) {
      doubts.push({
        id: `role:${c}`,
        question: `${name} has no recognised heading; ${extent(values)}. Which quantity is it?`,
        assumed: role,
        alternatives: ROLES.filter((other) => other !== role),
      })
    }
    return { ...label, role, assumedUnit: unitOf(c, name, label, role, values) }
  })

  function guessRole(first: boolean): ColumnRole {
    if (!first) return 'power'
    const about = table.notes.join(' ')
    if (/far[- _]?field|angle|angular/i.test(about)) return 'angle'
    if (/offset|stage|probe|transverse/i.test(about)) return 'position'
    const largest = largestOf(table.columns[coordinate] ?? new Float64Array(0))
    // A narrow cone to a quarter circle in rad, or a scan in degrees wider than any stage travels over a mode.
    return (largest > NARROWEST_CONE_RAD && largest <= Math.PI / 2) || (largest > 15 && largest <= 90)
      ? 'angle'
      : 'position'
  }

  function unitOf(
    c: number,
    name: string,
    label: ColumnLabel,
    role: ColumnRole,
    values: Float64Array,
  ): string {
    const named = label.unit === null ? undefined : unitName(label.unit)
    if (named) return named
    const assumed = answers[`unit:${c}`] ?? likelyUnit(role, values)
    if (role !== 'other' && role !== 'loss') {
      doubts.push({
        id: `unit:${c}`,
        question: `${name} has no unit; ${extent(values)}. Which unit is it in?`,
        assumed,
        alternatives: CHOICES[role].filter((other) => other !== assumed),
      })
    }
    return assumed
  }
}

function answeredRole(answer: string | undefined): ColumnRole | undefined {
  return ROLES.find((role) => role === answer)
}

function largestOf(values: Float64Array): number {
  let largest = 0
  for (const value of values) largest = Math.max(largest, Math.abs(value))
  return largest
}

function extent(values: Float64Array): string {
  let low = Infinity
  let high = -Infinity
  for (const value of values) {
    if (value < low) low = value
    if (value > high) high = value
  }
  const shown = (value: number) => rounded(value, 4)
  return values.length === 0 ? 'it is empty' : `its values run from ${shown(low)} to ${shown(high)}`
}

/** The unit that the size of the numbers suggests. */
function likelyUnit(role: ColumnRole, values: Float64Array): string {
  const largest = largestOf(values)
  if (role === 'angle') return largest <= Math.PI / 2 ? 'rad' : largest <= 90 ? 'deg' : 'mrad'
  if (role === 'position') return largest < 0.2 ? 'mm' : largest <= 1000 ? 'um' : 'nm'
  if (role === 'length') return largest < 200 ? 'mm' : 'um'
  if (role === 'loss') return 'dB'
  const negative = values.reduce((count, value) => count + (value < 0 ? 1 : 0), 0)
  return role === 'power' && negative > 0.6 * values.length ? 'dB' : 'linear'
}
