// The parts a project knows: fibres, chip facets, gap media, converters and lenses.

export const MEDIUM_STATES = ['gas', 'gel', 'adhesive'] as const
