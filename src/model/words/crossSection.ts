// Limits of the cross-section of a waveguide at a chip facet.

/** How the index of a core runs across it; a core without the key is uniform. The others are those of diffused guides in glass. */
export const CORE_PROFILES = [
  'uniform',
  'buried Gaussian',
  'surface Gaussian',
  'surface erfc',
  'user profiles',
  'index map',
] as const
export type CoreProfile = (typeof CORE_PROFILES)[number]

export const SECTION_LIMITS = {
  layers: 12,
  cores: 12,
  /** Entries of a profile table, and of index steps over wavelength. */
  profilePoints: 400,
  wavelengths: 40,
  /** Points of an index map along each side. */
  mapPoints: 400,
  distanceUm: 1000,
} as const
