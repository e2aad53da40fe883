// How a result by real fields or lenses, and the simpler one drawn thin beside it, are called.

export interface BesideNames {
  /** Of the curve in front. */
  readonly own: string
  /** Of the dotted curve. */
  readonly beside: string
  /** What the dotted contours of a map are. */
  readonly dotted: string
  /** The column of the dotted curve in its table. */
  readonly column: string
}

export const FIELD_NAMES: BesideNames = {
  own: 'field overlap',
  beside: 'Gaussian',
  dotted: 'for Gaussian modes',
  column: 'Loss for Gaussian modes',
}
export const LENS_NAMES: BesideNames = {
  own: 'real lenses',
  beside: 'paraxial',
  dotted: 'paraxial image',
  column: 'Loss of the paraxial image',
}
