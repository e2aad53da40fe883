// Peculiarities of a scan's numbers, reported before anything is fitted to them.

import { saturatedLength } from '../fit/saturation'
import type { Finding, ScanColumn, ScanKind } from './scan'

/** Looks at every column once; two million rows take a fraction of a second. */
export function scanFindings(kind: ScanKind, columns: readonly ScanColumn[]): readonly Finding[] {
  const findings: Finding[] = []
  if (kind === 'unknown') {
    findings.push({
      code: 'no-roles',
      severity: 'error',
      message: 'No column of angles, positions or lengths was found next to the power or loss.',
    })
  }
  if (columns[0]?.values.length === 1) {
    findings.push({
      code: 'one-point',
      severity: 'error',
      message: 'There is only one row: a scan needs several.',
    })
  }
  for (const column of columns) {
    const name = `"${column.label || column.role}"`
    if (column.role === 'angle' || column.role === 'position') orderFindings(kind, column, name, findings)
    if (column.role === 'power') powerFindings(column, name, findings)
  }
  return findings
}

function orderFindings(kind: ScanKind, column: ScanColumn, name: string, findings: Finding[]): void {
  if (kind === 'raster') return
  const { values } = column
  let up = 0
  let down = 0
  let same = 0
  for (let i = 1; i < values.length; i++) {
    const step = (values[i] ?? 0) - (values[i - 1] ?? 0)
    if (step > 0) up++
    else if (step < 0) down++
    else same++
  }
  const remark = (code: Finding['code'], message: string) =>
    findings.push({ code, severity: 'remark', message })
  if (down > 0 && up === 0)
    remark('reversed', `${name} runs from high to low; it is sorted for the evaluation.`)
  else if (down > 0)
    remark(
      'unordered',
      `${name} increases ${up} times and decreases ${down} times; it is sorted for the evaluation.`,
    )
  if (same > 0)
    remark('duplicates', `${name} repeats a value ${same} times in a row; repeated points are averaged.`)
}

function powerFindings(column: ScanColumn, name: string, findings: Finding[]): void {
  const { values } = column
  let highest = -Infinity
  for (const value of values) if (value > highest) highest = value
  if (values.every((value) => value === 0)) {
    findings.push({ code: 'all-zero', severity: 'error', message: `${name} is zero in every row.` })
    return
  }
  if (values.length > 1 && values.every((value) => value === highest)) {
    findings.push({
      code: 'all-same',
      severity: 'error',
      message: `${name} is the same in every row: no signal, or a detector saturated throughout.`,
    })
    return
  }
  const cut = saturatedLength(values)
  if (cut > 0) {
    findings.push({
      code: 'flat-top',
      severity: 'remark',
      message: `${name} is at its highest value ${cut} times in a row: is the detector saturated?`,
    })
  }
}
