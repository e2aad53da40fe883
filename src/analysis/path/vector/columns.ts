// Many vectors of values side by side: a column for every sampled slot, the others held. What a chain reads of them is
// found once, so that a sample costs the formulas and not the calls that lead to them.

import type { Reader, Values } from './valueReaders'

/** The values of a reader for the vectors at hand; overwritten by the next ones. */
export interface Column {
  (): Float64Array
  /** The value in every vector, where it is always the same. */
  readonly constant?: number
}

export interface Columns {
  /** Most vectors that are held at a time. */
  readonly size: number
  /** Values of the slots that are not sampled; the entries of the others are not read. */
  readonly held: Values
  /** The values at all sampled slots, in their order, `size` for each: to be overwritten before `begin`. */
  readonly sampled: Float64Array
  /** The part of `sampled` that belongs to a slot. */
  readonly sampledAt: (slot: number) => Float64Array
  /** The columns now hold the values of `count` other vectors. */
  readonly begin: (count: number) => void
  readonly columnOf: (reader: Reader, reads?: Iterable<number>) => Column
  /** A column worked out once for the vectors at hand. */
  readonly derived: (fill: (out: Float64Array, count: number) => void) => Column
  /** The reader's value of one vector. */
  readonly valueAt: (reader: Reader, at: number) => number
}

/** Columns of the sampled slots, at most `size` vectors at a time; the other slots stay as in `held`. */
export function columnsFor(sampledSlots: readonly number[], held: Values, size: number): Columns {
  const values = Float64Array.from(held)
  const all = new Float64Array(sampledSlots.length * size)
  const sampled = new Map(sampledSlots.map((slot, i) => [slot, all.subarray(i * size, (i + 1) * size)]))
  const known = new Map<Reader, Column>()
  let count = 0
  let stamp = 0

  const sampledAt = (slot: number): Float64Array => {
    const column = sampled.get(slot)
    if (column === undefined) throw new Error(`value ${slot} has no column`)
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
    if (reader.slot !== undefined) {
      const own = sampled.get(reader.slot)
      if (own !== undefined) return () => own
    }
    const read = [...(reads ?? reader.reads ?? sampledSlots)].filter((slot) => sampled.has(slot))
    if (read.length === 0) return constantColumn(size, reader(values))
    if (reader.inColumns !== undefined) {
      const { of, fill } = reader.inColumns
      const parts = of.map((part) => columnOf(part))
      const partColumns: Float64Array[] = []
      return derived((out) => {
        for (let i = 0; i < parts.length; i++) partColumns[i] = (parts[i] as Column)()
        fill(partColumns, count, out)
      })
    }
    const slots = Int32Array.from(read)
    const columns = read.map(sampledAt)
    return derived((out) => {
      for (let at = 0; at < count; at++) {
        for (let i = 0; i < slots.length; i++) {
          values[slots[i] as number] = (columns[i] as Float64Array)[at] as number
        }
        out[at] = reader(values)
      }
    })
  }
  const columnOf: Columns['columnOf'] = (reader, reads) => {
    const column = known.get(reader) ?? made(reader, reads)
    known.set(reader, column)
    return column
  }
  return {
    size,
    held: values,
    sampled: all,
    sampledAt,
    begin: (vectors) => {
      count = vectors
      stamp++
    },
    derived,
    columnOf,
    valueAt: (reader, at) => {
      for (const [slot, column] of sampled) values[slot] = column[at] as number
      return reader(values)
    },
  }
}

export function constantColumn(size: number, constant: number): Column {
  const same = new Float64Array(size).fill(constant)
  return Object.assign(() => same, { constant })
}

/** The sum of columns, added up in their order. */
export function columnSum(columns: Columns, all: readonly [Column, ...Column[]]): Column {
  const [first, ...rest] = all.filter(({ constant }) => constant !== 0)
  if (first === undefined) return all[0]
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
  if (a.constant === 1) return b
  if (b.constant === 1) return a
  return columns.derived((out, count) => {
    const [ofA, ofB] = [a(), b()]
    for (let i = 0; i < count; i++) out[i] = (ofA[i] as number) * (ofB[i] as number)
  })
}
