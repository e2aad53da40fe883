// The numbers of a saved project for tests that work a design out once more: the file is read as plain data, without the app's
// own reader.

export interface SavedQuantity {
  readonly value: number
  readonly unit: string
  readonly tolerance?: {
    readonly plusMinus: number
    readonly distribution: string
    readonly coverage?: number
  }
  readonly uncertainty?: { readonly plusMinus: number; readonly coverage: number }
}

// biome-ignore lint/suspicious/noExplicitAny: a file as plain data
export type Data = any

/** A number that may be off, with the half width and the law of its tolerance, in um, rad, dB, K or 1. */
export interface Off {
  readonly value: number
  readonly halfWidth: number
  /** Half width in standard deviations of a normal law; null for a uniform one. */
  readonly sigmas: number | null
}

/** Reads a number of an assembly that deviates so. */
export type Read = (v: Float64Array) => number

const UNITS: Readonly<Record<string, number>> = {
  um: 1,
  mm: 1e3,
  nm: 1e-3,
  deg: Math.PI / 180,
  dB: 1,
  '%': 0.01,
  degC: 1,
  '1': 1,
}
const NONE: Off = { value: 0, halfWidth: 0, sigmas: null }

/** Sellmeier's n² = 1 + sum of b λ² / (λ² - c²), c and λ in um, as pairs of b and c. */
const sellmeier =
  (terms: readonly (readonly [b: number, c: number])[]) =>
  (wavelengthUm: number): number =>
    Math.sqrt(terms.reduce((sum, [b, c]) => sum + b / (1 - (c / wavelengthUm) ** 2), 1))

/** I. H. Malitson, J. Opt. Soc. Am. 55 (1965) 1205; C. D. Salzberg and J. J. Villa, J. Opt. Soc. Am. 47 (1957) 244 (from memory). */
const MATERIALS: Readonly<Record<string, (wavelengthUm: number) => number>> = {
  air: () => 1.00027,
  'fused silica': sellmeier([
    [0.6961663, 0.0684043],
    [0.4079426, 0.1162414],
    [0.8974794, 9.896161],
  ]),
  silicon: sellmeier([
    [10.6684293, 0.301516485],
    [0.00304347484, 1.13475115],
    [1.54133408, 1104],
  ]),
}

function unitOf(unit: string): number {
  const factor = UNITS[unit]
  if (factor === undefined) throw new Error(`no unit ${unit}`)
  return factor
}

export function off(quantity: SavedQuantity | undefined): Off {
  if (quantity === undefined) return NONE
  const { tolerance, unit, value } = quantity
  return {
    value: value * unitOf(unit),
    halfWidth: (tolerance?.plusMinus ?? 0) * unitOf(unit),
    sigmas: tolerance?.distribution === 'normal' ? (tolerance.coverage ?? 2) : null,
  }
}

export const still = (value: number): Read => {
  return () => value
}

/** Every number of a design that can be off, each once: a part that serves twice deviates alike in both places. */
export interface Register {
  readonly names: string[]
  readonly offs: Off[]
  /** The value with the tolerance of the part, and with what a measurement leaves open by a law of its own. */
  readonly quantity: (label: string, found: SavedQuantity | undefined) => Read
  /** An index by its value or by its material. */
  readonly index: (label: string, of: Data) => Read
}

export function register(wavelengthUm: number): Register {
  const names: string[] = []
  const offs: Off[] = []
  const one = (label: string, found: Off): Read => {
    const known = names.indexOf(label)
    const at = known >= 0 ? known : names.push(label) - 1
    offs[at] = found
    return (v) => found.value + (v[at] ?? 0)
  }
  const quantity = (label: string, found: SavedQuantity | undefined): Read => {
    const own = one(label, off(found))
    if (found?.uncertainty === undefined) return own
    const { plusMinus, coverage } = found.uncertainty
    const open = one(`${label}, measured`, {
      value: 0,
      halfWidth: plusMinus * unitOf(found.unit),
      sigmas: coverage,
    })
    return (v) => own(v) + open(v)
  }
  const index = (label: string, of: Data): Read => {
    if (of.kind === 'value') return quantity(`index of ${label}`, of.index)
    const known = MATERIALS[of.material]
    if (known === undefined) throw new Error(`no index of ${of.material}`)
    return still(known(wavelengthUm))
  }
  return { names, offs, quantity, index }
}
