// Many vectors of values side by side: a column for every sampled place, the others held. What a chain reads of them is
// found once, so that a sample costs the formulas and not the calls that lead to them.

import type { Reader, Values } from './readers'

/** The values of a reader for the vectors at hand; overwritten by the next ones. */
export type Column = () => Float64Array

export interface Columns {
  /** Most vectors that are held at a time. */
  readonly size: number
  /** Values of the places that are not sampled; the entries of the others are not read. */
  readonly held: Values
  /** The values at a sampled place, to be overwritten before `begin`. */
  readonly sampledAt: (place: number) => Float64Array
  /** The columns now hold the values of `count` other vectors. */
  readonly begin: (count: number) => void
  readonly columnOf: (reader: Reader, reads?: Iterable<number>) => Column
  /** A column worked out once for the vectors at hand. */
  readonly derived: (fill: (out: Float64Array, count: number) => void) => Column
  /** The reader's value of one vector. */
  readonly valueAt: (reader: Reader, at: number) => number
}

/** Columns of the sampled places, at most `size` vectors at a time; the other places stay as in `held`. */
export function columnsFor(sampledPlaces: readonly number[], held: Values, size: number): Columns {
  const values = Float64Array.from(held)
  const sampled = new Map(sampledPlaces.map((place) => [place, new Float64Array(size)]))
  const known = new Map<Reader, Column>()
  let count = 0
  let stamp = 0

  const sampledAt = (place: number): Float64Array => {
    const column = sampled.get(place)
    if (column === undefined) throw new Error(`value ${place} has no column`)
    return column
  }
  const derived: Columns['derived'] = (fill) => {
    const out = new Float64Array(size)
    let filledFor = -1
    return () => {
      if (filledFor !== stamp) fill(out, count)
      filledFor = stamp
      return out
    }
  }
  const made = (reader: Reader, reads: Iterable<number> | undefined): Column => {
    if (reader.place !== undefined) {
      const own = sampled.get(reader.place)
      if (own !== undefined) return () => own
    }
    const read = [...(reads ?? reader.reads ?? sampledPlaces)].filter((place) => sampled.has(place))
    if (read.length === 0) {
      const same = new Float64Array(size).fill(reader(values))
      return () => same
    }
    const places = Int32Array.from(read)
    const columns = read.map(sampledAt)
    return derived((out) => {
      for (let at = 0; at < count; at++) {
        for (let i = 0; i < places.length; i++) {
          values[places[i] as number] = (columns[i] as Float64Array)[at] as number
        }
        out[at] = reader(values)
      }
    })
  }
  return {
    size,
    held: values,
    sampledAt,
    begin: (vectors) => {
      count = vectors
      stamp++
    },
    derived,
    columnOf: (reader, reads) => {
      const column = known.get(reader) ?? made(reader, reads)
      known.set(reader, column)
      return column
    },
    valueAt: (reader, at) => {
      for (const [place, column] of sampled) values[place] = column[at] as number
      return reader(values)
    },
  }
}

/** The sum of columns, added up in their order. */
export function columnSum(columns: Columns, [first, ...rest]: readonly [Column, ...Column[]]): Column {
  if (rest.length === 0) return first
  return columns.derived((out, count) => {
    out.set(first())
    for (const each of rest) {
      const column = each()
      for (let i = 0; i < count; i++) out[i] = (out[i] as number) + (column[i] as number)
    }
  })
}

export function columnProduct(columns: Columns, a: Column, b: Column): Column {
  return columns.derived((out, count) => {
    const [ofA, ofB] = [a(), b()]
    for (let i = 0; i < count; i++) out[i] = (ofA[i] as number) * (ofB[i] as number)
  })
}
