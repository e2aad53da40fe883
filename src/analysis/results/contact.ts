// Where glass first touches a chip.

export interface Contact {
  /** Gap between the middles of both faces at which the first corner touches, um; below 0 where nothing is in the way. */
  readonly gapUm: number
  /** What touches what. */
  readonly body: string
  readonly obstacle: string
  /** Where, from the waveguide's axis at the facet. */
  readonly xUm: number
  readonly yUm: number
}
