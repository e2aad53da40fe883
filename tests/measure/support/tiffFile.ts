// An 8-bit grey little-endian TIFF of given strips, written from TIFF Revision 6.0 (1992), section 2.

export interface TiffParts {
  readonly width: number
  readonly height: number
  /** Value of the Compression tag. */
  readonly compression: number
  readonly strips: readonly Uint8Array[]
  /** So many strips in the directory, all of them the first one; by default each strip once. */
  readonly repeated?: number
  readonly samples?: number
}

export function tiffFile({
  width,
  height,
  compression,
  strips,
  repeated,
  samples = 1,
}: TiffParts): Uint8Array {
  const [SHORT, LONG] = [3, 4]
  const starts: number[] = []
  let end = 8
  for (const { length } of strips) {
    starts.push(end)
    end += length + (length % 2)
  }
  const lengths = strips.map(({ length }) => length)
  const times = <T>(list: readonly T[]) =>
    repeated === undefined ? list : Array<T>(repeated).fill(list[0] as T)
  const tags: readonly (readonly [tag: number, type: number, values: readonly number[]])[] = [
    [256, SHORT, [width]],
    [257, SHORT, [height]],
    [258, SHORT, [8]],
    [259, SHORT, [compression]],
    [262, SHORT, [1]],
    [273, LONG, times(starts)],
    [277, SHORT, [samples]],
    [278, SHORT, [Math.ceil(height / strips.length)]],
    [279, LONG, times(lengths)],
  ]
  let listAt = end + 2 + 12 * tags.length + 4
  const lists = tags.reduce((sum, [, , { length }]) => sum + (length > 1 ? 4 * length : 0), 0)
  const bytes = new Uint8Array(listAt + lists)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, 0x49492a00)
  view.setUint32(4, end, true)
  for (const [i, strip] of strips.entries()) bytes.set(strip, starts[i])
  view.setUint16(end, tags.length, true)
  for (const [i, [tag, type, values]] of tags.entries()) {
    const entry = end + 2 + 12 * i
    view.setUint16(entry, tag, true)
    view.setUint16(entry + 2, type, true)
    view.setUint32(entry + 4, values.length, true)
    if (values.length === 1) view.setUint32(entry + 8, values[0] ?? 0, true)
    else {
      view.setUint32(entry + 8, listAt, true)
      for (const value of values) {
        view.setUint32(listAt, value, true)
        listAt += 4
      }
    }
  }
  return bytes
}
