// The words of the trade as this app uses them: one name for one quantity. Tooltips, the glossary page and
// docs/guide/glossary.md all read these entries.

import { AREAS, type TermId } from './glossary/areas'
import { LABELS_OF } from './glossary/labels'
import type { Term } from './glossary/term'

export type { TermId } from './glossary/areas'
export type { Term } from './glossary/term'

interface GlossaryArea {
  readonly title: string
  readonly terms: readonly (Term & { readonly id: TermId })[]
}

/** All entries by area, in the order in which they are printed. */
export const GLOSSARY: readonly GlossaryArea[] = Object.entries(AREAS).map(([title, terms]) => ({
  title,
  terms: Object.entries<Term>(terms).map(([id, term]) => ({ ...term, id: id as TermId })),
}))

const BY_ID: ReadonlyMap<string, Term> = new Map(
  GLOSSARY.flatMap(({ terms }) => terms.map((term) => [term.id, term] as const)),
)

/** The entry of an id; undefined for an id that the glossary does not have. */
export function termOf(id: string): Term | undefined {
  return BY_ID.get(id)
}

/** A label without units, signs and abbreviations in brackets, in small letters. */
function bare(label: string): string {
  return label
    .replace(/(?<!\s)\s*\([^()]*\)/g, '')
    .replace(/,? (?:µm|µW|nm|mm|dB|dB\/mm|kW\/cm²|mW|°C|°|%|ppm\/K)$/, '')
    .trimEnd()
    .replace(/[,:≤≥]$/, '')
    .trimEnd()
    .replaceAll('\u00a0', ' ')
    .trim()
    .toLowerCase()
}

const BY_LABEL: ReadonlyMap<string, TermId> = new Map(
  GLOSSARY.flatMap(({ terms }) =>
    terms.flatMap(({ id, name }) =>
      [name, ...(LABELS_OF[id] ?? [])].map((label) => [bare(label), id] as const),
    ),
  ),
)

/** The entry that explains a label as it is on screen; undefined where the label is plain English. */
export function termIdOfLabel(label: string): TermId | undefined {
  return BY_LABEL.get(bare(label))
}

/** The facts of an entry in addition to its definition, named, in the order in which they are printed. */
export function termFacts({ symbol, unit, sign, formula }: Term): readonly (readonly [string, string])[] {
  const facts = [
    ['Symbol', symbol],
    ['Unit', unit],
    ['Sign', sign],
    ['Formula', formula],
  ] as const
  return facts.flatMap(([name, text]) => (text === undefined ? [] : [[name, text] as const]))
}
