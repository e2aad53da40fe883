// The numbers of a part by the name of their field, as far as they are its own: not those of a cross-section, an end of a chip, films or
// tabulated wavelengths, of which a part may have many.

import type { Quantity } from '../quantity/quantity'
import { fieldWords } from '../quantity/quantityWords'

const APART: ReadonlySet<string> = new Set([
  'crossSection',
  'inputEnd',
  'outputEnd',
  'overWavelength',
  'modeShape',
  'films',
])

interface NamedQuantity {
  readonly field: string
  readonly label: string
  readonly quantity: Quantity
}

const isQuantity = (value: object): value is Quantity =>
  'value' in value && 'unit' in value && 'provenance' in value

/** In the order of the fields; those of a TM mode are named so. */
export function partQuantities(part: object, prefix = ''): readonly NamedQuantity[] {
  return Object.entries(part).flatMap(([key, value]: [string, unknown]): readonly NamedQuantity[] => {
    if (typeof value !== 'object' || value === null || Array.isArray(value) || APART.has(key)) return []
    if (!isQuantity(value)) return partQuantities(value, key === 'tm' ? 'tm ' : prefix)
    const words = `${prefix === '' ? '' : 'TM '}${fieldWords(key)}`
    const label = words.charAt(0).toUpperCase() + words.slice(1)
    return [{ field: `${prefix}${key}`, label, quantity: value }]
  })
}
