// How much a project may hold. The file schema and the screen both read this, so that what can be made can be opened.

export const LIMITS = {
  file: {
    /** Measurements are most of it: a camera image keeps up to 5 MB. */
    textBytes: 64_000_000,
    depth: 40,
    /** Values of every kind: numbers, texts, lists, objects. */
    nodes: 2_000_000,
  },
  parts: 500,
  candidates: 100,
  chainElements: 40,
  userLines: 200,
  films: 60,
  modePoints: 20,
  measurements: 200,
  revisions: 50,
  lossCriteria: 12,
  /** Requirements that a wish or a group can name. */
  requirementIds: 40,
  /** Sections of a review sheet. */
  sections: 100,
  /** All readings of a project together, in characters of its file. */
  packedReadings: 40_000_000,
  /** Half width of a tolerance, in whatever unit. */
  plusMinus: 1e9,
  /** Standard deviations in the half width of a normal tolerance. */
  coverage: { least: 0.1, most: 10 },
  nameCharacters: 200,
} as const
