// A column heading taken apart: what it is called, its unit, and what that says about its role.

import type { ColumnRole } from './scan'
import { unitName, unitRule } from './units'

export interface ColumnLabel {
  readonly label: string
  /** As the file wrote it. */
  readonly unit: string | null
}

/** Units that are also everyday letters count only where they are set apart: "[V]", "V_out" has none. */
const SHY_UNITS = new Set(['m', 'w', 'v', 'a', 'ma', 'na', 'ua', 'rel', 'au', '%'])

/** "Angle [deg]", "angle (deg)", "angle / deg", "angle_deg", "stage position um" and a bare "um". */
export function splitLabel(heading: string): ColumnLabel {
  const text = heading.trim().replace(/^["']|["']$/g, '')
  const bracketed = /^(.*?)\s*[[({]\s*([^\])}]*?)\s*[\])}]\s*$/.exec(text)
  if (bracketed?.[2] !== undefined && unitName(bracketed[2]))
    return { label: bracketed[1] ?? '', unit: bracketed[2] }
  const divided = /^(.*\S)\s*\/\s*(\S+)$/.exec(text)
  if (divided?.[2] && unitName(divided[2])) return { label: divided[1] ?? '', unit: divided[2] }
  const tailed = /^(.*\S)[\s_,:-]+(\S+)$/.exec(text)
  const tail = tailed?.[2]
  if (tail && unitName(tail) && !SHY_UNITS.has(tail.toLowerCase()))
    return { label: tailed[1] ?? '', unit: tail }
  if (tail && /_/.test(text) && unitName(tail)) return { label: tailed[1] ?? '', unit: tail }
  // "P along x W": what is called a power may end in a shy unit of power.
  const rest = tailed?.[1]
  if (tail && rest && unitRule(tail)?.dimension === 'power' && nameOf(rest) === 'power')
    return { label: rest, unit: tail }
  if (unitName(text) && !SHY_UNITS.has(text.toLowerCase())) return { label: text, unit: text }
  return { label: text, unit: null }
}

/** True if every cell that is not empty is a unit, possibly in brackets: the line under a heading. */
export function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.map(bareUnit).filter((cell) => cell !== '')
  return filled.length > 0 && filled.every((cell) => unitName(cell) !== undefined)
}

export function bareUnit(cell: string): string {
  return cell.trim().replace(/^["'[({]+|["'\])}]+$/g, '')
}

const WORDS: readonly (readonly [ColumnRole, RegExp])[] = [
  [
    'other',
    /\btime|timestamp|elapsed|\bindex\b|\bpoints?\b|\bsample\b|temperature|humidity|^(no|nr|n|#)\.?$/i,
  ],
  ['loss', /loss|attenuation|\bil\b/i],
  [
    'power',
    /power|level|intens|signal|detector|photocurrent|volt|counts|transm|\btrans\b|\bp[xy]?\b|\bp_?[xy]\b|\bi\b|\bi_?[xy]\b/i,
  ],
  ['length', /length|cut-?back/i],
  ['angle', /angle|angular|theta|θ|\bphi\b|\bdeg/i],
  ['position', /pos|stage|offset|displace|shift|\b[xyz]\b|^[xyz]_/i],
]

const nameOf = (label: string) => WORDS.find(([, pattern]) => pattern.test(label))?.[0]

/** The role that name and unit agree on; undefined where they say nothing. */
export function roleOf({ label, unit }: ColumnLabel): ColumnRole | undefined {
  const named = nameOf(label)
  const dimension = unit === null ? undefined : unitRule(unit)?.dimension
  if (dimension === 'angle') return 'angle'
  if (dimension === 'length') return named === 'length' ? 'length' : 'position'
  if (dimension === 'power') return 'power'
  if (dimension === 'decibel') return named === 'loss' ? 'loss' : 'power'
  return named
}
