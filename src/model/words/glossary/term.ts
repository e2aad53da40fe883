// One entry of the glossary. Formulas and symbols are plain text, so that a tooltip, a page and a file print them alike.

export interface Term {
  /** As a heading: with a capital and its usual abbreviation. */
  readonly name: string
  /** One or two sentences. */
  readonly definition: string
  readonly unit?: string
  /** What a positive value means, where that is a convention. */
  readonly sign?: string
  readonly symbol?: string
  readonly formula?: string
}
