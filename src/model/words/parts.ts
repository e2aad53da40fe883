// The parts a project knows: fibres, chip facets, gap media, converters and lenses.

export const MEDIUM_STATES = ['gas', 'gel', 'adhesive'] as const

/** How the width of an on-chip taper rises from its tip: in proportion to the distance, or to its square. */
export const TAPER_PROFILES = ['linear', 'quadratic'] as const
