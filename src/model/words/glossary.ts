// The words of the trade as this program uses them: one name for one quantity. Tooltips, the glossary page and
// docs/guide/glossary.md all read these entries.

import { ALIGNMENT_TERMS } from './glossary/alignment'
import { ARRAY_TERMS } from './glossary/arrays'
import { COMPONENT_TERMS } from './glossary/components'
import { CROSS_SECTION_TERMS } from './glossary/crossSection'
import { LIGHT_TERMS } from './glossary/light'
import { LOSS_TERMS } from './glossary/losses'
import { MEASUREMENT_TERMS } from './glossary/measurements'
import { MODE_TERMS } from './glossary/modes'
import { PATH_TERMS } from './glossary/path'
import type { Term } from './glossary/term'
import { TOLERANCE_TERMS } from './glossary/tolerances'

export type { Term } from './glossary/term'

const AREAS = {
  'Losses and budget': LOSS_TERMS,
  'Optical path and designs': PATH_TERMS,
  'Alignment and assembly': ALIGNMENT_TERMS,
  'Modes and indices': MODE_TERMS,
  'Reflections, polarisation and power': LIGHT_TERMS,
  'Tolerances and yield': TOLERANCE_TERMS,
  Arrays: ARRAY_TERMS,
  'Facets, lenses and lensed fibres': COMPONENT_TERMS,
  'Waveguide cross-section': CROSS_SECTION_TERMS,
  Measurements: MEASUREMENT_TERMS,
} as const

type KeyOf<T> = T extends unknown ? keyof T : never
export type TermId = KeyOf<(typeof AREAS)[keyof typeof AREAS]>

export interface GlossaryArea {
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

/** The facts of an entry beside its definition, named, in the order in which they are printed. */
export function termFacts({ symbol, unit, sign, formula }: Term): readonly (readonly [string, string])[] {
  const facts = [
    ['Symbol', symbol],
    ['Unit', unit],
    ['Sign', sign],
    ['Formula', formula],
  ] as const
  return facts.flatMap(([name, text]) => (text === undefined ? [] : [[name, text] as const]))
}

/** The whole glossary as Markdown. */
export function glossaryMarkdown(): string {
  const entry = (term: Term) => {
    const facts = termFacts(term).map(([name, text]) => `${name}: ${text}`)
    return [`**${term.name}.** ${term.definition}`, ...facts].join('  \n')
  }
  const areas = GLOSSARY.map(({ title, terms }) => [`## ${title}`, ...terms.map(entry)].join('\n\n'))
  return `${['# Glossary', 'One name for one quantity, on screen, in messages, in files and in this guide.', ...areas].join('\n\n')}\n`
}
