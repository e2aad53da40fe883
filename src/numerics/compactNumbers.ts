// Columns of raw data as short text for the project file, without losing a bit: base64 of the narrowest number type
// that holds every value exactly (whole counts as one or two bytes, others as four or eight), little-endian.

import { InputError } from './inputError'

type NumberType = 'u1' | 'u2' | 'f4' | 'f8'

export interface CompactNumbers {
  readonly type: NumberType
  readonly count: number
  readonly base64: string
}

const BYTES: Readonly<Record<NumberType, number>> = { u1: 1, u2: 2, f4: 4, f8: 8 }
/** Longer argument lists overflow the stack. */
const CHUNK = 8192

export function packNumbers(values: Float64Array): CompactNumbers {
  const type = narrowestType(values)
  const size = BYTES[type]
  const view = new DataView(new ArrayBuffer(values.length * size))
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number
    if (type === 'u1') view.setUint8(i, value)
    else if (type === 'u2') view.setUint16(i * size, value, true)
    else if (type === 'f4') view.setFloat32(i * size, value, true)
    else view.setFloat64(i * size, value, true)
  }
  const bytes = new Uint8Array(view.buffer)
  let text = ''
  for (let i = 0; i < bytes.length; i += CHUNK) text += String.fromCharCode(...bytes.subarray(i, i + CHUNK))
  return { type, count: values.length, base64: btoa(text) }
}

/** InputError for text that is not base64, an unknown type, or a length that does not fit. */
export function unpackNumbers({ type, count, base64 }: CompactNumbers): Float64Array {
  const size = BYTES[type]
  if (size === undefined) throw new InputError('type', type, 'u1, u2, f4 or f8')
  let text: string
  try {
    text = atob(base64)
  } catch {
    throw new InputError('base64', base64.slice(0, 20), 'base64 text')
  }
  if (text.length !== count * size)
    throw new InputError('base64', `${text.length} bytes`, `${count * size} bytes`)
  const bytes = new Uint8Array(text.length)
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i)
  if (type === 'u1') return Float64Array.from(bytes)
  const view = new DataView(bytes.buffer)
  const values = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    if (type === 'u2') values[i] = view.getUint16(i * size, true)
    else values[i] = type === 'f4' ? view.getFloat32(i * size, true) : view.getFloat64(i * size, true)
  }
  return values
}

function narrowestType(values: Float64Array): NumberType {
  let whole = true
  let single = true
  let highest = 0
  for (const value of values) {
    if (!(value >= 0 && Number.isInteger(value)) || Object.is(value, -0)) whole = false
    if (Math.fround(value) !== value) single = false
    if (value > highest) highest = value
  }
  if (whole && highest <= 255) return 'u1'
  if (whole && highest <= 65_535) return 'u2'
  return single ? 'f4' : 'f8'
}
