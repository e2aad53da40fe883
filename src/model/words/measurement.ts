// A measurement as the project keeps it: the readings themselves, compactly, and what is needed to evaluate them again.
// Results are never stored: they follow from this.

export const READING_ROLES = ['angle', 'position', 'length', 'power', 'loss'] as const
export const READING_UNITS = ['rad', 'um', 'uW', 'relative', 'dB'] as const

/** What each method is called. */
export const METHOD_NAMES = {
  'far-field': 'Far-field angular scan',
  offset: 'Transverse-offset scan',
  raster: 'Raster scan',
  loopback: 'Loopback or cut-back series',
  repeated: 'Repeated readings',
  image: 'Near-field image',
  lot: 'Lot of assemblies',
  stress: 'Stress test',
} as const

/** What a column of a lot table sorts its readings by. */
export const LOT_LABELS = ['assembly', 'channel', 'batch', 'station'] as const
export type LotLabel = (typeof LOT_LABELS)[number]
