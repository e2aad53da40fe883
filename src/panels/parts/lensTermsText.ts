// Conic and aspheric terms as a line of text: "-0.6; 1.2e-1 -3e-2", the conic constant first.

import type { LensShapeEntry } from '../../model/schema/parts'

export interface Terms {
  readonly conic: number
  /** A4, A6, ... in mm^-3, mm^-5, ... */
  readonly aspheric: readonly number[]
}

const MOST_TERMS = 7
const CONIC = 50
const GREATEST = 1e9

/** Empty for a sphere. */
export function termsText({ conic, aspheric }: Terms): string {
  if (conic === 0 && aspheric.length === 0) return ''
  return aspheric.length === 0 ? `${conic}` : `${conic}; ${aspheric.join(' ')}`
}

/** The terms, or what is wrong with the text. */
export function readTerms(text: string): Terms | string {
  const words = text.split(/[;\s]+/).filter((word) => word !== '')
  const numbers = words.map(Number)
  const wrong = words.find((_, i) => !Number.isFinite(numbers[i]))
  if (wrong !== undefined) return `Surface terms: "${wrong}" is not a number (example: -0.6; 1.2e-1 -3e-2)`
  const [conic = 0, ...aspheric] = numbers
  if (Math.abs(conic) > CONIC) return `Conic constant: ${conic}; must be −${CONIC} to ${CONIC}`
  if (aspheric.length > MOST_TERMS)
    return `Aspheric terms: ${aspheric.length} entered; the limit is ${MOST_TERMS}`
  const large = aspheric.find((term) => Math.abs(term) > GREATEST)
  if (large !== undefined) return `Aspheric terms: ${large}; must be −1e9 to 1e9`
  return { conic, aspheric }
}

/** The shape with the terms in the two named fields; a sphere keeps neither. */
export function withTerms(
  shape: LensShapeEntry,
  conic: string,
  aspheric: string,
  terms: Terms,
): LensShapeEntry {
  const { [conic]: _conic, [aspheric]: _aspheric, ...rest } = shape as Record<string, unknown>
  return {
    ...rest,
    ...(terms.conic !== 0 && { [conic]: terms.conic }),
    ...(terms.aspheric.length > 0 && { [aspheric]: [...terms.aspheric] }),
  } as LensShapeEntry
}
