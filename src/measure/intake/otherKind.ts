// The kind of a measurement set by hand, where the reader guessed wrong: before a file is imported by the roles of its
// columns, afterwards by what its kept columns are.

import { quantityOf } from '../../model/quantity/quantity'
import type { Measurement, ReadingColumn } from '../../model/schema/measurement'
import { packNumbers, unpackNumbers } from '../../numerics/compactNumbers'
import { LAYOUTS } from '../reading/readScan'
import type { FactName, Facts } from './newMeasurement'
import type { ColumnReport } from './reading'

export const TABLE_KINDS = ['far-field', 'offset', 'raster', 'loopback'] as const
export type TableKind = (typeof TABLE_KINDS)[number]

const COORDINATE = {
  'far-field': 'angle',
  offset: 'position',
  raster: 'position',
  loopback: 'length',
} as const
type CoordinateRole = (typeof COORDINATE)[TableKind]

const isCoordinate = (role: string): role is CoordinateRole =>
  role === 'angle' || role === 'position' || role === 'length'

export const isTableKind = (method: string): method is TableKind =>
  TABLE_KINDS.some((kind) => kind === method)

/**
 * The answers that make the reader take a file as this kind: the role of every coordinate column, or of the first column
 * where none is a coordinate yet.
 */
export function answersForKind(
  columns: readonly Pick<ColumnReport, 'role'>[],
  kind: TableKind,
): Readonly<Record<string, string>> {
  const at = columns.flatMap(({ role }, i) => (isCoordinate(role) ? [i] : []))
  const coordinates = at.length === 0 ? [0] : at
  const roles = Object.fromEntries(coordinates.map((i) => [`role:${i}`, COORDINATE[kind]]))
  if (coordinates.length !== 2 || COORDINATE[kind] !== 'position') return roles
  return { ...roles, layout: kind === 'raster' ? LAYOUTS.raster : LAYOUTS.lines }
}

/** What one stored unit of a coordinate is read as: lengths as angles have no one answer. */
export const ANGLE_UNITS = { deg: Math.PI / 180, mrad: 1e-3, rad: 1 } as const
export type AngleUnit = keyof typeof ANGLE_UNITS

/** Whether the coordinate changes between a length and an angle, so that the user must say how. */
export function needsAngleUnit(measurement: Measurement, kind: TableKind): boolean {
  return isTableKind(measurement.method) && (measurement.method === 'far-field') !== (kind === 'far-field')
}

/** The fact that the other kind cannot do without, and the measurement does not have. */
export function factForKind(measurement: Measurement, kind: TableKind): FactName | null {
  const wanted = kind === 'far-field' ? 'wavelength' : kind === 'loopback' ? null : 'probeMfd'
  return wanted === null || Reflect.has(measurement, wanted) ? null : wanted
}

/** Kinds that the kept columns can be taken as; a raster needs two coordinates. */
export function possibleKinds(measurement: Measurement): readonly TableKind[] {
  if (!isTableKind(measurement.method) || !('columns' in measurement)) return []
  const coordinates = measurement.columns.filter(({ role }) => isCoordinate(role)).length
  return TABLE_KINDS.filter((kind) => (kind === 'raster' ? coordinates === 2 : coordinates >= 1))
}

/**
 * The same readings as another kind. Where a length becomes an angle, each stored µm is one `angleUnit`; the other way
 * round each `angleUnit` becomes one µm. Losses become relative powers for the kinds that evaluate powers. Null where
 * the columns do not allow it or a needed fact is missing.
 */
export function measurementAs(
  measurement: Measurement,
  kind: TableKind,
  facts: Facts = {},
  angleUnit: AngleUnit = 'deg',
): Measurement | null {
  if (!possibleKinds(measurement).includes(kind) || !('columns' in measurement)) return null
  const { id, name, fileName, date, notes } = measurement
  const columns = measurement.columns.map((column) => columnAs(column, kind, ANGLE_UNITS[angleUnit]))
  const common = { id, name, fileName, date, notes, columns }
  const kept = <T>(field: string): T | undefined => Reflect.get(measurement, field) as T | undefined
  const scale = quantityOf(1, '1', 'estimate')
  const wavelength = kept<typeof scale>('wavelength') ?? facts.wavelength
  const probeMfd = kept<typeof scale>('probeMfd') ?? facts.probeMfd
  const referencePower = kept<typeof scale>('referencePower') ?? facts.referencePower
  const reference = referencePower === undefined ? {} : { referencePower }
  const detectorExponent = kept<typeof scale>('detectorExponent') ?? scale
  const stageScale = kept<typeof scale>('stageScale') ?? scale
  switch (kind) {
    case 'far-field':
      if (wavelength === undefined) return null
      return { ...common, method: kind, wavelength, angleScale: scale, detectorExponent }
    case 'offset':
      if (probeMfd === undefined) return null
      return { ...common, method: kind, probeMfd, stageScale, detectorExponent, ...reference }
    case 'raster':
      return probeMfd === undefined ? null : { ...common, method: kind, probeMfd, stageScale }
    case 'loopback':
      return { ...common, method: kind, ...reference }
  }
}

function columnAs(column: ReadingColumn, kind: TableKind, radPerUnit: number): ReadingColumn {
  const { role, coreUnit, values } = column
  if (role === 'loss' && kind !== 'loopback') {
    const powers = unpackNumbers(values).map((lossDb) => 10 ** (-lossDb / 10))
    return { ...column, role: 'power', coreUnit: 'relative', values: packNumbers(powers) }
  }
  if (!isCoordinate(role)) return column
  const wanted = COORDINATE[kind]
  const toAngle = wanted === 'angle' && coreUnit === 'um'
  const toLength = wanted !== 'angle' && coreUnit === 'rad'
  if (!toAngle && !toLength) return { ...column, role: wanted }
  const factor = toAngle ? radPerUnit : 1 / radPerUnit
  return {
    ...column,
    role: wanted,
    coreUnit: toAngle ? 'rad' : 'um',
    values: packNumbers(unpackNumbers(values).map((value) => value * factor)),
  }
}
