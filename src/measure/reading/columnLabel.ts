// A column heading taken apart: what it is called, its unit, and what that says about its role.

import type { ColumnRole } from './scan'
import { unitName, unitRule } from './units'

export interface ColumnLabel {
  readonly label: string
  /** As written in the file. */
  readonly unit: string | null
}

/** Units that are also everyday letters are recognised only where they are set apart, as in "[V]"; "V_out" has no unit. */
const SHY_UNITS = new Set(['m', 'w', 'v', 'a', 'ma', 'na', 'ua', 'rel', 'au', '%'])

/** "Angle [deg]", "angle (deg)", "angle / deg", "angle_deg", "stage position um" and a bare "um". */
export function splitLabel(heading: string): ColumnLabel {
  const text = heading
    .trim()
    .replace(/^["']|["']$/g, '')
    .trim()
  const set = inBrackets(text) ?? splitAt(text, text.lastIndexOf('/', text.length - 2))
  if (set !== null && unitName(set.unit)) return set
  const tailed = splitAt(text, lastOf(text, SEPARATORS, text.length - 2))
  if (tailed !== null && unitName(tailed.unit)) {
    if (!SHY_UNITS.has(tailed.unit.toLowerCase()) || text.includes('_')) return tailed
    // "P along x W": a column called a power may end in such a unit of power.
    if (unitRule(tailed.unit)?.dimension === 'power' && nameOf(tailed.label) === 'power') return tailed
  }
  if (unitName(text) && !SHY_UNITS.has(text.toLowerCase())) return { label: text, unit: text }
  return { label: text, unit: null }
}

const OPENING: ReadonlySet<string> = new Set('[({')
const CLOSING: ReadonlySet<string> = new Set('])}')
const SEPARATORS: ReadonlySet<string> = new Set(' \t_,:-')

/** Last position up to `from` of one of the signs; -1 if there is none. */
function lastOf(text: string, signs: ReadonlySet<string>, from: number): number {
  for (let at = from; at >= 0; at--) if (signs.has(text[at] ?? '')) return at
  return -1
}

/** The text before and after a sign, if that after it is one word. */
function splitAt(text: string, at: number): { readonly label: string; readonly unit: string } | null {
  const [label, unit] = [text.slice(0, Math.max(0, at)).trimEnd(), text.slice(at + 1).trimStart()]
  return at < 0 || label === '' || unit === '' || /\s/.test(unit) ? null : { label, unit }
}

/** The text before a bracket that closes at its end, and the content of the bracket. */
function inBrackets(text: string): { readonly label: string; readonly unit: string } | null {
  const last = text.length - 1
  if (!CLOSING.has(text[last] ?? '')) return null
  for (let at = lastOf(text, CLOSING, last - 1) + 1; at < last; at++) {
    if (OPENING.has(text[at] ?? ''))
      return { label: text.slice(0, at).trimEnd(), unit: text.slice(at + 1, last).trim() }
  }
  return null
}

/** True if every cell that is not empty is a unit, possibly in brackets: the line under a heading. */
export function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.map(bareUnit).filter((cell) => cell !== '')
  return filled.length > 0 && filled.every((cell) => unitName(cell) !== undefined)
}

export function bareUnit(cell: string): string {
  return cell.trim().replace(/^["'[({]+|(?<!["'\])}])["'\])}]+$/g, '')
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

/** The role on which name and unit agree; undefined where neither gives one. */
export function roleOf({ label, unit }: ColumnLabel): ColumnRole | undefined {
  const named = nameOf(label)
  const dimension = unit === null ? undefined : unitRule(unit)?.dimension
  if (dimension === 'angle') return 'angle'
  if (dimension === 'length') return named === 'length' ? 'length' : 'position'
  if (dimension === 'power') return 'power'
  if (dimension === 'decibel') return named === 'loss' ? 'loss' : 'power'
  return named
}
