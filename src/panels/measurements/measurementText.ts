// Words and numbers of measurements as they are on screen.

import type { ColumnReport, MfdValue, Reading, TableReading } from '../../measure/index'
import { METHOD_NAMES } from '../../model/words/measurement'
import { withUncertainty } from '../../numerics/numberText'

export const SCAN_NAMES: Readonly<Record<TableReading['scanKind'], string>> = {
  'far-field': METHOD_NAMES['far-field'],
  offset: METHOD_NAMES.offset,
  raster: METHOD_NAMES.raster,
  loopback: METHOD_NAMES.loopback,
  unknown: 'Not identified',
}

export const CORE_UNIT_NAMES: Readonly<Record<ColumnReport['coreUnit'], string>> = {
  rad: 'rad',
  um: 'µm',
  uW: 'µW',
  relative: 'relative power',
  dB: 'dB',
  none: '',
}

export function mfdText(mfd: MfdValue): string {
  return `${withUncertainty(mfd.valueUm, mfd.expandedUm)} µm`
}

export const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI

const DELIMITERS: Readonly<Record<string, string>> = {
  '\t': 'tab',
  ';': 'semicolon',
  ',': 'comma',
  '|': 'pipe',
  ' ': 'spaces',
}
export const DELIMITER_CHOICES = Object.entries(DELIMITERS).map(([value, label]) => ({ value, label }))
export const MARK_CHOICES = [
  { value: '.', label: 'point' },
  { value: ',', label: 'comma' },
]

/** The file's notes, without what is among the findings already. */
export function ownNotes({ notes, findings }: Reading): readonly string[] {
  return [...new Set(notes)].filter((note) => findings.every((finding) => finding.message !== note))
}
