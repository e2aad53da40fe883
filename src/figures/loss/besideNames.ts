// How a result by real fields or lenses, and the simpler one drawn thin beside it, are called.

export interface BesideNames {
  /** Of the curve in front. */
  readonly own: string
  /** Of the dotted curve. */
  readonly beside: string
  /** Of the dotted one in a sentence: `loss …`. */
  readonly words: string
}

export const FIELD_NAMES: BesideNames = {
  own: 'field overlap',
  beside: 'Gaussian',
  words: 'for Gaussian modes',
}
export const LENS_NAMES: BesideNames = {
  own: 'real lenses',
  beside: 'paraxial',
  words: 'of the paraxial image',
}
