// Facts that people write into the comments above their data.

import type { ScanMetadata } from './scan'
import { unitRule } from './units'

const NUMBER = String.raw`([-+]?\d+(?:[.,]\d+)?(?:e[-+]?\d+)?)`
const LENGTH_UNIT = '(nm|um|µm|μm|mm|micron)?'
const WAVELENGTH = new RegExp(
  String.raw`(?:wave ?length|lambda|λ)[_ [(]*${LENGTH_UNIT}[^0-9+-]{0,12}${NUMBER}\s*${LENGTH_UNIT}`,
  'i',
)
const PROBE = new RegExp(
  String.raw`probe[^0-9]{0,30}?mfd[_ [(]*${LENGTH_UNIT}[^0-9+-]{0,12}${NUMBER}\s*${LENGTH_UNIT}`,
  'i',
)

/** Wavelength and probe MFD, where the notes name them. A wavelength without a unit is nm above 50, else um. */
export function metadataOf(notes: readonly string[]): ScanMetadata {
  const wavelengthUm = lengthUm(notes, WAVELENGTH)
  const probeMfdUm = lengthUm(notes, PROBE)
  return {
    ...(wavelengthUm === undefined ? {} : { wavelengthUm }),
    ...(probeMfdUm === undefined ? {} : { probeMfdUm }),
    notes,
  }
}

function lengthUm(notes: readonly string[], pattern: RegExp): number | undefined {
  for (const note of notes) {
    const match = pattern.exec(note)
    if (!match?.[2]) continue
    const value = Number(match[2].replace(',', '.'))
    const factor = unitRule(match[3] ?? match[1] ?? '')?.factor ?? (value > 50 ? 1e-3 : 1)
    if (value > 0) return value * factor
  }
  return undefined
}
