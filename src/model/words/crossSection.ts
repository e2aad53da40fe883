// Limits of the cross-section of a waveguide at a chip facet.

export const SECTION_LIMITS = { layers: 12, cores: 12 } as const
