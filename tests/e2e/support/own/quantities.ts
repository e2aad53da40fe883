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

/** Indices near 1550 nm: I. H. Malitson (1965) for silica; silicon from common tables (from memory). */
const MATERIALS: Readonly<Record<string, number>> = { air: 1.00027, 'fused silica': 1.444, silicon: 3.476 }

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

export function register(): Register {
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
    return still(known)
  }
  return { names, offs, quantity, index }
}
