// How the mode of a fibre or a facet is shaped where it is more than a Gaussian: the exact mode of the core, of an index
// profile or of the facet's cross-section, or a field that was brought from elsewhere.

export const FIELD_LIMITS = {
  /** Points a side of a kept field. */
  points: 128,
  profilePoints: 400,
  stepUm: 50,
} as const
