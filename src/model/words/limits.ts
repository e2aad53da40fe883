// How much a project, a measurement and a text may hold: the one place of these numbers. The file schema, the readers, the screen and
// what they say in a refusal read them here, so that what can be made can be opened. docs/guide/projects-and-links.md names them.

export const LIMITS = {
  file: {
    /** Measurements are most of it: a camera image keeps up to 5 MB. */
    textBytes: 64_000_000,
    /** All but packed numbers: readings and sampled fields. */
    plainBytes: 24_000_000,
    /** The only key whose texts are treated as packed numbers. */
    packedKey: 'base64',
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
  /** Requirements that a priority or a group can name. */
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
  /** A text in a number field. */
  numberCharacters: 200,
} as const

/** What a project keeps of one measurement. The file schema and the reader of instrument files both read this. */
export const READING_LIMITS = {
  /** A measurement file as it is dropped. */
  fileBytes: 50_000_000,
  columns: 40,
  numbers: 4_000_000,
  /** Readings of one lot of assemblies. */
  lotRows: 100_000,
  /** Of one column or image, as base64. */
  packedCharacters: 12_000_000,
  /** Pixels along a side of an image. */
  fewestPixels: 4,
  mostPixels: 20_000,
  binning: 64,
  fileNameCharacters: 300,
  labelCharacters: 200,
  notes: 200,
  noteCharacters: 2000,
  /** Greatest magnitude of a reading in its core unit; real ones are smaller by many orders. */
  most: { rad: 1e4, um: 1e9, uW: 1e15, relative: 1e15, dB: 1e4 },
  /** Pixels of a camera image as it is read: 400 MB while it is looked at. */
  imagePixels: 50_000_000,
  /** Counts of a camera. */
  mostCounts: 1e12,
} as const
