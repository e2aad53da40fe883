// The parts a project knows: fibres, chip facets, gap media, converters and lenses.

export const MEDIUM_STATES = ['gas', 'gel', 'adhesive'] as const

/** How the width of an on-chip taper rises from its tip: in proportion to the distance, or to its square. */
export const TAPER_PROFILES = ['linear', 'quadratic'] as const

/** A lens shape as it is ordered; of a thin lens only the focal length is known. */
export const LENS_SHAPE_TEXTS = {
  thin: 'defined by focal length only',
  ball: 'ball',
  'plano-convex': 'plano-convex',
  biconvex: 'biconvex',
  'gradient index': 'gradient index',
} as const
