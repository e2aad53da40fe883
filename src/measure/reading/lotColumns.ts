// Which column of a lot table is what, by its heading; where the heading does not say, the user is asked.

import { splitLabel } from './columnLabel'
import { isExposureHeading } from './exposureColumn'
import type { Doubt, ScanAnswers } from './scan'

export const LOT_ROLES = [
  'assembly',
  'channel',
  'loss',
  'exposure',
  'return loss',
  'date',
  'station',
  'batch',
  'not used',
] as const
type LotRole = (typeof LOT_ROLES)[number]

export interface LotColumn {
  readonly label: string
  /** As written in the file; null where there is none. */
  readonly unit: string | null
  readonly role: LotRole
  /** A loss column of a wide table is one channel. */
  readonly channel: string | null
}

const ONE_CHANNEL = /^(ch|channel|port|lane|fib(re|er)|wg|waveguide)[\s_.#-]*\d+\b/i
const WORDS: readonly (readonly [LotRole, RegExp])[] = [
  ['return loss', /return|reflect|\brl\b|\borl\b/i],
  ['loss', /loss|attenuation|\bil\b/i],
  ['date', /\bdate|\bday\b|\btime|timestamp/i],
  ['batch', /\bbatch|\blot\b|\bwafer|\brun\b/i],
  ['station', /\bstation|\bbench\b|\bset-?up\b|\boperator|\bbonder/i],
  ['assembly', /assembly|\bmodule|\bserial|\bdevice|\bdut\b|\bpackage|\bpart\b|\bunit\b|\bs\/?n\b/i],
  ['channel', /\bchannel|\bch\b|\bport\b|\blane\b|\bfib(re|er)\b/i],
]

function headed(heading: string): LotColumn & { readonly known: boolean } {
  const { label, unit } = splitLabel(heading)
  const words = label.replaceAll('_', ' ')
  if (ONE_CHANNEL.test(words)) return { label, unit, role: 'loss', channel: label, known: true }
  const found = WORDS.find(([, pattern]) => pattern.test(words))?.[0]
  const role = isExposureHeading(heading) && found !== 'loss' && found !== 'return loss' ? 'exposure' : found
  return {
    label,
    unit,
    role: role ?? 'not used',
    channel: null,
    known: role !== undefined,
  }
}

/** Whether the headings are those of a lot or of a stress test: a loss, and an assembly or the exposure. */
export function isLotHeading(cells: readonly string[]): boolean {
  const roles = cells.map((cell) => headed(cell).role)
  return roles.includes('loss') && (roles.includes('assembly') || roles.includes('exposure'))
}

/** Columns with their roles, as headings and answers say; a doubt for each that is not known. */
export function lotColumns(
  headings: readonly string[],
  answers: ScanAnswers,
  doubts: Doubt[],
): readonly LotColumn[] {
  const columns = headings.map((heading, c) => {
    const { known, ...column } = headed(heading)
    const answer = LOT_ROLES.find((role) => role === answers[`role:${c}`])
    const role = answer ?? column.role
    if (!known) {
      doubts.push({
        id: `role:${c}`,
        question: `Column ${c + 1} "${heading}" is not a recognised heading of a lot table. Which quantity is it?`,
        assumed: role,
        alternatives: LOT_ROLES.filter((other) => other !== role),
      })
    }
    return {
      ...column,
      role,
      channel: role === 'loss' ? column.channel : null,
    }
  })
  const losses = columns.filter(({ role }) => role === 'loss')
  return losses.length < 2
    ? columns.map((column) => ({ ...column, channel: null }))
    : columns.map((column) =>
        column.role === 'loss' && column.channel === null ? { ...column, channel: column.label } : column,
      )
}
