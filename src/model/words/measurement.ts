// A measurement as the project keeps it: the readings themselves, compactly, and what is needed to evaluate them again.
// Results are never stored: they follow from this.

export const READING_ROLES = ['angle', 'position', 'length', 'power', 'loss'] as const
export const READING_UNITS = ['rad', 'um', 'uW', 'relative', 'dB'] as const

/** What a project keeps of one measurement. The file schema and the reader of instrument files both read this. */
export const READING_LIMITS = {
  columns: 40,
  numbers: 4_000_000,
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
